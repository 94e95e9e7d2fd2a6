/** The fewest tiles that part a set of cells: an exact cover, searched with a bound, up to a count of work. */
import { OpenCells } from './open-cells.ts';
import { type TileCells, tileCells } from './tile-cells.ts';
import type { Tiles } from './tiles.ts';

/**
 * Fewer than `known` of the tiles that hold each of the cells 0 to `cells` - 1 once (their numbers), or undefined where the
 * search finds none. The deepest cut comes first: the cell that the fewest tiles fit is decided next, the tiles in their
 * order, which is from the largest on. After a look at `most` tiles without finding fewer the search ends with the best so far.
 */
export function fewestTiles(tiles: Tiles, cells: number, known: number, most: number): readonly number[] | undefined {
  const search = new Search(tiles, cells, known, most);
  search.start();
  return search.best;
}

class Search {
  readonly #tiles: Tiles;
  readonly #held: TileCells;
  readonly #cells: number;
  /** By the number of tiles chosen: written over when the search comes there again. */
  readonly #states: OpenCells[] = [];
  readonly #chosen: number[] = [];
  #least: number;
  #looksLeft: number;
  readonly #most: number;
  best: readonly number[] | undefined;

  constructor(tiles: Tiles, cells: number, known: number, most: number) {
    this.#tiles = tiles;
    this.#held = tileCells(tiles, cells);
    this.#cells = cells;
    this.#least = known;
    this.#looksLeft = most;
    this.#most = most;
  }

  start(): void {
    const all = this.#state(0);
    all.openAll();
    this.#goOn(all);
  }

  /** With the tiles chosen, down to where the bound ends it. */
  #goOn(state: OpenCells): void {
    this.#looksLeft -= state.gather();
    if (!state.needAtLeast(this.#least - this.#chosen.length, state)) this.#decide(state);
  }

  /** Decides one cell after the other. */
  #decide(state: OpenCells): void {
    const next = this.#state(this.#chosen.length + 1);
    for (const tile of state.tilesOfFirst()) {
      this.#chosen.push(tile);
      if (next.close(state, tile)) {
        this.best = [...this.#chosen];
        this.#least = this.#chosen.length;
        this.#looksLeft = this.#most;
      } else if (this.#looksLeft > 0) {
        // A bound that needs no look at the tiles: cells that share no tile share none of fewer.
        if (!next.needAtLeast(this.#least - this.#chosen.length, state)) this.#goOn(next);
      }
      this.#chosen.pop();
      if (this.#looksLeft <= 0) return;
    }
  }

  #state(chosen: number): OpenCells {
    const known = this.#states[chosen];
    if (known) return known;
    const made = new OpenCells(this.#tiles, this.#held, this.#cells);
    this.#states.push(made);
    return made;
  }
}
