/** Every fit of the fleet against the baseline's. */
import { type Compiled, fitOfAircraft } from '../../compile/index.ts';
import { aircraftAddress, DIFFERENCES, optionAddress } from '../addresses.ts';
import type { DifferencesPage } from '../book.ts';
import { controlDifferences, differences } from '../differences.ts';
import { effectivity } from '../effectivity.ts';
import { trailTo } from '../trail.ts';
import { baselineOf } from './aircraft.ts';

export function differencesPage(compiled: Compiled): DifferencesPage {
  const { fleet, fits } = compiled;
  const baseline = baselineOf(compiled);
  const there = fitOfAircraft(fits, baseline.serial);
  return {
    kind: 'differences',
    address: DIFFERENCES,
    title: `Differences from ${baseline.registration}`,
    trail: trailTo(),
    baseline: { to: aircraftAddress(baseline), title: baseline.registration },
    fits: fits
      .filter((fit) => fit !== there)
      .map((fit) => {
        const first = fit.aircraft[0]?.registration ?? '';
        const titleOf = (id: string, value: string | undefined): string =>
          fleet.options.find((option) => option.id === id)?.values.find((each) => each.id === value)?.title ?? '';
        return {
          id: `fit-${fit.aircraft[0]?.serial ?? ''}`,
          effectivity: effectivity(fleet, fit.aircraft),
          options: fleet.options
            .filter(({ id }) => fit.options.get(id) !== there.options.get(id))
            .map((option) => ({
              option: { to: optionAddress(option), title: option.title },
              here: titleOf(option.id, fit.options.get(option.id)),
              baseline: titleOf(option.id, there.options.get(option.id)),
            })),
          controlDifferences: controlDifferences(compiled, fit, there),
          differences: differences(compiled, fit, there, { here: first, there: baseline.registration }),
        };
      }),
  };
}
