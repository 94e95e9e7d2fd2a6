/** Which aircraft something holds for, with links. */
import { effectivityText } from '../compile/index.ts';
import type { Aircraft, Fleet } from '../model/index.ts';
import { aircraftAddress } from './addresses.ts';
import type { Effectivity } from './book.ts';

export function effectivity(fleet: Fleet, aircraft: readonly Aircraft[]): Effectivity {
  const serials = new Set(aircraft.map(({ serial }) => serial));
  return {
    whole: serials.size === fleet.aircraft.length,
    aircraft: fleet.aircraft
      .filter(({ serial }) => serials.has(serial))
      .map((each) => ({ registration: each.registration, to: aircraftAddress(each) })),
    text: effectivityText(fleet, aircraft),
  };
}
