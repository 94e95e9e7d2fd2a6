/** Small helpers for drawing tables. */
import type { Inline } from '../book/index.ts';

/** Cuts rows into runs, each starting at a row that is `first`. */
export function grouped<R extends { readonly first: boolean }>(rows: readonly R[]): R[][] {
  const groups: R[][] = [];
  for (const row of rows) {
    const current = groups.at(-1);
    if (row.first || current === undefined) groups.push([row]);
    else current.push(row);
  }
  return groups;
}

/** The words of a run without its markup. */
export function plain(words: readonly Inline[] | undefined): string {
  return (words ?? []).map((part) => part.text).join('');
}

/** Short enough to stand on one sheet with its heading; a longer table breaks between rows. */
export function isShort(rows: readonly unknown[]): boolean {
  return rows.length <= 14;
}
