/** Worked examples of sequences, replayed: a table of steps and the course of each thing shown. */
import {
  type Compiled,
  type Course,
  type CourseRow,
  type Fraction,
  formatNumber,
  replay,
  secondsText,
} from '../compile/index.ts';
import { print } from '../language/index.ts';
import type { Timeline } from '../model/index.ts';
import { aircraftAddress, itemAddress, sequenceAddress } from './addresses.ts';
import type { Inline, StateView } from './book.ts';
import type { TimelineRow, TimelineStep, TimelineView } from './book-time.ts';
import { stateView, text } from './cells.ts';
import { timelineAnchor } from './links-time.ts';

export function timelineView(compiled: Compiled, timeline: Timeline): TimelineView {
  const course = replay(compiled, timeline);
  const aircraft = compiled.fleet.aircraft.find(({ serial }) => serial === timeline.on);
  if (!aircraft) throw new Error(`${timeline.on} is not in service`);
  const ends = [...course.steps.map(({ at }) => at), course.until];
  const times = [...new Map(ends.map((at) => [secondsText(at), at])).keys()];
  const stopped = course.faults.find(({ kind }) => kind === 'not stated');
  return {
    id: timelineAnchor(timeline),
    title: timeline.title,
    ...(timeline.about === undefined ? {} : { about: timeline.about }),
    on: { registration: aircraft.registration, to: aircraftAddress(aircraft) },
    rows: course.rows.map((row) => rowView(compiled, row, times)),
    steps: course.steps.map((step, index) => stepView(compiled, course, step, index)),
    times,
    tolerant: course.steps.some(({ changes }) => changes.some(({ range }) => range !== undefined)),
    ...(stopped?.kind === 'not stated'
      ? {
          stopped: `At ${secondsText(stopped.at)} the run stops: what "${print(stopped.expression)}" reads is not stated.`,
        }
      : {}),
  };
}

function rowView(compiled: Compiled, row: CourseRow, times: readonly string[]): TimelineRow {
  const at = (time: Fraction): number => times.indexOf(secondsText(time));
  return {
    id: row.kind === 'sequence' ? row.sequence.id : `${row.item.id}-${row.attribute.id}`,
    kind: row.kind,
    title: titleOf(row),
    // A value that another one follows at once was not there for any time.
    spans: row.spans
      .map(({ from, until, value }) => ({ from: at(from), to: at(until), state: valueView(compiled, row, value) }))
      .filter(({ from, to }) => to > from),
  };
}

function titleOf(row: CourseRow): TimelineRow['title'] {
  if (row.kind === 'sequence') return { to: sequenceAddress(row.sequence), title: row.sequence.title };
  const { item, attribute } = row;
  const part = item.attributes.length > 1 ? `: ${attribute.title}` : '';
  return { to: itemAddress(item), title: `${item.title}${part}` };
}

function valueView(compiled: Compiled, row: CourseRow, value: string | number): StateView {
  if (row.kind === 'item') return stateView(compiled, row.attribute, value as number);
  return { glyph: 'none', text: row.sequence.modes.find(({ id }) => id === value)?.title ?? String(value) };
}

function stepView(compiled: Compiled, course: Course, step: Course['steps'][number], index: number): TimelineStep {
  const { at, inputs, changes, shown } = step;
  return {
    time: secondsText(at),
    inputs: inputs.map(({ id, value }) => inputWords(compiled, id, value)),
    changes: changes.map(({ sequence, from, to, range }) => {
      const title = (mode: string): string => sequence.modes.find(({ id }) => id === mode)?.title ?? mode;
      const between = range ? `, between ${secondsText(range.earliest)} and ${secondsText(range.latest)}` : '';
      return `${sequence.title}: ${title(from)} \u2192 ${title(to)}${between}`;
    }),
    states: course.rows.flatMap((row, column) => {
      const span = row.spans.findLast(({ from }) => notAfter(from, at));
      return span ? [{ state: valueView(compiled, row, span.value), again: !shown.includes(column) && index > 0 }] : [];
    }),
  };
}

function notAfter(a: Fraction, b: Fraction): boolean {
  return a.over * b.under <= b.over * a.under;
}

/** "APU run control RUN", "APU speed 95 %". */
function inputWords({ fleet }: Compiled, id: string, value: string): Inline[] {
  const control = fleet.controls.find((each) => each.id === id);
  if (control) {
    const position = control.positions.find((each) => each.id === value);
    return [text(`${control.title} `), { kind: 'legend', text: position?.legend ?? value }];
  }
  const condition = fleet.conditions.find((each) => each.id === id);
  if (condition?.number) return [text(`${condition.title} ${formatNumber(value)} ${condition.number.unit}`)];
  if (condition)
    return [text(`${condition.title} ${condition.values?.find((each) => each.id === value)?.title ?? value}`)];
  const detector = fleet.detectors.find((each) => each.id === id);
  if (detector) return [text(`${detector.title} ${value === 'yes' ? 'tripped' : 'not tripped'}`)];
  const [itemId, lampId] = id.split('.');
  const item = fleet.items.find((each) => each.id === itemId);
  const lamp = item?.attributes.find((each) => each.id === lampId);
  return [text(`${item?.title ?? id}${lamp ? `, ${lamp.title}` : ''} ${value}`)];
}
