/** Fit groups of anything that can be said as outcomes over cases, beside the behaviours of the items themselves. */
import type { Node } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import { behaviourOn, formOfFit, type Group, groupFits, normalForm, ownLevels, type Settings } from './groups.ts';
import { settingsOn } from './positions.ts';
import type { Possible } from './possible.ts';

/** The groups of fits on which a diagram from extended cases to outcomes, over all fits, says the same. */
export function groupsOf(compiled: Compiled, node: Node): Group[] {
  const { fleet, diagrams, outcomes, space, fits, settled, possible } = compiled;
  const onFits = settled.map((fit) => {
    const settings: Settings = new Map(
      diagrams
        .support(node)
        .filter((level) => space.meanings[level]?.kind === 'control')
        .map((level) => [level, settingsOn(space, level, fit)]),
    );
    return behaviourOn(diagrams, space, node, fit, settings);
  });
  const own = ownLevels(diagrams, space, node, onFits);
  const forms = onFits.map((here, index) =>
    normalForm(diagrams, outcomes, space, here, own, possible[index] as Possible),
  );
  const ofFits = fits.map((fit) =>
    formOfFit(
      diagrams,
      outcomes,
      fit,
      fit.settled.map(({ index }) => forms[index] as Node),
    ),
  );
  return groupFits(fits, ofFits, fleet.aircraft);
}
