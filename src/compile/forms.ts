/** Fit groups of anything that can be said as outcomes over cases, beside the behaviours of the items themselves. */
import type { Node } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import {
  type Behaviour,
  behaviourOn,
  formOfFit,
  type Group,
  groupFits,
  normalForm,
  ownLevels,
  type Settings,
} from './groups.ts';
import { settingsOn } from './positions.ts';
import type { Possible } from './possible.ts';

/** The groups of fits on which a diagram from extended cases to outcomes, over all fits, says the same. */
export function groupsOf(compiled: Compiled, node: Node): Group[] {
  const { fleet, diagrams, outcomes, space, fits, settled, possible } = compiled;
  const onFits = settled.map((fit) => onFit(compiled, node, fit));
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

/**
 * What a behaviour is on a fit by the cases that inputs permit, whatever the modes of sequences are: certain of a case is
 * there only what needs no knowledge of how sequences run.
 */
export function inputForm(compiled: Compiled, { node, own }: Behaviour, fit: SettledFit): Node {
  const { diagrams, outcomes, space, inputs } = compiled;
  const here = onFit(compiled, node, fit);
  const seen = own.filter((level) => space.meanings[level]?.kind !== 'option');
  return normalForm(diagrams, outcomes, space, here, seen, inputs[fit.index] as Possible);
}

/** A diagram from extended cases to outcomes, over all fits, as it is on one of them. */
export function onFit({ diagrams, space }: Pick<Compiled, 'diagrams' | 'space'>, node: Node, fit: SettledFit): Node {
  const settings: Settings = new Map(
    diagrams
      .support(node)
      .filter((level) => ['control', 'sequence'].includes(space.meanings[level]?.kind ?? ''))
      .map((level) => [level, settingsOn(space, level, fit)]),
  );
  return behaviourOn(diagrams, space, node, fit, settings);
}
