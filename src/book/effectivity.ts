/** Which aircraft something holds for, with links. */
import { type Compiled, type Fit, type Holder, holdersOf, holdersText, timeText } from '../compile/index.ts';
import type { Fleet } from '../model/index.ts';
import { aircraftAddress } from './addresses.ts';
import type { Effectivity } from './book.ts';

export function effectivity(fleet: Fleet, holders: readonly Holder[]): Effectivity {
  const throughout = holders.filter(({ from, until }) => from === undefined && until === undefined);
  return {
    whole: throughout.length === fleet.aircraft.length,
    aircraft: holders.map(({ aircraft, ...time }) => ({
      registration: aircraft.registration,
      to: aircraftAddress(aircraft),
      ...time,
      ...(timeText(time) === '' ? {} : { detail: timeText(time) }),
    })),
    text: holdersText(fleet, holders),
  };
}

/** The aircraft that have one of the fits, now or later. */
export function effectivityOf({ fleet }: Compiled, fits: readonly Fit[]): Effectivity {
  return effectivity(fleet, holdersOf(fits, fleet.aircraft));
}
