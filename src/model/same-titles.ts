/** Titles that tell things apart. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import type { Condition, Control, Sequence } from './fleet.ts';
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

/**
 * Reports conditions, controls and sequences that share a title across their lists, since any two of them can be columns of
 * one table. Controls that count as one are one column.
 */
export function reportSameColumns(
  {
    conditions,
    controls,
    sequences,
  }: {
    readonly conditions: readonly Condition[];
    readonly controls: readonly Control[];
    readonly sequences: readonly Sequence[];
  },
  diagnostics: Diagnostics,
): void {
  const columns = [
    ...conditions.map(({ title, place }): Column => ({ title, place, list: 'conditions' })),
    ...controls.map(
      ({ id, title, place, panel, counterpart }): Column => ({ title, place, list: panel, one: counterpart ?? id }),
    ),
    ...sequences.map(({ title, place }): Column => ({ title, place, list: undefined })),
  ];
  columns.forEach(({ title, place, list, one }, at) => {
    const other = columns
      .slice(0, at)
      .find((each) => each.title.toLocaleLowerCase('en') === title.toLocaleLowerCase('en'));
    // Within a list it is reported where the list is read.
    if (!other || (list !== undefined && other.list === list) || (one !== undefined && other.one === one)) return;
    diagnostics.report('SL359', { title, kind: 'columns of tables' }, place, [
      { place: other.place, label: 'the other one' },
    ]);
  });
}

interface Column {
  readonly title: string;
  readonly place: Place;
  /** The list in which titles are compared anyway. */
  readonly list: string | undefined;
  /** Controls with the same are one column. */
  readonly one?: string;
}
