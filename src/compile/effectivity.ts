/** Which aircraft something holds for, in words. */
import { list } from '../diagnostics/index.ts';
import type { Aircraft, Fleet } from '../model/index.ts';
import type { Holder } from './fits.ts';

/**
 * "the whole fleet", "QQ-OAC", "QQ-OAA to QQ-OAD and QQ-OAF, 5 aircraft". Three or more that follow each other in the
 * fleet's order become a run. Training devices are named after the aircraft and not counted with them: "QQ-OAA to QQ-OAD,
 * 4 aircraft, and the training device FTD-1". "The whole fleet" has the devices in it; without them it is "all aircraft,
 * but no training device". `aircraft` may be in any order.
 */
export function effectivityText(fleet: Fleet, aircraft: readonly Aircraft[]): string {
  const wanted = new Set(aircraft.map(({ serial }) => serial));
  if (wanted.size === fleet.aircraft.length) return 'the whole fleet';
  const fly = fleet.aircraft.filter(({ kind }) => kind === 'aircraft');
  const flying = fly.filter(({ serial }) => wanted.has(serial)).length;
  const devices = fleet.aircraft.filter(({ kind, serial }) => kind === 'device' && wanted.has(serial));
  const all = flying === fly.length && flying > 1;
  if (all && devices.length === 0) return 'all aircraft, but no training device';
  const named = list(
    devices.map(({ registration }) => registration),
    'and',
  );
  const trained = `the training device${devices.length > 1 ? 's' : ''} ${named}`;
  if (flying === 0) return trained;
  const words = all ? 'all aircraft' : runs(fly, wanted);
  const flown = all || flying === 1 ? words : `${words}, ${flying} aircraft`;
  if (devices.length === 0) return flown;
  return `${flown}${flown === words ? '' : ','} and ${trained}`;
}

/**
 * The same with the times of those that join or leave: "QQ-OAA to QQ-OAC, 3 aircraft; QQ-OAE until 2026-11-30; QQ-OAF from
 * 2026-12-01". Those that are there throughout come first, then those that leave, then those that join, by date.
 */
export function holdersText(fleet: Fleet, holders: readonly Holder[]): string {
  const byTime = [...Map.groupBy(holders, ({ from = '', until = '' }) => `${from} ${until}`).values()];
  return byTime
    .toSorted((a, b) => startOf(a).localeCompare(startOf(b)) || endOf(a).localeCompare(endOf(b)))
    .map((some) => {
      const words = effectivityText(
        fleet,
        some.map(({ aircraft }) => aircraft),
      );
      const time = timeText(some[0]);
      if (time === '') return words;
      return words.includes(',') ? `${words}, ${time}` : `${words} ${time}`;
    })
    .join('; ');
}

/** "until 2026-11-30", "from 2026-12-01", "from 2026-12-01 to 2027-01-31"; empty for good. Both days are included. */
export function timeText({ from, until }: Pick<Holder, 'from' | 'until'> = {}): string {
  if (from === undefined) return until === undefined ? '' : `until ${until}`;
  return until === undefined ? `from ${from}` : `from ${from} to ${until}`;
}

function startOf([first]: readonly Holder[]): string {
  return first?.from ?? '';
}

/** What lasts for good stands before what ends. */
function endOf([first]: readonly Holder[]): string {
  return first?.until ?? '';
}

/** "QQ-OAA to QQ-OAD and QQ-OAF". */
function runs(fleet: readonly Aircraft[], wanted: ReadonlySet<string>): string {
  const found: string[][] = [];
  let before = false;
  for (const { serial, registration } of fleet) {
    const here = wanted.has(serial);
    if (here && before) found.at(-1)?.push(registration);
    else if (here) found.push([registration]);
    before = here;
  }
  const parts = found.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run.at(-1)}`] : run));
  return list(parts, 'and');
}
