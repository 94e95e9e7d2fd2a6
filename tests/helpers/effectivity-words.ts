/** Reads which aircraft a line of a page says that something holds for, and when. */
import type { Fit, Oracle } from '../oracle/index.ts';

/** An aircraft, by its registration on the book's date, with the first and the last day; undefined where there is none. */
export interface Holding {
  readonly registration: string;
  readonly from: string | undefined;
  readonly until: string | undefined;
}

/** The aircraft that an effectivity line names, in the fleet's order. Throws on one that the fleet does not have. */
export function readEffectivity(oracle: Oracle, words: string): Holding[] {
  const line = words.replace(/^(Holds for|On|Otherwise on) /, '');
  const order = oracle.aircraft.map(({ registration }) => registration);
  return line
    .split('; ')
    .flatMap((part) => {
      const [, named = '', word, first, last] = TIMED.exec(part) ?? [];
      const from = word === 'from' ? first : undefined;
      const until = word === 'until' ? first : last;
      return readAircraft(oracle, named).map((registration) => ({ registration, from, until }));
    })
    .sort(
      (a, b) => order.indexOf(a.registration) - order.indexOf(b.registration) || startOf(a).localeCompare(startOf(b)),
    );
}

const DAY = String.raw`(\d{4}-\d\d-\d\d)`;
const TIMED = new RegExp(`^(.*?)(?:,? (from|until) ${DAY}(?: to ${DAY})?)?$`);

/** "QQ-OAA to QQ-OAD and QQ-OAF, 5 aircraft, and the training device FTD-1". */
function readAircraft({ aircraft }: Oracle, words: string): string[] {
  const devices = aircraft.filter(({ kind }) => kind === 'device').map(({ registration }) => registration);
  const flying = aircraft.map(({ registration }) => registration).filter((each) => !devices.includes(each));
  if (words === 'the whole fleet') return [...flying, ...devices];
  if (words === 'all aircraft, but no training device') return flying;
  const [, both, trained] = /^(?:(.*?),? and )?the training devices? (.*)$/.exec(words) ?? [undefined, words];
  const named = trained === undefined ? [] : trained.split(/, | and /).flatMap((each) => runOf(devices, each));
  if (both === undefined) return named;
  if (both === 'all aircraft') return [...flying, ...named];
  const counted = /^(.*), (\d+) aircraft$/.exec(both);
  const flown = (counted?.[1] ?? both).split(/, | and /).flatMap((part) => runOf(flying, part));
  if (counted && Number(counted[2]) !== flown.length) throw new Error(`"${words}" counts ${flown.length}`);
  return [...flown, ...named];
}

/** "QQ-OAA to QQ-OAD", or one alone. */
function runOf(all: readonly string[], words: string): string[] {
  const ends = words.split(' to ').map((each) => all.indexOf(each));
  const [from = -1, to = from] = ends;
  if (ends.includes(-1)) throw new Error(`"${words}" is no aircraft of the fleet`);
  return all.slice(from, to + 1);
}

/** Who has one of the fits and when, by the oracle; times that follow each other are one. */
export function holdingsOf({ aircraft }: Oracle, fits: readonly Fit[]): Holding[] {
  return aircraft.flatMap(({ registration, course }) => {
    const found: Holding[] = [];
    for (const [at, { from, fit }] of course.entries()) {
      if (!fits.includes(fit)) continue;
      const next = course[at + 1]?.from;
      const until = next === undefined ? undefined : dayBefore(next);
      const last = found.at(-1);
      if (last?.until !== undefined && from !== undefined && last.until === dayBefore(from))
        found.splice(-1, 1, { ...last, until });
      else found.push({ registration, from, until });
    }
    return found;
  });
}

/** "QQ-OAA, QQ-OAB from 2026-12-01 to 2027-01-31". */
export function holdingsText(holdings: readonly Holding[]): string {
  return holdings
    .map(({ registration, from, until }) =>
      [registration, timeText(from, until)].filter((each) => each !== '').join(' '),
    )
    .join(', ');
}

/** "until 2026-11-30", "from 2026-12-01", "from 2026-12-01 to 2027-01-31"; empty for good. */
export function timeText(from: string | undefined, until: string | undefined): string {
  if (from === undefined) return until === undefined ? '' : `until ${until}`;
  return until === undefined ? `from ${from}` : `from ${from} to ${until}`;
}

/** Whether one of the holdings has all of the time. */
export function covers(holdings: readonly Holding[], time: Holding): boolean {
  return holdings.some(
    (each) => each.registration === time.registration && startOf(each) <= startOf(time) && endOf(each) >= endOf(time),
  );
}

const startOf = ({ from }: Holding): string => from ?? '';
const endOf = ({ until }: Holding): string => until ?? '9999-12-31';

function dayBefore(date: string): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10);
}
