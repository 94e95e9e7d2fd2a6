/** All rows that could stand in a table for cells of one outcome. */
import type { Axis, Box, OutcomeGrid } from './outcome-grid.ts';

/** A row in the making. */
export interface Tile {
  readonly box: Box;
  /** Which of the cells that are to be parted it holds: their indices, in rising order. */
  readonly held: readonly number[];
}

/**
 * Every box without a case of another outcome, once for each set of `cells` that it holds, the largest sets first; undefined
 * where that takes more than `most` boxes. All cells have the same outcome.
 */
export function allTiles(grid: OutcomeGrid, cells: readonly number[], most: number): readonly Tile[] | undefined {
  const outcome = grid.outcome(cells[0] as number);
  const queue = cells.map((cell) => grid.around([cell]));
  const keys = new BoxKeys(grid);
  const seen = new Set(queue.map((box) => keys.of(box)));
  // Every such box is reached by growing: what it is grown from is part of it.
  for (const box of queue) {
    if (queue.length > most) return undefined;
    const key = keys.of(box);
    for (let column = 0; column < box.length; column += 1) {
      const { ordered, places } = grid.axes[column] as Axis;
      const mask = box[column] as number;
      const beside = (mask << 1) | (mask >>> 1);
      for (let place = 0; place < places.length; place += 1) {
        const added = 1 << place;
        if (mask & added || (ordered && !(beside & added))) continue;
        const grown = keys.ofGrown(key, box, column, added);
        if (seen.has(grown)) continue;
        seen.add(grown);
        if (grid.isPure(box.with(column, added), outcome)) queue.push(box.with(column, mask | added));
      }
    }
  }
  const contents = new CellSets(grid, cells);
  return queue.flatMap((box) => contents.ofNew(box) ?? []).toSorted((a, b) => b.held.length - a.held.length);
}

/** Tells boxes apart: by a number where one holds the masks of all axes exactly. */
class BoxKeys {
  /** By axis, what one place of it counts. */
  readonly #weights: readonly number[];
  readonly #isExact: boolean;

  constructor({ axes }: OutcomeGrid) {
    let bits = 0;
    this.#weights = axes.map(({ places }) => {
      bits += places.length;
      return 2 ** (bits - places.length);
    });
    this.#isExact = bits <= 53;
  }

  of(box: Box): number | string {
    return this.#isExact
      ? box.reduce((key, mask, column) => key + mask * (this.#weights[column] as number), 0)
      : box.join(' ');
  }

  /** The key of a box to which a place is added, from the key that it has without. */
  ofGrown(key: number | string, box: Box, column: number, added: number): number | string {
    return typeof key === 'number'
      ? key + added * (this.#weights[column] as number)
      : this.of(box.with(column, (box[column] as number) | added));
  }
}

/** The sets of cells that boxes hold, as words of bits. */
class CellSets {
  readonly #count: number;
  readonly #words: number;
  /** By axis and place, the cells that stand there. */
  readonly #placed: readonly (readonly Uint32Array[])[];
  readonly #known = new Set<string>();

  constructor(grid: OutcomeGrid, cells: readonly number[]) {
    this.#count = cells.length;
    this.#words = (cells.length + 31) >>> 5;
    this.#placed = grid.axes.map(({ places }, column) => {
      const sets = places.map(() => new Uint32Array(this.#words));
      cells.forEach((cell, index) => {
        const set = sets[grid.place(cell, column)] as Uint32Array;
        set[index >>> 5] = (set[index >>> 5] as number) | (1 << index);
      });
      return sets;
    });
  }

  /** The tile of a box, undefined where an earlier box holds the same cells. */
  ofNew(box: Box): Tile | undefined {
    const held: number[] = [];
    let content = '';
    for (let word = 0; word < this.#words; word += 1) {
      let bits = -1;
      for (let column = 0; column < box.length; column += 1) bits &= this.#union(column, box[column] as number, word);
      content += String.fromCharCode(bits & 0xffff, bits >>> 16);
      for (let rest = bits; rest !== 0; rest &= rest - 1) {
        const index = 32 * word + 31 - Math.clz32(rest & -rest);
        if (index < this.#count) held.push(index);
      }
    }
    if (this.#known.has(content)) return undefined;
    this.#known.add(content);
    return { box, held };
  }

  #union(column: number, mask: number, word: number): number {
    const sets = this.#placed[column] as readonly Uint32Array[];
    let bits = 0;
    for (let rest = mask; rest !== 0; rest &= rest - 1)
      bits |= (sets[31 - Math.clz32(rest & -rest)] as Uint32Array)[word] as number;
    return bits;
  }
}
