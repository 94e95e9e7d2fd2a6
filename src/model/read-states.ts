/** The states of an attribute. */
import type { Place } from '../diagnostics/index.ts';
import type { Glyph, State } from './fleet.ts';
import { spacedWords } from './words.ts';
import { entriesUnder, scalarUnder, type YamlNode } from './yaml-source.ts';

/** States with a glyph of their own. */
const GLYPHS: Readonly<Record<string, Glyph>> = { dark: 'dark', lit: 'lit', flashing: 'flashing' };

/** The states under `states`, or else dark and lit. */
export function readStates(node: YamlNode, place: Place): State[] {
  const given = entriesUnder(node, 'states');
  if (given.length === 0) return ['dark', 'lit'].map((id) => ({ id, title: id, glyph: GLYPHS[id] ?? 'none', place }));
  return given.map(({ key, keyPlace, value }) => ({
    id: key,
    title: scalarUnder(value, 'title')?.written ?? spacedWords(key),
    glyph: (scalarUnder(value, 'glyph')?.written as Glyph | undefined) ?? GLYPHS[key] ?? 'none',
    place: keyPlace,
  }));
}
