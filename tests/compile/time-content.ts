/** Small contents of sequences and timelines for these tests, and their replay. */
import { type Compiled, compileFleet } from '../../src/compile/index.ts';
import { type Course, decimalText, replay } from '../../src/compile/time/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';

const BASE: Readonly<Record<string, string>> = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': 'grade:\n  title: Grade\n  values:\n    plain: { title: Plain }\n    full: { title: Full }\n',
  'aircraft.csv': 'serial,registration,from,to,grade\n1,QQ-A,2020-01-01,,plain\n2,QQ-B,2020-01-01,,full\n',
  'conditions.yaml': `conditions:
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
  speed:
    title: Speed
    number: { unit: "%", from: 0, to: 110, step: 0.5 }
never:
  - bus is lost and speed > 100 %
`,
};

const PANEL = `panel: p
title: P
controls:
  knob:
    title: Knob
    form: knob
    positions: { OFF: {}, RUN: {}, START: { returns: RUN }, SET: { fitted: grade is full } }
`;

/** The small content with some sequences (indented by two) and timelines, compiled. Throws where something is wrong. */
export function compileTime(
  sequences: string,
  timelines: string,
  more: Readonly<Record<string, string>> = {},
): Compiled {
  const { compiled, reported } = tryTime(sequences, timelines, more);
  if (!compiled || reported.length > 0) throw new Error(`the content is not sound: ${reported.join(', ')}`);
  return compiled;
}

/** The files of the small content with some sequences and timelines. `panel` among the others is what stands above them. */
export function timeFiles(
  sequences: string,
  timelines: string,
  { panel = PANEL, ...others }: Readonly<Record<string, string>> = {},
): Readonly<Record<string, string>> {
  return { ...BASE, 'panels/p.yaml': `${panel}sequences:\n${sequences}`, 'timelines.yaml': timelines, ...others };
}

export function tryTime(
  sequences: string,
  timelines: string,
  more: Readonly<Record<string, string>> = {},
): { readonly compiled: Compiled | undefined; readonly reported: string[] } {
  const files = Object.entries(timeFiles(sequences, timelines, more)).map(([path, text]) => ({ path, text }));
  const diagnostics = new Diagnostics();
  const fleet = readFleet(files, diagnostics);
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const errors = diagnostics.all.filter(({ code }) => !/^SL45|^SL46|^SL47/.test(code));
  return { compiled, reported: errors.map(({ code, facts }) => `${code} ${JSON.stringify(facts)}`) };
}

export function courseOf(compiled: Compiled, id: string): Course {
  const timeline = compiled.fleet.timelines.find((each) => each.id === id);
  if (!timeline) throw new Error(`no timeline is called ${id}`);
  return replay(compiled, timeline);
}

/** Every change of mode: "32 apu: starting > running". */
export function changesOf(course: Course): string[] {
  return course.steps.flatMap(({ at, changes }) =>
    changes.map(({ sequence, from, to }) => `${decimalText(at).text} ${sequence.id}: ${from} > ${to}`),
  );
}
