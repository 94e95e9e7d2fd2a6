/** Which cases can happen on a fit: the care set, as far as inputs decide. Modes are added by `reach.ts`. */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Fleet } from '../model/index.ts';
import { detectorCuts } from './cells.ts';
import type { Expressions } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import { settingsOn } from './positions.ts';
import { levelOf, optionLevels, type Space } from './space.ts';

/**
 * What must hold in a case that can happen on a fit as far as controls, detectors and `never` decide: Boolean diagrams
 * without options.
 */
export function inputConstraints(
  fleet: Fleet,
  space: Space,
  diagrams: Diagrams,
  expressions: Expressions,
  fit: SettledFit,
): Node[] {
  const options = optionLevels(space, fit);
  const fitted = space.meanings.flatMap(({ kind }, level) =>
    kind === 'control' ? [diagrams.literal(level, settingsOn(space, level, fit))] : [],
  );
  const never = fleet.never.map(({ expression }) =>
    diagrams.not(diagrams.restrictAll(expressions.compile(expression), options)),
  );
  return [...fitted, ...never, ...detectorAnswers(fleet, space, diagrams, expressions)];
}

/** A detector's answer is certain outside of its band, and free within; of ordered ones the later trips only with the earlier. */
function detectorAnswers(fleet: Fleet, space: Space, diagrams: Diagrams, expressions: Expressions): Node[] {
  const trips = (id: string): Node => diagrams.literal(levelOf(space, id), [1]);
  const certain = fleet.detectors.flatMap((detector) => {
    const [low, high] = detectorCuts(detector).map((value) =>
      expressions.comparison(detector.number, detector.by, value),
    ) as [Node, Node];
    // A rising comparison is harder to fulfil at the upper end, a falling one at the lower.
    const [surely, perhaps] = detector.by.startsWith('>') ? [high, low] : [low, high];
    return [diagrams.implies(surely, trips(detector.id)), diagrams.implies(trips(detector.id), perhaps)];
  });
  const ordered = fleet.detectorOrders.flatMap(({ detectors }) =>
    detectors.slice(1).map((id, before) => diagrams.implies(trips(id), trips(detectors[before] ?? id))),
  );
  return [...certain, ...ordered];
}
