/**
 * The distinct fits of the fleet: aircraft with the same value of every option are one fit. Days after the book's date
 * on which an aircraft changes are known too, so that a fit can have aircraft now, later, or both.
 *
 * Rules are judged on *settled* fits, in which every option has a value. A fit with unknown options behaves as the
 * settled ones that it may be.
 */

import { type Aircraft, constraintExpression, type Fleet, holdsOnFit, UNKNOWN } from '../model/index.ts';

/** An aircraft for a part of the time: ISO dates, the first and the last day. Without either it is so from the start, or for good. */
export interface Holder {
  readonly aircraft: Aircraft;
  readonly from?: string;
  readonly until?: string;
}

/** A fit in which every option has a value that somebody knows, or that it may have. */
export interface SettledFit {
  /** Position in the list of settled fits. */
  readonly index: number;
  readonly options: ReadonlyMap<string, string>;
  /** Every aircraft that has it or may have it, now or later, in the fleet's order. */
  readonly aircraft: readonly Aircraft[];
}

export interface Fit {
  /** Position in the list of fits: those of the book's date in the order of their first aircraft, then later ones. */
  readonly index: number;
  /** Values, or `unknown`. */
  readonly options: ReadonlyMap<string, string>;
  /** The aircraft that have it on the book's date. Empty on one that comes later. */
  readonly aircraft: readonly Aircraft[];
  /** Those and the later ones, each with its time. */
  readonly holders: readonly Holder[];
  /** What it may be: the one settled fit, or several where an option is unknown. */
  readonly settled: readonly SettledFit[];
  /** The options that nobody knows, in the author's order. */
  readonly unknown: readonly string[];
}

export interface Fits {
  readonly fits: readonly Fit[];
  readonly settled: readonly SettledFit[];
}

/** The most ways to settle one aircraft's unknown options that are followed. */
export const SETTLED_LIMIT = 256;

/** The aircraft with more ways to settle their unknown options than can be followed, now or later. */
export function tooUnknown(fleet: Fleet): Aircraft[] {
  return fleet.aircraft.filter((aircraft) =>
    periodsOf(aircraft).some(({ options }) => {
      const unknown = fleet.options.filter(({ id }) => options.get(id) === UNKNOWN);
      return unknown.reduce((ways, { values }) => ways * values.length, 1) > SETTLED_LIMIT;
    }),
  );
}

export function fitsOf(fleet: Fleet): Fits {
  const found = new Map<string, { options: ReadonlyMap<string, string>; holders: Holder[] }>();
  const periods = fleet.aircraft.flatMap(periodsOf);
  // Those of the book's date come first.
  for (const now of [true, false]) {
    for (const { options, holder } of periods) {
      if ((holder.from === undefined) !== now) continue;
      const key = keyOf(fleet, options);
      const entry = found.get(key) ?? { options, holders: [] };
      entry.holders.push(holder);
      found.set(key, entry);
    }
  }
  const settled = new Map<string, { index: number; options: ReadonlyMap<string, string>; aircraft: Set<Aircraft> }>();
  const settle = (options: ReadonlyMap<string, string>, holders: readonly Holder[]): string => {
    const key = keyOf(fleet, options);
    const entry = settled.get(key) ?? { index: settled.size, options, aircraft: new Set<Aircraft>() };
    for (const { aircraft } of holders) entry.aircraft.add(aircraft);
    settled.set(key, entry);
    return key;
  };
  const fits = [...found.values()].map(({ options, holders }) => ({
    options,
    holders,
    keys: candidates(fleet, options).map((each) => settle(each, holders)),
  }));
  const list = [...settled.values()].map(({ index, options, aircraft }) => ({
    index,
    options,
    aircraft: fleet.aircraft.filter((each) => aircraft.has(each)),
  }));
  return {
    settled: list,
    fits: fits.map(({ options, holders, keys }, index) => ({
      index,
      options,
      holders,
      aircraft: holders.filter(({ from }) => from === undefined).map(({ aircraft }) => aircraft),
      settled: keys.map((key) => list[settled.get(key)?.index ?? 0] as SettledFit),
      unknown: fleet.options.filter(({ id }) => options.get(id) === UNKNOWN).map(({ id }) => id),
    })),
  };
}

/** What an aircraft is from the book's date on: one period for each day on which an option changes. */
function periodsOf(aircraft: Aircraft): { options: ReadonlyMap<string, string>; holder: Holder }[] {
  const changes = aircraft.changes.filter(({ option }) => option !== 'registration');
  const dates = [...new Set(changes.map(({ date }) => date))].sort();
  return [undefined, ...dates].map((from, index) => {
    const next = dates[index];
    const options = new Map(aircraft.fit);
    for (const { date, option, value } of changes) if (from !== undefined && date <= from) options.set(option, value);
    const until = next === undefined ? undefined : dayBefore(next);
    return {
      options,
      holder: { aircraft, ...(from === undefined ? {} : { from }), ...(until === undefined ? {} : { until }) },
    };
  });
}

function dayBefore(date: string): string {
  const day = new Date(`${date}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() - 1);
  return day.toISOString().slice(0, 10);
}

function keyOf(fleet: Fleet, options: ReadonlyMap<string, string>): string {
  return fleet.options.map(({ id }) => options.get(id)).join('\u0000');
}

/** Every way to settle the unknown options that the constraints permit, in the author's order of values. */
export function candidates(fleet: Fleet, options: ReadonlyMap<string, string>): ReadonlyMap<string, string>[] {
  const permitted = fleet.constraints.map(constraintExpression);
  let open: ReadonlyMap<string, string>[] = [options];
  for (const { id, values } of fleet.options) {
    if (options.get(id) !== UNKNOWN) continue;
    open = open.flatMap((each) => values.map((value) => new Map([...each, [id, value.id]])));
  }
  return open.filter((each) => permitted.every((expression) => holdsOnFit(expression, each) === true));
}

/** The fit that an aircraft has on the book's date. */
export function fitOfAircraft(fits: readonly Fit[], serial: string): Fit {
  const fit = fits.find((each) => each.aircraft.some((aircraft) => aircraft.serial === serial));
  if (!fit) throw new Error(`no aircraft has the serial ${serial}`);
  return fit;
}
