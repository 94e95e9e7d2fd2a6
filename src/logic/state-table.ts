/** The state table of a diagram: every possible case in one row, in as few rows as the search finds. */
import { bestOrder } from './column-order.ts';
import type { Diagrams } from './diagrams.ts';
import type { DoneRow } from './row-block.ts';
import { TableSpace } from './table-space.ts';
import type { Node } from './unique-table.ts';
import { ANY } from './value-sets.ts';
import { verifyTable } from './verify-table.ts';

export interface TableRow {
  /** Parallel to the table's columns: values in rising order, undefined for any. */
  readonly cells: readonly (readonly number[] | undefined)[];
  readonly outcome: number;
}

export interface StateTable {
  /** The levels as shown: the own one first, the others as they were split. */
  readonly columns: readonly number[];
  /** The order that the table was split in, with the levels that turned out not to matter; the next table's `previous`. */
  readonly split: readonly number[];
  readonly rows: readonly TableRow[];
}

export interface TableOptions {
  /** The terminal of cases that cannot happen. */
  readonly impossible: number;
  /** The level to show first, and to prefer first among equally good orders. */
  readonly own?: number;
  /** The order of an earlier table, kept while no other has fewer rows. */
  readonly previous?: readonly number[];
  /** The most steps (rows split, rows compared) that the search takes after the first order. */
  readonly budget?: number;
}

const DEFAULT_BUDGET = 20_000;

/**
 * The table of `f`, which maps each case to its outcome. Rows are disjoint and complete on the possible cases; each has
 * one, and may run over impossible ones to stay short. Where no order of splits makes the fewest rows of an outcome, a
 * search over all rows does (up to a few thousand cells; `src/logic/fewest.ts`). Rows stand in the order of their first values, column by column.
 * The same function of the same variables always gives the same table.
 */
export function stateTable(diagrams: Diagrams, f: Node, options: TableOptions): StateTable {
  const { impossible } = options;
  if (f === diagrams.terminal(impossible)) return { columns: [], split: [], rows: [] };
  const space = new TableSpace(diagrams, f, impossible);
  const base = startingWith(
    options.own,
    space.levels.map((_, column) => column),
    space,
  );
  const best = bestOrder(space, base, keptOrder(options.previous, base, space), options.budget ?? DEFAULT_BUDGET);
  const shown = startingWith(options.own, best.order, space).filter((column) =>
    best.rows.some((row) => row.cells[column] !== ANY),
  );
  const table: StateTable = {
    columns: shown.map((column) => space.levels[column] as number),
    split: best.order.map((column) => space.levels[column] as number),
    rows: best.rows.map((row) => tableRow(space, row, shown)).toSorted(byFirstValues),
  };
  const fault = verifyTable(diagrams, f, table, impossible);
  if (fault !== undefined) throw new Error(`the state table is wrong: ${fault}`);
  return table;
}

function startingWith(own: number | undefined, order: readonly number[], space: TableSpace): readonly number[] {
  const isOwn = (column: number): boolean => space.levels[column] === own;
  return [...order.filter(isOwn), ...order.filter((column) => !isOwn(column))];
}

/** The columns of an earlier order that are still there, then the new ones. */
function keptOrder(
  previous: readonly number[] | undefined,
  base: readonly number[],
  space: TableSpace,
): readonly number[] | undefined {
  const kept = previous?.map((level) => space.levels.indexOf(level)).filter((column) => column >= 0);
  return kept && [...new Set([...kept, ...base])];
}

function tableRow(space: TableSpace, row: DoneRow, columns: readonly number[]): TableRow {
  const cells = columns.map((column) => {
    const set = row.cells[column] as number;
    return set === ANY ? undefined : space.sets[column]?.values(set);
  });
  return { cells, outcome: space.diagrams.valueOf(row.node) as number };
}

/** Compares rows by the least value of each cell; rows that start alike keep their order. */
function byFirstValues(a: TableRow, b: TableRow): number {
  for (const [index, cell] of a.cells.entries()) {
    const difference = (cell?.[0] ?? 0) - (b.cells[index]?.[0] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
