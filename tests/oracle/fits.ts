/** Which fits there are, and which aircraft has which when. */
import type { AircraftText, ContentText } from './content.ts';

/** One distinct set of option values among the aircraft in service on the book's date, then or after a known change. */
export interface Fit {
  /** The option values in the order of options.yaml, e.g. "manual/single". */
  readonly id: string;
  readonly options: Readonly<Record<string, string>>;
  /** On the book's date. Empty where aircraft come to it only later. */
  readonly registrations: readonly string[];
  /** Every time in which an aircraft has it, `from` undefined where that is since the book's date or before. */
  readonly holders: readonly Holder[];
}
export interface Holder {
  readonly serial: string;
  readonly registration: string;
  readonly from: string | undefined;
  /** The day of the next change, which the time does not include. */
  readonly until: string | undefined;
}
export interface OracleAircraft {
  readonly serial: string;
  readonly registration: string;
  readonly kind: string;
  /** On the book's date. */
  readonly fit: Fit;
  /** The book's date first, then each day on which something changes. */
  readonly course: readonly { readonly from: string | undefined; readonly registration: string; readonly fit: Fit }[];
}

interface Growing extends Fit {
  readonly registrations: string[];
  readonly holders: Holder[];
}

/** The aircraft in service on the book's date, and their fits: those of the date first, in the aircraft's order. */
export function fleetOf(content: ContentText): { aircraft: readonly OracleAircraft[]; fits: readonly Fit[] } {
  const { date } = content.book;
  const fits = new Map<string, Growing>();
  const fitFor = (options: Readonly<Record<string, string>>): Growing => {
    const id = idOf(content, options);
    const fit = fits.get(id) ?? { id, options, registrations: [], holders: [] };
    fits.set(id, fit);
    return fit;
  };
  const flying = content.aircraft.filter(({ from, to }) => from <= date && (to === '' || date <= to));
  for (const { options, registration } of flying) fitFor(options).registrations.push(registration);
  const aircraft = flying.map((one) => {
    const stages = stagesOf(one);
    const course = stages.map(({ from, registration, options }, at) => {
      const fit = fitFor(options);
      fit.holders.push({ serial: one.serial, registration, from, until: stages[at + 1]?.from });
      return { from, registration, fit };
    });
    return { serial: one.serial, registration: one.registration, kind: one.kind, fit: course[0]!.fit, course };
  });
  return { aircraft, fits: [...fits.values()] };
}

interface Stage {
  readonly from: string | undefined;
  readonly registration: string;
  readonly options: Readonly<Record<string, string>>;
}

function stagesOf({ registration, options, changes }: AircraftText): Stage[] {
  const stages: Stage[] = [{ from: undefined, registration, options }];
  for (const { date, option, value } of changes) {
    const last = stages.at(-1)!;
    const next =
      option === 'registration'
        ? { ...last, from: date, registration: value }
        : { ...last, from: date, options: { ...last.options, [option]: value } };
    if (last.from === date) stages.pop();
    stages.push(next);
  }
  return stages;
}

const idOf = (content: ContentText, options: Readonly<Record<string, string>>): string =>
  [...content.options.keys()].map((option) => options[option]).join('/');

/** The fits that one with unknown options may be, as `permits` allows. */
export function candidatesOf(content: ContentText, fit: Fit, permits: (text: string, fit: Fit) => boolean): Fit[] {
  let all: Record<string, string>[] = [{ ...fit.options }];
  for (const [id, { values }] of content.options) {
    if (fit.options[id] !== 'unknown') continue;
    all = all.flatMap((options) => [...values.keys()].map((value) => ({ ...options, [id]: value })));
  }
  return all
    .map((options) => ({ ...fit, id: idOf(content, options), options }))
    .filter((one) =>
      [...content.options].every(([id, { permitted }]) => permits(permitted.get(one.options[id]!)!, one)),
    );
}

/**
 * The options on which it depends what is seen of aircraft that differ in nothing else: one by itself, where changing it
 * alone makes a difference; all that they differ in, where they only differ together. None where all is the same.
 */
export function decidingOptions(
  all: readonly { readonly options: Fit['options']; readonly seen: string }[],
): readonly string[] {
  const [first] = all;
  if (!first || all.every(({ seen }) => seen === first.seen)) return [];
  const open = Object.keys(first.options).filter((option) => new Set(all.map((one) => one.options[option])).size > 1);
  const alone = open.filter((option) =>
    all.some((a) =>
      all.some(
        (b) =>
          a.seen !== b.seen && open.every((other) => (a.options[other] === b.options[other]) === (other !== option)),
      ),
    ),
  );
  return alone.length > 0 ? alone : open;
}
