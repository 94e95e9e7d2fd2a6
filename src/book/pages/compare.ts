/** Where a reader compares any two aircraft, or an aircraft and a training device. */
import type { Compiled, Fit } from '../../compile/index.ts';
import type { Aircraft } from '../../model/index.ts';
import { COMPARE, chosenAnchor } from '../addresses.ts';
import type { AircraftList, ComparePage, DifferencesPage } from '../book-differences.ts';
import { registrationOn } from '../registration.ts';
import { trailTo } from '../trail.ts';

/** Whether there is anything to compare. */
export function hasPairs({ fleet }: Pick<Compiled, 'fleet'>): boolean {
  return fleet.aircraft.length > 1;
}

/** `built` are the pages that tell of differences without a script. */
export function comparePage(compiled: Compiled, built: readonly DifferencesPage[]): ComparePage {
  return {
    kind: 'compare',
    address: COMPARE,
    title: 'Any two aircraft',
    trail: trailTo(),
    lists: aircraftLists(compiled),
    built: built.map(({ address, title }) => ({ to: address, title })),
  };
}

/** The lists to choose from: that of the book's date, and one for each later day of change. */
export function aircraftLists(compiled: Compiled): AircraftList[] {
  const { date } = compiled.fleet.book;
  const changes = compiled.fleet.aircraft.flatMap((aircraft) => aircraft.changes.map((change) => change.date));
  const later = [...new Set(changes)].filter((day) => day > date).sort();
  return [date, ...later].map((from) => ({ from, groups: groupsOn(compiled, from) }));
}

/** The aircraft by fit on a day from the book's date on, under the registrations of that day. */
function groupsOn({ fleet, fits }: Compiled, day: string): AircraftList['groups'] {
  const fitted = ({ holders }: Fit): Aircraft[] =>
    holders
      .filter(({ from = '', until = day }) => from <= day && day <= until)
      .map(({ aircraft }) => aircraft)
      .filter(({ kind }) => kind === 'aircraft');
  const several = fits.filter((fit) => fitted(fit).length > 1);
  const single = fits.filter((fit) => fitted(fit).length === 1).flatMap(fitted);
  const devices = fleet.aircraft.filter(({ kind }) => kind === 'device');
  const isBaseline = ({ serial }: Aircraft): boolean => serial === fleet.book.baseline;
  const inOrder = (aircraft: readonly Aircraft[]): Aircraft[] => fleet.aircraft.filter((one) => aircraft.includes(one));
  return [
    ...several.map((fit) => ({
      title: `Fitted alike${fitted(fit).some(isBaseline) ? ', as the baseline' : ''}`,
      aircraft: inOrder(fitted(fit)),
    })),
    { title: several.length === 0 ? 'Aircraft' : 'Fitted like no other', aircraft: inOrder(single) },
    { title: devices.length === 1 ? 'Training device' : 'Training devices', aircraft: devices },
  ]
    .filter(({ aircraft }) => aircraft.length > 0)
    .map(({ title, aircraft }) => ({
      title,
      aircraft: aircraft.map((one) => ({
        serial: one.serial,
        registration: registrationOn(one, day),
        anchor: chosenAnchor(one.serial),
      })),
    }));
}
