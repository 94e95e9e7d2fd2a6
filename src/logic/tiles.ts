/** All rows that could stand in a table for cells of one outcome. */
import { lowestBit, type OutcomeGrid } from './outcome-grid.ts';
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
  const boxes = new Growth(grid, grid.outcome(cells[0] as number)).from(cells, most);
  if (!boxes) return undefined;
  const contents = new Contents(grid, cells);
  for (let box = 0; box < boxes.count; box += 1) contents.add(boxes.data, box * boxes.width);
  return largestFirst(contents.sets);
}

/** Boxes, each a tuple of masks, that grow by a place at a time for as long as they hold no case of another outcome. */
class Growth {
  readonly #grid: OutcomeGrid;
  readonly #outcome: number;
  readonly #boxes: Tuples;
  /** By box and axis, the places that cannot be added: what is in the way of a box is in the way of all that holds it. */
  readonly #barred: number[] = [];
  /** By box, which one it grew from (-1 for none), and on which axis. */
  readonly #parent: number[] = [];
  readonly #axis: number[] = [];
  /** The box that is tried. */
  readonly #tried: Int32Array;

  constructor(grid: OutcomeGrid, outcome: number) {
    this.#grid = grid;
    this.#outcome = outcome;
    this.#boxes = new Tuples(grid.axes.length);
    this.#tried = new Int32Array(grid.axes.length);
  }

  /** Every such box that holds one of the cells: each is reached by growing, since what it grew from is part of it. */
  from(cells: readonly number[], most: number): Tuples | undefined {
    const { axes } = this.#grid;
    for (const cell of cells) {
      for (let axis = 0; axis < axes.length; axis += 1) this.#tried[axis] = 1 << this.#grid.place(cell, axis);
      this.#boxes.add(this.#tried);
      this.#grewFrom(-1, -1);
    }
    for (let box = 0; box < this.#boxes.count; box += 1) {
      if (this.#boxes.count > most) return undefined;
      for (let axis = 0; axis < axes.length; axis += 1) this.#growOn(box, axis);
    }
    return this.#boxes;
  }

  #growOn(box: number, axis: number): void {
    const { width } = this.#boxes;
    const { ordered, places } = this.#grid.axes[axis] as OutcomeGrid['axes'][number];
    const mask = this.#boxes.data[box * width + axis] as number;
    const parent = this.#parent[box] as number;
    let barred = parent < 0 ? 0 : (this.#barred[parent * width + axis] as number);
    const beside = ordered ? (mask << 1) | (mask >>> 1) : -1;
    for (let rest = beside & ~mask & ~barred & (2 ** places.length - 1); rest; rest &= rest - 1) {
      const place = rest & -rest;
      if (this.#isBarred(box, axis, place)) barred |= place;
      else this.#add(box, axis, place);
    }
    this.#barred[box * width + axis] = barred;
  }

  /** Whether a case of another outcome is in the way: where the box's parent could grow alike, only what it did not hold is looked at. */
  #isBarred(box: number, axis: number, place: number): boolean {
    const parent = this.#parent[box] as number;
    const grownOn = this.#axis[box] as number;
    const { data, width } = this.#boxes;
    if (parent >= 0 && grownOn === axis && !this.#grid.axes[axis]?.ordered) return false;
    this.#try(box);
    this.#tried[axis] = place;
    if (parent >= 0 && grownOn !== axis) {
      this.#tried[grownOn] = (this.#tried[grownOn] as number) & ~(data[parent * width + grownOn] as number);
    }
    return !this.#grid.isPure(this.#tried, this.#outcome);
  }

  #try(box: number): void {
    const { data, width } = this.#boxes;
    for (let axis = 0; axis < width; axis += 1) this.#tried[axis] = data[box * width + axis] as number;
  }

  #add(parent: number, axis: number, place: number): void {
    this.#try(parent);
    this.#tried[axis] = (this.#tried[axis] as number) | place;
    if (this.#boxes.add(this.#tried)) this.#grewFrom(parent, axis);
  }

  #grewFrom(parent: number, axis: number): void {
    this.#parent.push(parent);
    this.#axis.push(axis);
  }
}

/** The cells in each of many boxes, each set of cells once. */
class Contents {
  readonly sets: Tuples;
  readonly #axes: number;
  /** By axis and place, the cells that stand there. */
  readonly #placed: readonly (readonly Int32Array[])[];
  readonly #set: Int32Array;

  constructor(grid: OutcomeGrid, cells: readonly number[]) {
    const words = (cells.length + 31) >>> 5;
    this.sets = new Tuples(words);
    this.#set = new Int32Array(words);
    this.#axes = grid.axes.length;
    this.#placed = grid.axes.map(({ places }, column) => {
      const sets = places.map(() => new Int32Array(words));
      cells.forEach((cell, index) => {
        const set = sets[grid.place(cell, column)] as Int32Array;
        set[index >>> 5] = (set[index >>> 5] as number) | (1 << index);
      });
      return sets;
    });
  }

  add(masks: Int32Array, start: number): void {
    for (let word = 0; word < this.#set.length; word += 1) {
      let bits = -1;
      for (let axis = 0; axis < this.#axes; axis += 1) bits &= this.#union(axis, masks[start + axis] as number, word);
      this.#set[word] = bits;
    }
    this.sets.add(this.#set);
  }

  #union(axis: number, mask: number, word: number): number {
    const placed = this.#placed[axis] as readonly Int32Array[];
    let bits = 0;
    for (let rest = mask; rest !== 0; rest &= rest - 1) bits |= (placed[lowestBit(rest)] as Int32Array)[word] as number;
    return bits;
  }
}

/** Sets of equal size stay in their order. */
function largestFirst({ count, width, data }: Tuples): Tiles {
  const sizes = Array.from({ length: count }, (_, set) => sizeOf(data, set * width, width));
  const order = sizes.map((_, set) => set).sort((a, b) => (sizes[b] as number) - (sizes[a] as number));
  const bits = new Int32Array(count * width);
  order.forEach((set, place) => {
    for (let word = 0; word < width; word += 1) bits[place * width + word] = data[set * width + word] as number;
  });
  return { count, words: width, bits };
}

function sizeOf(bits: Int32Array, start: number, words: number): number {
  let size = 0;
  for (let word = start; word < start + words; word += 1) size += bitCount(bits[word] as number);
  return size;
}

/** How many bits of a word are set. (Warren, Hacker's Delight, 2nd ed., section 5-1.) */
export function bitCount(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
