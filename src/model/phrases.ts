/** Words that are put into a sentence behind a state: "The lights are lit on the ground." */
import type { Diagnostics } from '../diagnostics/index.ts';
import type { ScalarNode } from './yaml-source.ts';

/** Words that a phrase of a sentence can begin with. Common grammar, no source. */
const PHRASE_STARTS = new Set(
  'above after around at before behind below beneath beside between by during for from if in inside near not off on once out outside over past since through under unless until when whenever where while with within without'.split(
    ' ',
  ),
);

/** Warns of words that do not begin as a phrase does. */
export function reportUnphrased(says: ScalarNode | undefined, diagnostics: Diagnostics): void {
  const first = says?.written.split(' ')[0]?.toLowerCase() ?? '';
  if (says && !PHRASE_STARTS.has(first)) diagnostics.report('SL311', { words: says.written }, says.place);
}
