/** Joining finished rows of a table that differ in one column. */
import { RowBlock } from './row-block.ts';
import type { TableSpace } from './table-space.ts';
import type { Node } from './unique-table.ts';
import { APART, type ValueSets } from './value-sets.ts';

/**
 * Joins rows of equal outcome whose cells differ in one column, the first joinable pair first, until none is left.
 * A joined row stands in the place of its first. (The merging of limited-entry tables, on sets of values.)
 * Each pair that is looked at counts as a step.
 */
export class RowJoiner {
  readonly #space: TableSpace;
  #rows: RowBlock;
  /** By row, the next one with the same outcome, -1 after the last; and the first such row. */
  #next = new Int32Array(0);
  #first = new Int32Array(0);
  /** By row, whether it was joined to one before it. */
  #isGone = new Uint8Array(0);
  readonly #lasts = new Map<Node, number>();

  constructor(space: TableSpace) {
    this.#space = space;
    this.#rows = new RowBlock(space.levels.length);
  }

  /** Joins the rows, all of them done, in place. */
  join(rows: RowBlock): void {
    this.#start(rows);
    for (let row = 0; row < rows.count; row += 1) if (!this.#isGone[row]) this.#joinFrom(row);
    let kept = 0;
    for (let row = 0; row < rows.count; row += 1) {
      if (this.#isGone[row]) continue;
      if (kept < row) rows.move(row, kept);
      kept += 1;
    }
    rows.count = kept;
  }

  #start(rows: RowBlock): void {
    this.#rows = rows;
    if (this.#next.length < rows.count) {
      this.#next = new Int32Array(2 * rows.count);
      this.#first = new Int32Array(2 * rows.count);
      this.#isGone = new Uint8Array(2 * rows.count);
    }
    this.#isGone.fill(0, 0, rows.count);
    this.#lasts.clear();
    for (let row = 0; row < rows.count; row += 1) {
      const node = rows.nodes[row] as Node;
      const last = this.#lasts.get(node) ?? -1;
      if (last >= 0) this.#next[last] = row;
      this.#first[row] = last < 0 ? row : (this.#first[last] as number);
      this.#next[row] = -1;
      this.#lasts.set(node, row);
    }
  }

  /** Joins later rows to this one. The larger row may be joinable with one before it, or with one that it was apart from. */
  #joinFrom(row: number): void {
    let one = row;
    let other = this.#next[one] as number;
    while (other >= 0) {
      if (this.#joinPair(one, other)) {
        let before = this.#first[one] as number;
        while (before < one) {
          if (this.#joinPair(before, one)) {
            one = before;
            before = this.#first[one] as number;
          } else before = this.#next[before] as number;
        }
        other = one;
      }
      other = this.#next[other] as number;
    }
  }

  #joinPair(one: number, other: number): boolean {
    if (this.#isGone[one] || this.#isGone[other]) return false;
    this.#space.steps += 1;
    const { cells, width } = this.#rows;
    const [a, b] = [one * width, other * width];
    let column = -1;
    for (let at = 0; at < width; at += 1) {
      if (cells[a + at] === cells[b + at]) continue;
      if (column >= 0) return false;
      column = at;
    }
    const sets = this.#space.sets[column] as ValueSets;
    const union = sets.union(cells[a + column] as number, cells[b + column] as number);
    if (union === APART) return false;
    cells[a + column] = union;
    this.#isGone[other] = 1;
    return true;
  }
}
