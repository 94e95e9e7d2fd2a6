/** Joining finished rows of a table that differ in one column. */
import type { PartialRow, TableSpace } from './table-space.ts';
import { APART, type ValueSets } from './value-sets.ts';

/**
 * Joins rows of equal outcome whose cells differ in one column, the first joinable pair first, until none is left.
 * A joined row stands in the place of its first. (The merging of limited-entry tables, on sets of values.)
 * Counts the pairs that are looked at when every join starts again with the first pair; those known to be apart are not
 * looked at twice.
 */
export function joinRows(space: TableSpace, rows: readonly PartialRow[]): readonly PartialRow[] {
  const joined = [...rows];
  const join = (i: number, j: number): boolean => {
    const union = joinPair(space, joined[i] as PartialRow, joined[j] as PartialRow);
    if (!union) return false;
    space.steps += pairsUpTo(i, j, joined.length);
    joined[i] = union;
    joined.splice(j, 1);
    return true;
  };
  for (let i = 0; i < joined.length; i += 1) {
    for (let j = i + 1; j < joined.length; j += 1) {
      if (!join(i, j)) continue;
      // The larger row may be joinable with one that stands before it, or with one that it was apart from.
      for (let before = 0; before < i; before += 1) {
        if (!join(before, i)) continue;
        i = before;
        before = -1;
      }
      j = i;
    }
  }
  space.steps += (joined.length * (joined.length - 1)) / 2;
  return joined;
}

/** The place of the pair (`i`, `j`) among all pairs of so many rows, counted from 1, the pairs of the first row first. */
function pairsUpTo(i: number, j: number, rows: number): number {
  return i * (rows - 1) - (i * (i - 1)) / 2 + (j - i);
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
