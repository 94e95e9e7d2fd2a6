/** Titles that tell things apart. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import { type Entry, scalarUnder } from './yaml-source.ts';

/**
 * Reports the definitions that share their title with one before them, upper and lower case alike. `kind` says in the
 * plural what they are: "controls of this panel".
 */
export function reportSameTitles(entries: readonly Entry[], kind: string, diagnostics: Diagnostics): void {
  const first = new Map<string, Place>();
  for (const { value } of entries) {
    const title = scalarUnder(value, 'title');
    if (!title) continue;
    const folded = title.written.toLocaleLowerCase('en');
    const other = first.get(folded);
    if (other === undefined) first.set(folded, title.place);
    else {
      const related = [{ place: other, label: 'the other one' }];
      diagnostics.report('SL359', { title: title.written, kind }, title.place, related);
    }
  }
}
