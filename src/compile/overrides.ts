/** Overrides: rules of wider scope that stand above the items' own. */
import type { Node } from '../logic/index.ts';
import type { Attribute, Fleet, Item, Override } from '../model/index.ts';
import type { Surroundings } from './behaviour.ts';

/** The overrides that set an attribute of an item, the strongest first. */
export function overridesOf(fleet: Fleet, item: Item, attribute: Attribute): Override[] {
  return fleet.overrides.filter(
    (override) =>
      override.attribute === attribute.id &&
      attribute.states.some(({ id }) => id === override.then) &&
      isInScope(item, override.scope),
  );
}

function isInScope(item: Item, { kinds, panels, zones, items, except }: Override['scope']): boolean {
  // A message is not an indication: overrides light lamps.
  if (item.kind === 'message' || item.kind === 'supply') return false;
  return (
    (kinds?.includes(item.kind) ?? true) &&
    (panels?.includes(item.panel) ?? true) &&
    (zones === undefined || (item.zone !== undefined && zones.includes(item.zone))) &&
    (items?.includes(item.id) ?? true) &&
    !except?.includes(item.id)
  );
}

/** The behaviour `own` with the overrides above it; `quietly` without the quiet ones. */
export function underOverrides(
  own: Node,
  item: Item,
  attribute: Attribute,
  quietly: boolean,
  { fleet, diagrams, outcomes, expressions }: Surroundings,
): Node {
  return overridesOf(fleet, item, attribute)
    .filter(({ quiet }) => !(quietly && quiet))
    .reduceRight((rest, { when, then }) => {
      const holds = expressions.compile(when, quietly);
      return diagrams.ite(holds, diagrams.terminal(outcomes.ofState(then)), rest);
    }, own);
}
