/** An item's supply must be among what its rules read: a supply that changes nothing would be a false statement. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import { type Expression, readsOf } from '../language/index.ts';
import type { Context } from './context.ts';
import type { Item, Signal } from './fleet.ts';
import type { DeclaredItem } from './read-items.ts';
import { itemsUnder, type YamlNode } from './yaml-source.ts';

/** Reports the conditions under `supply` that no rule of the item reads, directly or through signals and other items. */
export function reportUnreadSupply(
  declared: readonly DeclaredItem[],
  items: readonly Item[],
  signals: readonly Signal[],
  diagnostics: Diagnostics,
): void {
  const named: Named = {
    items: Map.groupBy(items, ({ id }) => id),
    signals: new Map(signals.map((signal) => [signal.id, signal])),
  };
  for (const { entry } of declared) {
    const item = named.items.get(entry.key)?.[0];
    if (!item || item.supply.length === 0) continue;
    const read = reach(item, named);
    for (const node of itemsUnder(entry.value, 'supply')) {
      if (node.kind !== 'scalar' || read.has(node.written) || !item.supply.includes(node.written)) continue;
      diagnostics.report('SL326', { condition: node.written, item: item.id }, node.place);
    }
  }
}

/**
 * The supplies and conditions under `supply` of what is dark without them. Undefined after a report: also of a condition that
 * has no normal value, since nobody could say when it is lost.
 */
export function readFeeds(node: YamlNode, context: Context): readonly Supplied[] | undefined {
  const nodes = itemsUnder(node, 'supply').filter((each) => each.kind === 'scalar');
  const read = nodes.map(({ written, place }) =>
    canFeed(written, place, context) ? { id: written, place } : undefined,
  );
  const feeds = read.filter((each) => each !== undefined);
  return feeds.length === read.length ? feeds : undefined;
}

export interface Supplied {
  readonly id: string;
  readonly place: Place;
}

/** Whether the name is a supply, or a condition of which it can be said that it is lost. Reports what it is otherwise. */
export function canFeed(id: string, place: Place, context: Context): boolean {
  if (!context.names.resolve(id, ['condition', 'supply'], place)) return false;
  if (context.names.kindOf(id) === 'supply' || context.normalOf(id) !== undefined) return true;
  context.diagnostics.report('SL373', { condition: id }, place);
  return false;
}

/** The supplies and conditions under `supply`; others are reported. */
export function readSupply(node: YamlNode, context: Context): string[] {
  return itemsUnder(node, 'supply').flatMap((each) =>
    each.kind === 'scalar' && context.names.resolve(each.written, ['condition', 'supply'], each.place)
      ? [each.written]
      : [],
  );
}

/** That what can feed is lost: a supply that nothing feeds, or a condition that does not have its normal value. */
export function isLost(id: string, place: Place, context: Context): Expression {
  if (context.names.kindOf(id) === 'supply') {
    return { op: 'among', of: { kind: 'item', id, attribute: SOURCE }, values: [LOST], place };
  }
  const normal = context.normalOf(id);
  if (normal === undefined) throw new Error(`${id} has no normal value`);
  return { op: 'not', arg: { op: 'among', of: { kind: 'condition', id }, values: [normal], place }, place };
}

/** The one attribute of a supply, and its state when nothing feeds it. */
export const SOURCE = 'source';
export const LOST = 'lost';

interface Named {
  readonly items: ReadonlyMap<string, readonly Item[]>;
  readonly signals: ReadonlyMap<string, Signal>;
}

/** The ids of everything that the item's rules read. There are no circles by now. */
function reach(item: Item, { items, signals }: Named): Set<string> {
  const found = new Set<string>();
  const visit = (expression: Expression): void => {
    for (const { id } of readsOf(expression)) {
      if (found.has(id)) continue;
      found.add(id);
      const signal = signals.get(id);
      if (signal) visit(signal.expression);
      items.get(id)?.forEach(visitRules);
    }
  };
  const visitRules = (of: Item): void => {
    for (const { rules } of of.attributes) for (const { when } of rules) if (when) visit(when);
  };
  visitRules(item);
  return found;
}
