/** Places of a panel: holes in which different controls may be fitted. */
import type { Context } from './context.ts';
import type { PanelPlace } from './fleet.ts';
import { reportSameTitles } from './same-titles.ts';
import type { Checked } from './schema-check.ts';
import { entriesUnder, type YamlNode } from './yaml-source.ts';

/** Reads the places; those that cannot be used are left out after a report. */
export function readPlaces(root: YamlNode, panel: string, shape: Checked<unknown>, context: Context): PanelPlace[] {
  const entries = entriesUnder(root, 'places');
  reportSameTitles(entries, 'places of this panel', context.diagnostics);
  return entries.flatMap(({ key, keyPlace, value }): PanelPlace[] => {
    const fresh = context.names.declare(key, 'place', keyPlace, value);
    if (fresh && shape.sound('places', key)) return [{ ...context.defined(key, keyPlace, value), panel }];
    context.names.break(key);
    return [];
  });
}
