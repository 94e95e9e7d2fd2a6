/** All rows that could stand in a table for cells of one outcome. */
import { bitCount } from './bits.ts';
import type { Axis, OutcomeGrid } from './outcome-grid.ts';
import { Tuples } from './tuples.ts';

/** Sets of cells that could make a row each; a set has a bit for each cell, in words of 32. */
export interface Tiles {
  readonly count: number;
  readonly words: number;
  /** Tile `t` has the words from `t * words` on. */
  readonly bits: Int32Array;
}

/**
 * The sets of `cells` that are in a box without a case of another outcome, the largest sets first; undefined where that
 * takes more than `most` boxes. All cells have the same outcome.
 */
export function allTiles(grid: OutcomeGrid, cells: readonly number[], most: number): Tiles | undefined {
  const growth = new Growth(grid, cells);
  return growth.isEnded(most) ? largestFirst(growth.contents()) : undefined;
}

/** Boxes, each a tuple of masks, that grow by a place at a time for as long as they hold no case of another outcome. */
class Growth {
  readonly #grid: OutcomeGrid;
  readonly #cells: readonly number[];
  readonly #outcome: number;
  readonly #words: number;
  readonly #boxes: Tuples;
  /** By box and axis, the places that cannot be added. */
  readonly #barred: number[] = [];
  /** By box, the words of the set of cells that it holds. */
  readonly #held: number[] = [];
  /** By box, the one that it grew from, and the axis. */
  readonly #parent: number[] = [];
  readonly #axis: number[] = [];
  /** The box that is looked for. */
  readonly #box: Int32Array;

  constructor(grid: OutcomeGrid, cells: readonly number[]) {
    this.#grid = grid;
    this.#cells = cells;
    this.#outcome = grid.outcome(cells[0] as number);
    this.#words = (cells.length + 31) >>> 5;
    this.#boxes = new Tuples(grid.axes.length);
    this.#box = new Int32Array(grid.axes.length);
  }

  /**
   * Makes every such box that holds one of the cells, and says whether these are not more than `most`. Each is reached by
   * growing, since what it grew from is part of it; those of fewer places come first.
   */
  isEnded(most: number): boolean {
    for (const cell of this.#cells) {
      this.#grid.axes.forEach((_, axis) => {
        this.#box[axis] = 1 << this.#grid.place(cell, axis);
      });
      this.#add(-1, -1);
    }
    for (let box = 0; box < this.#boxes.count; box += 1) {
      if (this.#boxes.count > most) return false;
      if (box < this.#cells.length) this.#startFrom(box);
      else this.#join(box);
      this.#grow(box);
    }
    return true;
  }

  /** What the boxes hold, each set of cells once. */
  contents(): Tuples {
    const sets = new Tuples(this.#words);
    const set = new Int32Array(this.#words);
    for (let start = 0; start < this.#held.length; start += this.#words) {
      for (let word = 0; word < this.#words; word += 1) set[word] = this.#held[start + word] as number;
      sets.add(set);
    }
    return sets;
  }

  /** The box of one cell. */
  #startFrom(cell: number): void {
    for (let word = 0; word < this.#words; word += 1) this.#held.push(word === cell >>> 5 ? 1 << cell : 0);
    this.#copy(cell);
    for (let axis = 0; axis < this.#box.length; axis += 1) this.#barred.push(this.#barredBeside(axis, 0));
  }

  /** A box is its parent and a slice of one place: what is in the way of either is in its way, and no more. */
  #join(box: number): void {
    const { data, width } = this.#boxes;
    const parent = this.#parent[box] as number;
    const axis = this.#axis[box] as number;
    this.#copy(box);
    this.#box[axis] = (data[box * width + axis] as number) & ~(data[parent * width + axis] as number);
    // It has fewer places, so that it came before; unless it only holds what cannot happen.
    const slice = this.#boxes.find(this.#box);
    for (let word = 0; word < this.#words; word += 1) {
      const own = slice < 0 ? 0 : (this.#held[slice * this.#words + word] as number);
      this.#held.push((this.#held[parent * this.#words + word] as number) | own);
    }
    for (let other = 0; other < width; other += 1) {
      const known = this.#barred[parent * width + other] as number;
      this.#barred.push(
        slice < 0 ? this.#barredBeside(other, known) : known | (this.#barred[slice * width + other] as number),
      );
    }
  }

  /** The places on an axis that cannot be added to the box that is looked at, with those that are known. */
  #barredBeside(axis: number, known: number): number {
    const own = this.#box[axis] as number;
    let barred = known;
    for (let rest = this.#beside(axis, own) & ~known; rest; rest &= rest - 1) {
      this.#box[axis] = rest & -rest;
      if (!this.#grid.isPure(this.#box, this.#outcome)) barred |= rest & -rest;
    }
    this.#box[axis] = own;
    return barred;
  }

  /** The places by which a set of places on an axis could grow. */
  #beside(axis: number, mask: number): number {
    const { ordered, places } = this.#grid.axes[axis] as Axis;
    const near = ordered ? (mask << 1) | (mask >>> 1) : -1;
    return near & ~mask & (2 ** places.length - 1);
  }

  #grow(box: number): void {
    const { width } = this.#boxes;
    this.#copy(box);
    for (let axis = 0; axis < width; axis += 1) {
      const mask = this.#box[axis] as number;
      const barred = this.#barred[box * width + axis] as number;
      for (let rest = this.#beside(axis, mask) & ~barred; rest; rest &= rest - 1) {
        this.#box[axis] = mask | (rest & -rest);
        this.#add(box, axis);
      }
      this.#box[axis] = mask;
    }
  }

  #add(parent: number, axis: number): void {
    if (!this.#boxes.add(this.#box)) return;
    this.#parent.push(parent);
    this.#axis.push(axis);
  }

  #copy(box: number): void {
    const { data, width } = this.#boxes;
    for (let axis = 0; axis < width; axis += 1) this.#box[axis] = data[box * width + axis] as number;
  }
}

/** Sets of equal size stay in their order. */
function largestFirst({ count, width, data }: Tuples): Tiles {
  const bySize: number[][] = [];
  for (let set = 0; set < count; set += 1) {
    const size = sizeOf(data, set * width, width);
    bySize[size] ??= [];
    bySize[size].push(set);
  }
  const bits = new Int32Array(count * width);
  let place = 0;
  for (let size = bySize.length - 1; size > 0; size -= 1) {
    for (const set of bySize[size] ?? []) {
      for (let word = 0; word < width; word += 1) bits[place * width + word] = data[set * width + word] as number;
      place += 1;
    }
  }
  return { count, words: width, bits };
}

function sizeOf(bits: Int32Array, start: number, words: number): number {
  let size = 0;
  for (let word = start; word < start + words; word += 1) size += bitCount(bits[word] as number);
  return size;
}
