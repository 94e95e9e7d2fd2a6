/** The fleet as a matrix: every aircraft by every option. */
import { type Compiled, type Fit, fitOfAircraft } from '../../compile/index.ts';
import { type Aircraft, type Option, UNKNOWN } from '../../model/index.ts';
import { aircraftAddress, FLEET, optionAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { FleetCell, FleetPage, FleetRow } from '../book-reference.ts';
import { upperFirst } from '../cells.ts';
import { optionValue } from '../fits.ts';
import { trailTo } from '../trail.ts';
import { baselineOf, changesOf } from './aircraft.ts';

export function fleetPage(compiled: Compiled): FleetPage {
  const { fleet } = compiled;
  const baseline = baselineOf(compiled);
  const today = compiled.fits.filter(({ aircraft }) => aircraft.length > 0);
  const rows = (kind: Aircraft['kind']): FleetRow[] =>
    today.flatMap((fit) => {
      const some = fit.aircraft.filter((each) => each.kind === kind);
      return some.length > 0 ? [row(compiled, fit, some)] : [];
    });
  const changes = fleet.aircraft.flatMap((aircraft) =>
    changesOf(fleet, aircraft).map((change) => ({ ...change, aircraft: listedAircraft(aircraft) })),
  );
  return {
    kind: 'fleet',
    address: FLEET,
    title: 'The fleet by option',
    trail: trailTo(),
    asOf: fleet.book.date,
    baseline: listedAircraft(baseline),
    options: fleet.options.map((option) => ({ to: optionAddress(option), title: option.title })),
    rows: baselineFirst(rows('aircraft')),
    devices: baselineFirst(rows('device')),
    changes: changes.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)),
  };
}

function listedAircraft(aircraft: Aircraft): Listed {
  return { to: aircraftAddress(aircraft), title: aircraft.registration };
}

function baselineFirst(rows: readonly FleetRow[]): FleetRow[] {
  return [...rows.filter(({ baseline }) => baseline), ...rows.filter(({ baseline }) => !baseline)];
}

function row(compiled: Compiled, fit: Fit, aircraft: readonly Aircraft[]): FleetRow {
  const { fleet, fits } = compiled;
  const baseline = fitOfAircraft(fits, fleet.book.baseline);
  const cells = fleet.options.map((option) => cell(option, fit, baseline, aircraft));
  return {
    id: `fit-${aircraft[0]?.serial.toLowerCase()}`,
    aircraft: aircraft.map((each) => ({ ...listedAircraft(each), ...newRegistration(each) })),
    baseline: aircraft.some(({ serial }) => serial === fleet.book.baseline),
    cells,
    differing: cells.filter(({ differs }) => differs).length,
  };
}

/** "as QQ-OBE from 2027-03-01", where it is known that the registration changes. */
function newRegistration({ changes }: Aircraft): Pick<Listed, 'detail'> {
  const later = changes.filter(({ option }) => option === 'registration');
  if (later.length === 0) return {};
  return { detail: later.map(({ value, date }) => `as ${value} from ${date}`).join(', ') };
}

function cell(option: Option, fit: Fit, baseline: Fit, aircraft: readonly Aircraft[]): FleetCell {
  const title = (value: string): string =>
    value === UNKNOWN ? 'unknown' : (option.values.find(({ id }) => id === value)?.title ?? value);
  return {
    value: upperFirst(optionValue(option, fit)),
    unknown: fit.options.get(option.id) === UNKNOWN,
    differs: fit.options.get(option.id) !== baseline.options.get(option.id),
    later: aircraft.flatMap(({ registration, changes }) =>
      changes
        .filter((change) => change.option === option.id)
        .map(({ value, date }) => ({ registration, value: title(value), date })),
    ),
  };
}
