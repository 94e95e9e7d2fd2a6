/** A diagram as a grid of cells over its support, values that behave alike taken as one: for searches that go cell by cell. */
import { lowestBit } from './bits.ts';
import type { FlatDiagram } from './flat-diagram.ts';
import type { TableSpace } from './table-space.ts';

/** One column of a table as an axis of the grid. */
export interface Axis {
  readonly ordered: boolean;
  /** The values of each place on the axis. They lead on alike, so that no table needs to tell them apart. */
  readonly places: readonly (readonly number[])[];
}

/** A product of sets of places, one bit mask for each axis. */
export type Box = readonly number[];

/** Beyond so many cells a grid is not worth its memory. */
const MOST_CELLS = 4096;
/** Sets of places are bit masks. */
const MOST_PLACES = 30;

/** The cells, each named by its index: the place on the last axis counts fastest. */
export class OutcomeGrid {
  readonly axes: readonly Axis[];
  readonly impossible: number;
  /** How much the index grows with one place on each axis. */
  readonly strides: readonly number[];
  readonly #outcomes: Int32Array;
  // The axes on which two cells differ: how many places the box around them has there, and how far these are apart.
  readonly #counts: Int32Array;
  readonly #steps: Int32Array;

  /** Undefined where the grid would be too large. */
  static of(space: TableSpace): OutcomeGrid | undefined {
    const axes = axesOf(space);
    const cells = axes.reduce((product, { places }) => product * places.length, 1);
    const small = cells <= MOST_CELLS && axes.every(({ places }) => places.length <= MOST_PLACES);
    return small ? new OutcomeGrid(space, axes, cells) : undefined;
  }

  private constructor(space: TableSpace, axes: readonly Axis[], cells: number) {
    this.axes = axes;
    this.impossible = space.impossible;
    const strides = axes.map(() => 1);
    for (let column = axes.length - 2; column >= 0; column -= 1) {
      strides[column] = (strides[column + 1] as number) * (axes[column + 1] as Axis).places.length;
    }
    this.strides = strides;
    this.#outcomes = new Int32Array(cells);
    this.#counts = new Int32Array(axes.length);
    this.#steps = new Int32Array(axes.length);
    this.#fill(space.flat);
  }

  /** Goes down the diagram, in the order in which it tests the axes. */
  #fill(flat: FlatDiagram): void {
    const visit = (node: number, rank: number, first: number): void => {
      const column = flat.order[rank];
      if (column === undefined) {
        this.#outcomes[first] = flat.outcome(node) as number;
        return;
      }
      const stride = this.strides[column] as number;
      const { places } = this.axes[column] as Axis;
      for (let place = 0; place < places.length; place += 1) {
        const value = places[place]?.[0] as number;
        visit(flat.columns[node] === column ? flat.child(node, value) : node, rank + 1, first + place * stride);
      }
    };
    visit(flat.root, 0, 0);
  }

  get size(): number {
    return this.#outcomes.length;
  }

  outcome(cell: number): number {
    return this.#outcomes[cell] as number;
  }

  /** Where a cell stands on one axis. */
  place(cell: number, column: number): number {
    return Math.floor(cell / (this.strides[column] as number)) % (this.axes[column] as Axis).places.length;
  }

  isInside(cell: number, box: Box): boolean {
    for (let column = 0; column < box.length; column += 1) {
      if (!((box[column] as number) & (1 << this.place(cell, column)))) return false;
    }
    return true;
  }

  /** The cells of a box that have this outcome, in rising order. */
  cellsIn(box: Box, outcome: number): readonly number[] {
    const cells: number[] = [];
    const visit = (column: number, first: number): void => {
      if (column === box.length) {
        if (this.#outcomes[first] === outcome) cells.push(first);
        return;
      }
      const stride = this.strides[column] as number;
      for (let mask = box[column] as number; mask; mask &= mask - 1)
        visit(column + 1, first + lowestBit(mask) * stride);
    };
    visit(0, 0);
    return cells;
  }

  /** Whether every cell of a box has this outcome or cannot happen. */
  isPure(box: ArrayLike<number>, outcome: number, column = 0, first = 0): boolean {
    if (column === box.length) return this.#isFree(first, outcome);
    const stride = this.strides[column] as number;
    for (let mask = box[column] as number; mask; mask &= mask - 1) {
      if (!this.isPure(box, outcome, column + 1, first + lowestBit(mask) * stride)) return false;
    }
    return true;
  }

  /** Whether every cell of the smallest box around two cells has this outcome or cannot happen. */
  isPureAround(a: number, b: number, outcome: number): boolean {
    let first = 0;
    let differing = 0;
    for (let column = 0; column < this.axes.length; column += 1) {
      const stride = this.strides[column] as number;
      const [one, other] = [this.place(a, column), this.place(b, column)];
      first += Math.min(one, other) * stride;
      if (one === other) continue;
      const distance = Math.abs(one - other);
      const isOrdered = (this.axes[column] as Axis).ordered;
      this.#counts[differing] = isOrdered ? distance + 1 : 2;
      this.#steps[differing] = isOrdered ? stride : distance * stride;
      differing += 1;
    }
    return this.#isPureFrom(first, differing, outcome);
  }

  #isPureFrom(first: number, axes: number, outcome: number): boolean {
    if (axes === 0) return this.#isFree(first, outcome);
    const step = this.#steps[axes - 1] as number;
    const end = first + (this.#counts[axes - 1] as number) * step;
    for (let cell = first; cell < end; cell += step) if (!this.#isPureFrom(cell, axes - 1, outcome)) return false;
    return true;
  }

  #isFree(cell: number, outcome: number): boolean {
    const own = this.#outcomes[cell];
    return own === outcome || own === this.impossible;
  }

  /** The smallest box around some cells. */
  around(cells: readonly number[]): Box {
    return this.axes.map(({ ordered }, column) => {
      const mask = cells.reduce((set, cell) => set | (1 << this.place(cell, column)), 0);
      return ordered ? withoutGaps(mask) : mask;
    });
  }
}

/** Values that lead on alike share a place; those of an ordered variable only when nothing lies between them. */
function axesOf({ diagrams, flat, levels, occurring }: TableSpace): readonly Axis[] {
  return flat.firstAlike().map((firsts, column) => {
    const ordered = diagrams.variables[levels[column] as number]?.ordered as boolean;
    const places: number[][] = [];
    for (const [value, first] of firsts.entries()) {
      // A value that cannot happen stands in no set, but an interval may run over it.
      if (!ordered && !occurring[column]?.includes(value)) continue;
      const place = ordered ? places.slice(-1) : places;
      const group = place.find(([other = value]) => firsts[other] === first);
      if (group) group.push(value);
      else places.push([value]);
    }
    return { ordered, places };
  });
}

/** The mask with all places between its lowest and its highest. */
function withoutGaps(mask: number): number {
  const lowest = lowestBit(mask);
  const highest = 31 - Math.clz32(mask);
  return (2 ** (highest + 1) - 1) & ~(2 ** lowest - 1);
}
