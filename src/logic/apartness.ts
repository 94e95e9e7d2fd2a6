/** Proof that a table has no row too many: one case out of each row, of which no two fit one row. */
import type { OutcomeGrid } from './outcome-grid.ts';

/** The most cells that are tried for the rows of one outcome. */
const MOST_TRIES = 2000;

/** Which cells of one outcome no row can hold together. Asked over and over, answered once. */
export class Apartness {
  readonly #grid: OutcomeGrid;
  readonly #outcome: number;
  readonly #known = new Map<number, boolean>();

  constructor(grid: OutcomeGrid, outcome: number) {
    this.#grid = grid;
    this.#outcome = outcome;
  }

  areApart(a: number, b: number): boolean {
    const key = Math.min(a, b) * this.#grid.size + Math.max(a, b);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const answer = !this.#grid.isPure(this.#grid.around([a, b]), this.#outcome);
    this.#known.set(key, answer);
    return answer;
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
    const choose = (at: number, chosen: readonly number[]): boolean => {
      const row = order[at];
      if (row === undefined) return true;
      for (const cell of row) {
        tries += 1;
        if (tries > MOST_TRIES) return false;
        if (chosen.every((other) => this.areApart(cell, other)) && choose(at + 1, [...chosen, cell])) return true;
      }
      return false;
    };
    return choose(0, []);
  }
}
