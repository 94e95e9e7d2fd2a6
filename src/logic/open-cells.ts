/** What is open in the search for the fewest tiles, and a bound of how many it needs. */
import { bitCount, lowestBit } from './bits.ts';
import type { TileCells } from './tile-cells.ts';
import type { Tiles } from './tiles.ts';

/** The cells that are in no chosen tile yet, and the tiles of none but such. */
export class OpenCells {
  readonly #tiles: Tiles;
  readonly #held: TileCells;
  readonly #open: Int32Array;
  /** The tiles that fitted before the last one was chosen, and those of them that still do. */
  #before: readonly number[] = [];
  #fitting: readonly number[] = [];
  /** By cell, how many fitting tiles hold it. */
  readonly #figures: Int32Array;
  /** By cell, a set of those that share a fitting tile with it, itself too. */
  readonly #beside: Int32Array;
  readonly #left: Int32Array;

  constructor(tiles: Tiles, held: TileCells, cells: number) {
    this.#tiles = tiles;
    this.#held = held;
    this.#open = new Int32Array(tiles.words);
    this.#figures = new Int32Array(cells);
    this.#beside = new Int32Array(cells * tiles.words);
    this.#left = new Int32Array(tiles.words);
  }

  openAll(): void {
    for (let cell = 0; cell < this.#figures.length; cell += 1) add(this.#open, cell);
    this.#before = Array.from({ length: this.#tiles.count }, (_, tile) => tile);
  }

  /** As `other` with one more tile chosen; whether no cell is open then. */
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

  /** Looks which tiles still fit, and which cells they hold together; at how many tiles it looked. */
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
   * beside which fewest are left comes next, and takes these with it. `known` says which share a tile: this state, once
   * gathered, or an earlier one, which had more tiles.
   */
  needAtLeast(wanted: number, known: OpenCells): boolean {
    const { words } = this.#tiles;
    this.#left.set(this.#open);
    for (let found = 0; found < wanted; found += 1) {
      const cell = this.#loneliest(known.#beside);
      if (cell < 0) return false;
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
}

function add(set: Int32Array, cell: number): void {
  set[cell >>> 5] = (set[cell >>> 5] as number) | (1 << cell);
}
