/** Which items an override is about. */
import type { Attribute, Item, Override } from './fleet.ts';

export function isInScope(item: Item, { kinds, panels, zones, items, except }: Override['scope']): boolean {
  // A message is not an indication, and a supply is none either: overrides light lamps.
  if (item.kind === 'message' || item.kind === 'supply') return false;
  return (
    (kinds?.includes(item.kind) ?? true) &&
    (panels?.includes(item.panel) ?? true) &&
    (zones === undefined || (item.zone !== undefined && zones.includes(item.zone))) &&
    (items?.includes(item.id) ?? true) &&
    !except?.includes(item.id)
  );
}

/** The overrides that set an attribute of an item, the strongest first. */
export function overridesOf(overrides: readonly Override[], item: Item, attribute: Attribute): Override[] {
  return overrides.filter(
    (override) =>
      override.attribute === attribute.id &&
      attribute.states.some(({ id }) => id === override.then) &&
      isInScope(item, override.scope),
  );
}
