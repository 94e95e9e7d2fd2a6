/** An aircraft's page: what is fitted, how it differs from the baseline, and where its tables stand. */
import { type Compiled, type Fit, fitOfAircraft } from '../../compile/index.ts';
import type { Aircraft } from '../../model/index.ts';
import { aircraftAddress, itemAddress, optionAddress } from '../addresses.ts';
import { attributeTitle, constantState, groupAnchor } from '../attributes.ts';
import type { AircraftPage } from '../book.ts';
import { controlDifferences, differences } from '../differences.ts';
import { effectivity } from '../effectivity.ts';
import { trailTo } from '../trail.ts';

export function aircraftPage(compiled: Compiled, aircraft: Aircraft): AircraftPage {
  const { fleet, fits } = compiled;
  const fit = fitOfAircraft(fits, aircraft.serial);
  const baseline = fitOfAircraft(fits, fleet.book.baseline);
  const names = { here: aircraft.registration, there: baselineOf(compiled).registration };
  return {
    kind: 'aircraft',
    address: aircraftAddress(aircraft),
    title: aircraft.registration,
    trail: trailTo(),
    registration: aircraft.registration,
    serial: aircraft.serial,
    baseline: aircraft.serial === fleet.book.baseline,
    fit: fleet.options.map((option) => ({
      option: { to: optionAddress(option), title: option.title },
      value: option.values.find(({ id }) => id === fit.options.get(option.id))?.title ?? '',
      asBaseline: fit.options.get(option.id) === baseline.options.get(option.id),
    })),
    sameFit: effectivity(
      fleet,
      fit.aircraft.filter(({ serial }) => serial !== aircraft.serial),
    ),
    items: items(compiled, fit),
    controlDifferences: controlDifferences(compiled, fit, baseline),
    differences: differences(compiled, fit, baseline, names),
  };
}

/** The aircraft that others are compared with. */
export function baselineOf({ fleet }: Compiled): Aircraft {
  const baseline = fleet.aircraft.find(({ serial }) => serial === fleet.book.baseline);
  if (!baseline) throw new Error('the baseline is not in service');
  return baseline;
}

function items(compiled: Compiled, fit: Fit): AircraftPage['items'] {
  return compiled.behaviours.map((behaviour) => {
    const group = behaviour.groups.find(({ fits }) => fits.includes(fit));
    if (!group) throw new Error(`${behaviour.item.id} has no group for the fit`);
    const state = constantState(compiled, behaviour, group);
    return {
      to: itemAddress(behaviour.item),
      title: attributeTitle(behaviour),
      anchor: groupAnchor(behaviour, group),
      ...(state ? { state } : {}),
    };
  });
}
