/**
 * Aircraft through their time in service: one period between two changes. What values require and exclude must hold in
 * each, and a registration names one aircraft at a time; the Fleet holds those of the book's date, with what comes later.
 */
import type { Diagnostics } from '../diagnostics/index.ts';
import { print, referencesOf } from '../language/index.ts';
import type { Cell } from './csv-source.ts';
import { dayBefore } from './dates.ts';
import { type Aircraft, type Change, type Constraint, type Option, UNKNOWN } from './fleet.ts';
import { constraintExpression, type FitValues, holdsOnFit, possibleFit } from './possible-fits.ts';
import type { AircraftLine } from './read-aircraft.ts';
import type { ChangeLine } from './read-modifications.ts';

const REGISTRATION = 'registration';
const KIND_LABELS = { requires: 'required here', excludes: 'excluded here' } as const;

/** A time without changes. */
interface Period {
  readonly from: string;
  /** The last day; empty if it doesn't end. */
  readonly until: string;
  readonly registration: Cell;
  readonly fit: FitValues;
  /** What changed on its first day, by option; empty on entry into service. */
  readonly changed: ReadonlyMap<string, Cell>;
}

/** An aircraft with everything that happens to it. */
interface History {
  readonly line: AircraftLine;
  readonly changes: readonly ChangeLine[];
  readonly periods: readonly Period[];
}

export function historyOf(line: AircraftLine, changes: readonly ChangeLine[]): History {
  const days = [...new Set(changes.map(({ date }) => date.text))].filter((day) => day !== line.from);
  const fit = new Map([...line.cells].map(([id, { text }]) => [id, text]));
  let registration = line.registration;
  const periods = [line.from, ...days].map((from, at): Period => {
    const changed = new Map(
      changes.filter(({ date }) => date.text === from).map(({ option, value }) => [option.text, value]),
    );
    for (const [option, value] of changed) {
      if (option === REGISTRATION) registration = value;
      else fit.set(option, value.text);
    }
    const next = days[at];
    return { from, until: next === undefined ? line.to : dayBefore(next), registration, fit: new Map(fit), changed };
  });
  return { line, changes, periods };
}

/** The aircraft in service on `date`, both days of service included. Without a date, all as they entered service. */
export function inService(histories: readonly History[], date: string | undefined): Aircraft[] {
  return histories.flatMap(({ line, changes, periods }): Aircraft[] => {
    if (date !== undefined && (line.from > date || (line.to !== '' && date > line.to))) return [];
    const now = (date === undefined ? undefined : periods.findLast(({ from }) => from <= date)) ?? periods[0];
    if (now === undefined) return [];
    const { serial, kind } = line;
    const known = changes.map((change): Change => {
      const { date: day, option, value, document } = change;
      return {
        ...{ date: day.text, option: option.text, value: value.text, place: value.place },
        ...(document === undefined ? {} : { document }),
      };
    });
    const isLater = (change: Change): boolean => change.date > (date ?? line.from);
    return [
      {
        serial: serial.text,
        registration: now.registration.text,
        kind,
        fit: now.fit,
        changes: known.filter(isLater),
        made: known.filter((change) => !isLater(change)),
        place: serial.place,
      },
    ];
  });
}

/** Reports the registrations that two aircraft have on one day, each pair once. */
export function reportSharedRegistrations(histories: readonly History[], diagnostics: Diagnostics): void {
  histories.forEach((history, at) => {
    for (const other of histories.slice(0, at)) {
      const shared = history.periods.flatMap((period) =>
        other.periods
          .filter((each) => each.registration.text === period.registration.text && overlap(each, period))
          .map((each) => [each, period] as const),
      );
      const [pair] = shared;
      if (pair === undefined) continue;
      const [first, second] = pair;
      const related = [{ place: first.registration.place, label: 'the other one' }];
      const { text, place } = second.registration;
      diagnostics.report('SL317', { registration: text }, place, related);
    }
  });
}

function overlap(a: Period, b: Period): boolean {
  return (a.until === '' || b.from <= a.until) && (b.until === '' || a.from <= b.until);
}

/** Whether the constraints permit all that an aircraft is; reports what they don't, from the day on which it becomes so. */
export function isPermitted(
  { line, periods }: History,
  options: readonly Option[],
  constraints: readonly Constraint[],
  diagnostics: Diagnostics,
): boolean {
  let permitted = true;
  let broken: readonly Constraint[] = [];
  let impossible = false;
  periods.forEach(({ from, fit, registration, changed }, at) => {
    const facts = { aircraft: registration.text, ...(at === 0 ? {} : { date: from }) };
    /** The cell of the last change among some options, or how the aircraft entered service. */
    const blame = (ids: readonly string[]): Cell | undefined => {
      const cells = ids.flatMap((id) => changed.get(id) ?? []);
      return cells[0] ?? (ids[0] === undefined ? undefined : line.cells.get(ids[0]));
    };
    const now = constraints.filter((each) => holdsOnFit(constraintExpression(each), fit) === false);
    // Values that exclude each other may say so from both sides: that is one mistake.
    const told = new Set<string>();
    for (const constraint of now) {
      const concerned = optionsOf(constraint);
      const key = [...concerned].sort().join(' ');
      if (broken.includes(constraint) || told.has(key)) continue;
      told.add(key);
      const { option, value, kind, expression, place } = constraint;
      const cell = blame(concerned);
      const related = [{ place, label: KIND_LABELS[kind] }];
      diagnostics.report(
        'SL343',
        { ...facts, option, value, kind, expression: print(expression) },
        cell?.place,
        related,
      );
    }
    const unknown = options.filter(({ id }) => fit.get(id) === UNKNOWN).map(({ id }) => id);
    const nothing = now.length === 0 && possibleFit(fit, options, constraints.map(constraintExpression)) === undefined;
    if (nothing && !impossible) {
      const read = new Set(constraints.flatMap(optionsOf));
      const concerned = unknown.filter((id) => read.has(id));
      const open = constraints.filter(
        (each) =>
          holdsOnFit(constraintExpression(each), fit) === undefined &&
          optionsOf(each).some((id) => concerned.includes(id)),
      );
      const related = open.map(({ kind, place }) => ({ place, label: KIND_LABELS[kind] }));
      const place = blame([...concerned, ...read])?.place;
      diagnostics.report('SL344', { ...facts, options: concerned }, place, related);
    }
    broken = now;
    impossible = nothing;
    permitted = permitted && now.length === 0 && !nothing;
  });
  return permitted;
}

/** The options that a constraint speaks of, first the one whose value it belongs to. */
function optionsOf({ option, expression }: Constraint): string[] {
  return [...new Set([option, ...referencesOf(expression).map(({ id }) => id)])];
}
