/** Legends that differ between fits: `legends:` of positions and items. */
import { type Context, OPTIONS_ALONE } from './context.ts';
import type { FittedLegend } from './fleet.ts';
import { itemsUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** The legends under `legends`, each with its expression over options. `ok` is false when one cannot be used. */
export function readLegends(
  node: YamlNode,
  context: Context,
): { readonly legends: readonly FittedLegend[]; readonly ok: boolean } {
  const items = itemsUnder(node, 'legends');
  const legends = items.flatMap((each): FittedLegend[] => {
    const scalar = scalarUnder(each, 'when');
    const when = scalar && context.expression(scalar, OPTIONS_ALONE);
    return when ? [{ when, legend: scalarUnder(each, 'legend')?.written ?? '' }] : [];
  });
  return { legends, ok: legends.length === items.length };
}
