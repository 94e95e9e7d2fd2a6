/** The distinct fits of the fleet: aircraft with the same value of every option are one fit. */
import type { Aircraft, Fleet } from '../model/index.ts';

export interface Fit {
  /** Position in the list of fits, which is in the order of the fleet's first aircraft of each. */
  readonly index: number;
  readonly options: ReadonlyMap<string, string>;
  readonly aircraft: readonly Aircraft[];
}

export function fitsOf(fleet: Fleet): Fit[] {
  const byKey = new Map<string, Aircraft[]>();
  for (const aircraft of fleet.aircraft) {
    const key = fleet.options.map((option) => aircraft.fit.get(option.id)).join('\u0000');
    byKey.set(key, [...(byKey.get(key) ?? []), aircraft]);
  }
  return [...byKey.values()].map((aircraft, index) => ({ index, options: (aircraft[0] as Aircraft).fit, aircraft }));
}

/** The fit that an aircraft has. */
export function fitOfAircraft(fits: readonly Fit[], serial: string): Fit {
  const fit = fits.find((each) => each.aircraft.some((aircraft) => aircraft.serial === serial));
  if (!fit) throw new Error(`no aircraft has the serial ${serial}`);
  return fit;
}
