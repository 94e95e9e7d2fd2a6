/** Overrides: rules of wider scope that stand above the items' own. */
import type { Node } from '../logic/index.ts';
import { type Attribute, type Item, overridesOf } from '../model/index.ts';
import type { Surroundings } from './behaviour.ts';

/** The behaviour `own` with the overrides above it; `quietly` without the quiet ones. */
export function underOverrides(
  own: Node,
  item: Item,
  attribute: Attribute,
  quietly: boolean,
  { fleet, diagrams, outcomes, expressions }: Surroundings,
): Node {
  return overridesOf(fleet.overrides, item, attribute)
    .filter(({ quiet }) => !(quietly && quiet))
    .reduceRight((rest, { when, then }) => {
      const holds = expressions.compile(when, quietly);
      return diagrams.ite(holds, diagrams.terminal(outcomes.ofState(then)), rest);
    }, own);
}
