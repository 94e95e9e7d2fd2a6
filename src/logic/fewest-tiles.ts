/** The fewest tiles that part a set of cells: an exact cover, searched with a bound, up to a count of choices. */
import type { Tile } from './tiles.ts';

/**
 * Fewer than `known` of the tiles that hold each of the cells 0 to `count` - 1 once, or undefined where the search finds
 * none. The deepest cut comes first: the cell that the fewest tiles fit is decided next, the tiles in their order, which is from
 * the largest on. After `most` choices the search ends with the best found so far.
 */
export function fewestTiles(
  tiles: readonly Tile[],
  count: number,
  known: number,
  most: number,
): readonly Tile[] | undefined {
  const search = new Search(tiles, count, known, most);
  search.start();
  return search.best;
}

/** All of its state is counted up and down again: nothing is made anew for a choice. */
class Search {
  readonly #tiles: readonly Tile[];
  /** By cell, the tiles that hold it. */
  readonly #holding: readonly (readonly number[])[];
  readonly #open: OpenCells;
  /** By tile, how many of its cells are not open. */
  readonly #taken: Int32Array;
  /** By cell, how many tiles of open cells hold it. */
  readonly #fitting: Int32Array;
  readonly #chosen: Tile[] = [];
  #least: number;
  #choicesLeft: number;
  best: readonly Tile[] | undefined;

  constructor(tiles: readonly Tile[], count: number, known: number, most: number) {
    const holding = Array.from({ length: count }, (): number[] => []);
    tiles.forEach(({ held }, index) => {
      for (const cell of held) holding[cell]?.push(index);
    });
    this.#tiles = tiles;
    this.#holding = holding;
    this.#open = new OpenCells(holding.map((some, cell) => besideCell(some, cell, tiles, count)));
    this.#taken = new Int32Array(tiles.length);
    this.#fitting = Int32Array.from(holding, (some) => some.length);
    this.#least = known;
    this.#choicesLeft = most;
  }

  start(): void {
    this.#choicesLeft -= 1;
    if (!this.#open.needAtLeast(this.#least)) this.#decide();
  }

  /** Decides one cell after the other. */
  #decide(): void {
    const cell = this.#open.least(this.#fitting);
    for (const index of this.#holding[cell] as readonly number[]) {
      if (this.#taken[index] !== 0) continue;
      const tile = this.#tiles[index] as Tile;
      this.#chosen.push(tile);
      for (const each of tile.held) this.#open.close(each);
      this.#goOn(tile);
      for (const each of tile.held) this.#open.reopen(each);
      this.#chosen.pop();
      // A tile that holds all that is open comes first, so that nothing is found after the last choice.
      if (this.#choicesLeft === 0) return;
    }
  }

  /** With the last choice, down to where the bound ends it. */
  #goOn(tile: Tile): void {
    if (this.#open.count === 0) {
      this.best = [...this.#chosen];
      this.#least = this.#chosen.length;
      return;
    }
    if (this.#choicesLeft === 0) return;
    this.#choicesLeft -= 1;
    if (this.#open.needAtLeast(this.#least - this.#chosen.length)) return;
    for (const cell of tile.held) for (const index of this.#holding[cell] as readonly number[]) this.#take(index);
    this.#decide();
    for (const cell of tile.held) for (const index of this.#holding[cell] as readonly number[]) this.#giveBack(index);
  }

  #take(index: number): void {
    if (this.#taken[index] === 0) this.#count(index, -1);
    this.#taken[index] = (this.#taken[index] as number) + 1;
  }

  #giveBack(index: number): void {
    this.#taken[index] = (this.#taken[index] as number) - 1;
    if (this.#taken[index] === 0) this.#count(index, 1);
  }

  #count(index: number, change: number): void {
    for (const cell of (this.#tiles[index] as Tile).held) {
      this.#fitting[cell] = (this.#fitting[cell] as number) + change;
    }
  }
}

/** The cells that share a tile with one, itself too. */
function besideCell(
  holding: readonly number[],
  cell: number,
  tiles: readonly Tile[],
  count: number,
): readonly number[] {
  const isBeside = new Uint8Array(count);
  isBeside[cell] = 1;
  for (const index of holding) for (const other of (tiles[index] as Tile).held) isBeside[other] = 1;
  return Array.from(isBeside.keys()).filter((other) => isBeside[other]);
}

/** The cells that are in no chosen tile yet. */
class OpenCells {
  readonly #beside: readonly (readonly number[])[];
  readonly #isOpen: Uint8Array;
  /** By cell, how many of the cells beside it are open. */
  readonly #besideOpen: Int32Array;
  count: number;
  // What `needAtLeast` works with.
  readonly #left: Int32Array;
  readonly #isLeft: Uint8Array;
  readonly #besideLeft: Int32Array;

  constructor(beside: readonly (readonly number[])[]) {
    this.#beside = beside;
    this.count = beside.length;
    this.#isOpen = new Uint8Array(this.count).fill(1);
    this.#besideOpen = Int32Array.from(beside, (cells) => cells.length);
    this.#left = new Int32Array(this.count);
    this.#isLeft = new Uint8Array(this.count);
    this.#besideLeft = new Int32Array(this.count);
  }

  close(cell: number): void {
    this.count -= 1;
    this.#isOpen[cell] = 0;
    for (const other of this.#beside[cell] as readonly number[]) {
      this.#besideOpen[other] = (this.#besideOpen[other] as number) - 1;
    }
  }

  reopen(cell: number): void {
    this.count += 1;
    this.#isOpen[cell] = 1;
    for (const other of this.#beside[cell] as readonly number[]) {
      this.#besideOpen[other] = (this.#besideOpen[other] as number) + 1;
    }
  }

  /** The first open cell with the least figure. */
  least(figures: Int32Array): number {
    let found = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let cell = 0; cell < figures.length; cell += 1) {
      if (this.#isOpen[cell] === 0 || (figures[cell] as number) >= least) continue;
      found = cell;
      least = figures[cell] as number;
    }
    return found;
  }

  /**
   * Whether a greedy choice finds so many open cells of which no two share a tile, so that as many tiles are needed: the one
   * beside which fewest are left comes next, and takes these with it.
   */
  needAtLeast(wanted: number): boolean {
    const left = this.#left;
    let count = 0;
    for (let cell = 0; cell < this.#isOpen.length; cell += 1) if (this.#isOpen[cell]) left[count++] = cell;
    this.#isLeft.set(this.#isOpen);
    this.#besideLeft.set(this.#besideOpen);
    for (let found = 0; found < wanted; found += 1) {
      if (found + count < wanted) return false;
      this.#takeOut(this.#loneliest(count));
      let kept = 0;
      for (let at = 0; at < count; at += 1) {
        const cell = left[at] as number;
        if (this.#isLeft[cell]) left[kept++] = cell;
      }
      count = kept;
    }
    return true;
  }

  #loneliest(count: number): number {
    let found = this.#left[0] as number;
    for (let at = 1; at < count; at += 1) {
      const cell = this.#left[at] as number;
      if ((this.#besideLeft[cell] as number) < (this.#besideLeft[found] as number)) found = cell;
    }
    return found;
  }

  #takeOut(cell: number): void {
    for (const gone of this.#beside[cell] as readonly number[]) {
      if (!this.#isLeft[gone]) continue;
      this.#isLeft[gone] = 0;
      for (const other of this.#beside[gone] as readonly number[]) {
        this.#besideLeft[other] = (this.#besideLeft[other] as number) - 1;
      }
    }
  }
}
