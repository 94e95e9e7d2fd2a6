/** Where a reader compares any two aircraft, or an aircraft and a training device. */
import type { Compiled, Fit } from '../../compile/index.ts';
import type { Aircraft } from '../../model/index.ts';
import { COMPARE, chosenAnchor } from '../addresses.ts';
import type { ComparePage, DifferencesPage } from '../book-differences.ts';
import { trailTo } from '../trail.ts';

/** Whether there is anything to compare. */
export function hasPairs({ fleet }: Pick<Compiled, 'fleet'>): boolean {
  return fleet.aircraft.length > 1;
}

/** `built` are the pages that tell of differences without a script. */
export function comparePage({ fleet, fits }: Compiled, built: readonly DifferencesPage[]): ComparePage {
  const fitted = (fit: Fit): Aircraft[] => fit.aircraft.filter(({ kind }) => kind === 'aircraft');
  const several = fits.filter((fit) => fitted(fit).length > 1);
  const single = fits.filter((fit) => fitted(fit).length === 1).flatMap(fitted);
  const devices = fleet.aircraft.filter(({ kind }) => kind === 'device');
  const isBaseline = ({ serial }: Aircraft): boolean => serial === fleet.book.baseline;
  return {
    kind: 'compare',
    address: COMPARE,
    title: 'Any two aircraft',
    trail: trailTo(),
    groups: [
      ...several.map((fit) => ({
        title: `Fitted alike${fitted(fit).some(isBaseline) ? ', as the baseline' : ''}`,
        aircraft: fitted(fit),
      })),
      { title: several.length === 0 ? 'Aircraft' : 'Fitted like no other', aircraft: single },
      { title: devices.length === 1 ? 'Training device' : 'Training devices', aircraft: devices },
    ]
      .filter(({ aircraft }) => aircraft.length > 0)
      .map(({ title, aircraft }) => ({
        title,
        aircraft: aircraft.map(({ serial, registration }) => ({ serial, registration, anchor: chosenAnchor(serial) })),
      })),
    asOf: fleet.book.date,
    built: built.map(({ address, title }) => ({ to: address, title })),
  };
}
