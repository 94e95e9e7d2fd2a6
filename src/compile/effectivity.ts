/** Which aircraft something holds for, in words. */
import { list } from '../diagnostics/index.ts';
import type { Aircraft, Fleet } from '../model/index.ts';

/**
 * "the whole fleet", "QQ-OAC", "QQ-OAA to QQ-OAD and QQ-OAF, 5 aircraft". Three or more that follow each other in the
 * fleet's order become a run. `aircraft` may be in any order.
 */
export function effectivityText(fleet: Fleet, aircraft: readonly Aircraft[]): string {
  const wanted = new Set(aircraft.map(({ serial }) => serial));
  if (wanted.size === fleet.aircraft.length) return 'the whole fleet';
  const runs: string[][] = [];
  let before = false;
  for (const { serial, registration } of fleet.aircraft) {
    const here = wanted.has(serial);
    if (here && before) runs.at(-1)?.push(registration);
    else if (here) runs.push([registration]);
    before = here;
  }
  const parts = runs.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run.at(-1)}`] : run));
  const words = list(parts, 'and');
  return wanted.size === 1 ? words : `${words}, ${wanted.size} aircraft`;
}
