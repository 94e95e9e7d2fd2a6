/** Rows of a table in the making, in arrays that are written over: a search for a table makes very many. */
import type { Node } from './unique-table.ts';
import { ANY } from './value-sets.ts';

/** A row that tells everything apart. `cells` are numbers of value sets, one for each column of the space. */
export interface DoneRow {
  readonly cells: readonly number[];
  /** A terminal. */
  readonly node: Node;
}

const FIRST = 16;

/** Rows of one width. */
export class RowBlock {
  readonly width: number;
  count = 0;
  /** The fewest rows that these come to when all is told apart, as far as is known. */
  least = 0;
  /** By row, what is still to be told apart; a terminal when the row is done. */
  nodes = new Int32Array(FIRST);
  /** Row `r` has its numbers of value sets, one for each column, from `r * width` on. */
  cells: Int32Array<ArrayBuffer>;

  constructor(width: number) {
    this.width = width;
    this.cells = new Int32Array(FIRST * width);
  }

  /** One row that tells nothing apart. */
  startWith(node: Node, least: number): void {
    this.count = 1;
    this.least = least;
    this.nodes[0] = node;
    this.cells.fill(ANY, 0, this.width);
  }

  /** The rows of another block. */
  become(other: RowBlock): void {
    while (this.nodes.length < other.count) this.#grow();
    this.nodes.set(other.nodes.subarray(0, other.count));
    this.cells.set(other.cells.subarray(0, other.count * this.width));
    this.count = other.count;
    this.least = other.least;
  }

  /** One more row: a row of another block, but for its node. */
  add(from: RowBlock, row: number, node: Node): void {
    if (this.count === this.nodes.length) this.#grow();
    this.nodes[this.count] = node;
    this.#copy(from.cells, row * this.width, this.count * this.width);
    this.count += 1;
  }

  /** Puts a row in the place of one before it. */
  move(row: number, to: number): void {
    this.nodes[to] = this.nodes[row] as Node;
    this.#copy(this.cells, row * this.width, to * this.width);
  }

  /** The rows, all of them done. */
  rows(): readonly DoneRow[] {
    return Array.from({ length: this.count }, (_, row) => ({
      cells: [...this.cells.subarray(row * this.width, (row + 1) * this.width)],
      node: this.nodes[row] as Node,
    }));
  }

  #copy(cells: Int32Array, from: number, to: number): void {
    for (let column = 0; column < this.width; column += 1) this.cells[to + column] = cells[from + column] as number;
  }

  #grow(): void {
    const { cells, nodes } = this;
    this.nodes = new Int32Array(2 * nodes.length);
    this.nodes.set(nodes);
    this.cells = new Int32Array(2 * cells.length);
    this.cells.set(cells);
  }
}
