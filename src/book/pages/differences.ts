/** Every fit of the fleet, now or later, against the baseline's. */
import { type Compiled, type Fit, fitOfAircraft, timeText } from '../../compile/index.ts';
import { aircraftAddress, DIFFERENCES, optionAddress } from '../addresses.ts';
import type { DifferencesPage } from '../book.ts';
import { controlDifferences, differences } from '../differences.ts';
import { effectivityOf } from '../effectivity.ts';
import { optionValue } from '../fits.ts';
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
        const { id, name } = firstOf(fit);
        return {
          id: `fit-${id}`,
          effectivity: effectivityOf(compiled, [fit]),
          options: fleet.options
            .filter((option) => fit.options.get(option.id) !== there.options.get(option.id))
            .map((option) => ({
              option: { to: optionAddress(option), title: option.title },
              here: optionValue(option, fit),
              baseline: optionValue(option, there),
            })),
          controlDifferences: controlDifferences(compiled, fit, there),
          differences: differences(compiled, fit, there, { here: name, there: baseline.registration }),
        };
      }),
  };
}

/** The first aircraft that has a fit, which stands for it in anchors and words; with the date where none has it yet. */
function firstOf({ holders }: Fit): { id: string; name: string } {
  const now = holders.find(({ from }) => from === undefined);
  const first = now ?? holders[0];
  if (!first) throw new Error('a fit that no aircraft ever has');
  const { serial, registration } = first.aircraft;
  if (now) return { id: serial, name: registration };
  return { id: `${serial}-${first.from}`, name: `${registration} ${timeText(first)}` };
}
