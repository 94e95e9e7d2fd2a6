/** The CSV of expected tables. */
import { parse } from 'csv-parse/sync';

export interface Csv {
  /** The first line without its last column. */
  readonly columns: readonly string[];
  /** Parallel to the columns. */
  readonly rows: readonly { readonly cells: readonly string[]; readonly result: string; readonly line: number }[];
}

export function readTable(text: string, result: string): Csv {
  const [head = [], ...rows]: string[][] = parse(text, { trim: true });
  if (head.at(-1) !== result) throw new Error(`the last column is not "${result}"`);
  return {
    columns: head.slice(0, -1),
    rows: rows.map((row, at) => ({ cells: row.slice(0, -1), result: row.at(-1) ?? '', line: at + 2 })),
  };
}
