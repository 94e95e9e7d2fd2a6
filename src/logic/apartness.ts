/** Proof that a table has no row too many: one case out of each row, of which no two fit one row. */
import { placesIn } from './bits.ts';
import type { Box, OutcomeGrid } from './outcome-grid.ts';

/** The most cells that are tried for the rows of one outcome. */
const MOST_TRIES = 2000;

/** A row as a box, and its cells of the outcome. */
export interface Held {
  readonly box: Box;
  readonly cells: readonly number[];
}

/** Which cells of one outcome no row can hold together. Asked over and over, answered once. */
export class Apartness {
  readonly #grid: OutcomeGrid;
  readonly #outcome: number;
  /** By cell, its place among those of the outcome. */
  readonly #places: Int32Array;
  readonly #count: number;
  /** By the places of two cells: 0 while not known, 1 apart, 2 not. */
  readonly #known: Uint8Array;

  constructor(grid: OutcomeGrid, outcome: number) {
    this.#grid = grid;
    this.#outcome = outcome;
    this.#places = new Int32Array(grid.size);
    let count = 0;
    for (let cell = 0; cell < grid.size; cell += 1) {
      if (grid.outcome(cell) !== outcome) continue;
      this.#places[cell] = count;
      count += 1;
    }
    this.#count = count;
    this.#known = new Uint8Array(count * count);
  }

  areApart(a: number, b: number): boolean {
    const pair = (this.#places[Math.min(a, b)] as number) * this.#count + (this.#places[Math.max(a, b)] as number);
    if (!this.#known[pair]) this.#known[pair] = this.#grid.isPureAround(a, b, this.#outcome) ? 2 : 1;
    return this.#known[pair] === 1;
  }

  /**
   * Whether some cell of one row is not apart from some cell of another. Where all cells of both can happen, few pairs need
   * to be asked: of two cells that are not apart, one may take over the other's place on an axis where its row has it.
   */
  areTouching(one: Held, other: Held): boolean {
    if (!isFull(one) || !isFull(other)) return one.cells.some((a) => other.cells.some((b) => !this.areApart(a, b)));
    const visit = (column: number, a: number, b: number): boolean => {
      if (column === one.box.length) return !this.areApart(a, b);
      const stride = this.#grid.strides[column] as number;
      const [here, there] = [one.box[column] as number, other.box[column] as number];
      const next = (x: number, y: number): boolean => visit(column + 1, a + x * stride, b + y * stride);
      return (
        placesIn(here & there).some((place) => next(place, place)) ||
        placesIn(here & ~there).some((x) => placesIn(there & ~here).some((y) => next(x, y)))
      );
    };
    return visit(0, 0, 0);
  }

  /**
   * Whether one cell can be chosen from each of these rows (disjoint sets of cells of the outcome) so that no two of the
   * chosen could stand in a row together. Then no table has fewer rows for these cells. `false` proves nothing: the search
   * is capped, and the fewest rows may have no such proof.
   */
  isProvenFewest(rows: readonly (readonly number[])[]): boolean {
    // Small rows leave the least choice.
    const order = rows.toSorted((a, b) => a.length - b.length);
    let tries = 0;
    const chosen: number[] = [];
    const choose = (at: number): boolean => {
      const row = order[at];
      if (row === undefined) return true;
      for (const cell of row) {
        tries += 1;
        if (tries > MOST_TRIES) return false;
        if (!chosen.every((other) => this.areApart(cell, other))) continue;
        chosen.push(cell);
        if (choose(at + 1)) return true;
        chosen.pop();
      }
      return false;
    };
    return choose(0);
  }
}

/** Whether every cell of the row can happen. */
function isFull({ box, cells }: Held): boolean {
  return cells.length === box.reduce((product, mask) => product * placesIn(mask).length, 1);
}
