/** The CSV of expected tables. */
import { parse } from 'csv-parse/sync';

export interface Table {
  /** The names in the first line, without that of the result. */
  readonly columns: readonly string[];
  /** `cells` stand parallel to the columns. */
  readonly rows: readonly { readonly cells: readonly string[]; readonly result: string; readonly line: number }[];
}

/** A table whose last column, called `result`, says what comes out. */
export function readTable(text: string, result: string): Table {
  const [head = [], ...rows] = readLines(text);
  if (head.at(-1) !== result) throw new Error(`the last column is not "${result}"`);
  return {
    columns: head.slice(0, -1),
    rows: rows.map((row, at) => ({ cells: row.slice(0, -1), result: row.at(-1) ?? '', line: at + 2 })),
  };
}

export function readLines(text: string): readonly (readonly string[])[] {
  return parse(text, { trim: true });
}

/** "lit/dark" is "dark/lit". */
export function isSame(expected: string, found: string): boolean {
  return expected.split('/').sort().join('/') === found.split('/').sort().join('/');
}
