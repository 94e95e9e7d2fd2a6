/** Joining finished rows of a table that differ in one column. */
import type { PartialRow, TableSpace } from './table-space.ts';
import { APART, type ValueSets } from './value-sets.ts';

/**
 * Joins rows of equal outcome whose cells differ in one column, the first joinable pair first, until none is left.
 * A joined row stands in the place of its first. (The merging of limited-entry tables, on sets of values.)
 */
export function joinRows(space: TableSpace, rows: readonly PartialRow[]): readonly PartialRow[] {
  const joined = [...rows];
  for (let i = 0; i < joined.length; i += 1) {
    for (let j = i + 1; j < joined.length; j += 1) {
      space.steps += 1;
      const union = joinPair(space, joined[i] as PartialRow, joined[j] as PartialRow);
      if (!union) continue;
      joined[i] = union;
      joined.splice(j, 1);
      // The larger row may be joinable with one that stands before it: look again from the start.
      i = -1;
      break;
    }
  }
  return joined;
}

function joinPair(space: TableSpace, a: PartialRow, b: PartialRow): PartialRow | undefined {
  if (a.node !== b.node) return undefined;
  let column = -1;
  for (let index = 0; index < a.cells.length; index += 1) {
    if (a.cells[index] === b.cells[index]) continue;
    if (column >= 0) return undefined;
    column = index;
  }
  const union = (space.sets[column] as ValueSets).union(a.cells[column] as number, b.cells[column] as number);
  return union === APART ? undefined : { cells: a.cells.with(column, union), node: a.node };
}
