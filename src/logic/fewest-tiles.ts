/** The fewest tiles that part a set of cells: an exact cover, searched with a bound, up to a count of choices. */
import { lowestBit } from './outcome-grid.ts';
import { type TileCells, tileCells } from './tile-cells.ts';
import { bitCount, type Tiles } from './tiles.ts';

/**
 * Fewer than `known` of the tiles that hold each of the cells 0 to `cells` - 1 once (their numbers), or undefined where the
 * search finds none. The deepest cut comes first: the cell that the fewest tiles fit is decided next, the tiles in their
 * order, which is from the largest on. After `most` choices the search ends with the best found so far.
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
  #choicesLeft: number;
  #most: number;
  best: readonly number[] | undefined;

  constructor(tiles: Tiles, cells: number, known: number, most: number) {
    this.#tiles = tiles;
    this.#held = tileCells(tiles, cells);
    this.#cells = cells;
    this.#least = known;
    this.#choicesLeft = most;
    this.#most = most;
  }

  start(): void {
    const all = this.#state(0);
    all.openAll();
    this.#goOn(all);
  }

  /** With the last choice, down to where the bound ends it. */
  #goOn(state: OpenCells): void {
    this.#choicesLeft -= state.gather();
    if (!state.needAtLeast(this.#least - this.#chosen.length, state)) this.#decide(state);
  }

  /** Decides one cell after the other. */
  #decide(state: OpenCells): void {
    const next = this.#state(this.#chosen.length + 1);
    for (const tile of state.tilesOfFirst()) {
      const allowed = this.#least - this.#chosen.length - 1;
      if (state.aloneWithout(tile) >= allowed) continue;
      this.#chosen.push(tile);
      if (next.close(state, tile)) {
        this.best = [...this.#chosen];
        this.#least = this.#chosen.length;
        this.#choicesLeft = this.#most;
      } else if (this.#choicesLeft > 0 && !next.needAtLeast(allowed, state)) this.#goOn(next);
      this.#chosen.pop();
      // A tile that holds all that is open comes first, so that nothing is found after the last choice.
      if (this.#choicesLeft <= 0) return;
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

/** The cells that are in no chosen tile yet, and the tiles of none but such. */
class OpenCells {
  readonly #tiles: Tiles;
  readonly #held: TileCells;
  readonly #open: Int32Array;
  #fitting: readonly number[] = [];
  #before: readonly number[] = [];
  /** By cell, how many fitting tiles hold it. */
  readonly #figures: Int32Array;
  /** By cell, a set of those that share a fitting tile with it, itself too. */
  readonly #beside: Int32Array;
  /** Open cells of which no two share a fitting tile. */
  readonly #alone: Int32Array;
  readonly #left: Int32Array;

  constructor(tiles: Tiles, held: TileCells, cells: number) {
    this.#tiles = tiles;
    this.#held = held;
    this.#open = new Int32Array(tiles.words);
    this.#figures = new Int32Array(cells);
    this.#beside = new Int32Array(cells * tiles.words);
    this.#alone = new Int32Array(tiles.words);
    this.#left = new Int32Array(tiles.words);
  }

  openAll(): void {
    for (let cell = 0; cell < this.#figures.length; cell += 1) add(this.#open, cell);
    this.#before = Array.from({ length: this.#tiles.count }, (_, tile) => tile);
  }

  /** As another state with one more tile chosen; whether no cell is open then. */
  close(other: OpenCells, tile: number): boolean {
    const { words, bits } = this.#tiles;
    let any = 0;
    for (let word = 0; word < words; word += 1) {
      const open = (other.#open[word] as number) & ~(bits[tile * words + word] as number);
      this.#open[word] = open;
      any |= open;
    }
    this.#before = other.#fitting;
    return any === 0;
  }

  /** Looks which tiles still fit, and which cells they hold together. */
  gather(): number {
    const { starts, held, pairStarts, ones, others } = this.#held;
    this.#figures.fill(0);
    this.#beside.fill(0);
    for (let cell = 0; cell < this.#figures.length; cell += 1) this.#putBeside(cell, cell);
    const fitting: number[] = [];
    for (const tile of this.#before) {
      if (!this.#fits(tile)) continue;
      fitting.push(tile);
      for (let at = starts[tile] as number; at < (starts[tile + 1] as number); at += 1) {
        const cell = held[at] as number;
        this.#figures[cell] = (this.#figures[cell] as number) + 1;
      }
      for (let pair = pairStarts[tile] as number; pair < (pairStarts[tile + 1] as number); pair += 1) {
        this.#putBeside(ones[pair] as number, others[pair] as number);
        this.#putBeside(others[pair] as number, ones[pair] as number);
      }
    }
    this.#fitting = fitting;
    return this.#before.length;
  }

  #putBeside(one: number, other: number): void {
    const word = one * this.#tiles.words + (other >>> 5);
    this.#beside[word] = (this.#beside[word] as number) | (1 << other);
  }

  #fits(tile: number): boolean {
    const { words, bits } = this.#tiles;
    const start = tile * words;
    for (let word = 0; word < words; word += 1) {
      if ((bits[start + word] as number) & ~(this.#open[word] as number)) return false;
    }
    return true;
  }

  /** The fitting tiles that hold the first open cell that the fewest hold. */
  tilesOfFirst(): readonly number[] {
    const { words, bits } = this.#tiles;
    let first = -1;
    for (let word = 0; word < words; word += 1) {
      for (let rest = this.#open[word] as number; rest; rest &= rest - 1) {
        const cell = 32 * word + lowestBit(rest);
        if (first < 0 || (this.#figures[cell] as number) < (this.#figures[first] as number)) first = cell;
      }
    }
    return this.#fitting.filter((tile) => (bits[tile * words + (first >>> 5)] as number) & (1 << first));
  }

  /**
   * Whether a greedy choice finds so many open cells of which no two share a tile, so that as many tiles are needed: the one
   * beside which fewest are left comes next, and takes these with it.
   */
  needAtLeast(wanted: number, known: OpenCells): boolean {
    const { words } = this.#tiles;
    this.#left.set(this.#open);
    this.#alone.fill(0);
    for (let found = 0; found < wanted; found += 1) {
      const cell = this.#loneliest(known.#beside);
      if (cell < 0) return false;
      add(this.#alone, cell);
      for (let word = 0; word < words; word += 1) {
        this.#left[word] = (this.#left[word] as number) & ~(known.#beside[cell * words + word] as number);
      }
    }
    return true;
  }

  #loneliest(beside: Int32Array): number {
    const { words } = this.#tiles;
    let found = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let word = 0; word < words; word += 1) {
      for (let rest = this.#left[word] as number; rest; rest &= rest - 1) {
        const cell = 32 * word + lowestBit(rest);
        let company = 0;
        for (let at = 0; at < words; at += 1) {
          company += bitCount((beside[cell * words + at] as number) & (this.#left[at] as number));
        }
        if (company >= least) continue;
        found = cell;
        least = company;
      }
    }
    return found;
  }

  /** How many of the cells that share no tile are not in this one. */
  aloneWithout(tile: number): number {
    const { words, bits } = this.#tiles;
    let count = 0;
    for (let word = 0; word < words; word += 1) {
      count += bitCount((this.#alone[word] as number) & ~(bits[tile * words + word] as number));
    }
    return count;
  }
}

function add(set: Int32Array, cell: number): void {
  set[cell >>> 5] = (set[cell >>> 5] as number) | (1 << cell);
}
