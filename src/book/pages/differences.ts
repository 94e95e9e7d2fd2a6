/** Every fit of the fleet, now or later, against the baseline's; and a training device against every aircraft. */
import { type Compiled, type Fit, fitOfAircraft } from '../../compile/index.ts';
import type { Aircraft } from '../../model/index.ts';
import { aircraftAddress, COMPARE, DIFFERENCES, differencesAddress, optionAddress } from '../addresses.ts';
import type { Address, Listed } from '../book.ts';
import type { DifferencesPage, DifferingGroup, PanelDifferences } from '../book-differences.ts';
import { inShort } from '../differences-in-short.ts';
import { effectivityOf } from '../effectivity.ts';
import { optionValue } from '../fits.ts';
import { type Comparing, firstOf, sharedDifferences, THESE } from '../shared-differences.ts';
import { trailTo } from '../trail.ts';
import { baselineOf } from './aircraft.ts';
import { hasPairs } from './compare.ts';

/** The page of the baseline, then one for each training device. */
export function differencesPages(compiled: Compiled): DifferencesPage[] {
  const { fleet, fits } = compiled;
  const baseline = baselineOf(compiled);
  const devices = fleet.aircraft.filter(({ kind }) => kind === 'device');
  const there = fitOfAircraft(fits, baseline.serial);
  return [
    {
      ...pageOf(compiled, baseline, DIFFERENCES, {
        fits: fits.filter((fit) => fit !== there),
        sides: (fit) => [fit, there],
        names: (aircraft) => ({ here: aircraft, there: baseline.registration }),
      }),
      title: `Differences from ${baseline.registration}`,
      names: ['Here', baseline.registration],
      devices: devices.map(listedDevice),
    },
    ...devices.map((device) => devicePage(compiled, device)),
  ];
}

/** "What Trainer 1 does otherwise". */
function listedDevice(device: Aircraft): Listed {
  return { to: differencesAddress(device), title: `What ${device.registration} does otherwise` };
}

function devicePage(compiled: Compiled, device: Aircraft): DifferencesPage {
  const { fits } = compiled;
  const here = fitOfAircraft(fits, device.serial);
  const flying = fits.filter((fit) => fit !== here && fit.holders.some(({ aircraft }) => aircraft.kind === 'aircraft'));
  const { to, title } = listedDevice(device);
  return {
    ...pageOf(compiled, device, to, {
      fits: flying,
      sides: (fit) => [here, fit],
      names: (aircraft) => ({ here: device.registration, there: aircraft }),
    }),
    title,
    trail: [...trailTo(), { to: DIFFERENCES, title: `Differences from ${baselineOf(compiled).registration}` }],
    names: [device.registration, 'These aircraft'],
    devices: [],
  };
}

function pageOf(
  compiled: Compiled,
  reference: Aircraft,
  address: Address,
  comparing: Comparing,
): Omit<DifferencesPage, 'title' | 'names' | 'devices'> {
  const { byFit, panels } = sharedDifferences(compiled, comparing);
  return {
    kind: 'differences',
    address,
    trail: trailTo(),
    ...(hasPairs(compiled) ? { compare: { to: COMPARE, title: 'Compare any two aircraft' } } : {}),
    reference: { to: aircraftAddress(reference), title: reference.registration },
    groups: [...byFit].map(([fit, parts]) => groupOf(compiled, fit, parts, address, comparing)),
    panels,
  };
}

function groupOf(
  compiled: Compiled,
  fit: Fit,
  parts: readonly PanelDifferences[],
  address: Address,
  { sides, names }: Comparing,
): DifferingGroup {
  const [here, there] = sides(fit);
  return {
    id: `fit-${firstOf(fit)}`.toLowerCase(),
    effectivity: effectivityOf(compiled, [fit]),
    options: compiled.fleet.options
      .filter((option) => here.options.get(option.id) !== there.options.get(option.id))
      .map((option) => ({
        option: { to: optionAddress(option), title: option.title },
        here: optionValue(option, here),
        baseline: optionValue(option, there),
      })),
    panels: parts.map((each) => ({ panel: each.panel, sentences: inShort(each, address, names(THESE)) })),
  };
}
