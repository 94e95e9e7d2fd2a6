/** Which aircraft something holds for, in words. */
import { list } from '../diagnostics/index.ts';
import type { Aircraft, Fleet } from '../model/index.ts';

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
