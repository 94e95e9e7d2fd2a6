/** One diagram copied out of its manager into arrays: for what is asked of it over and over, without making a node. */
import type { Diagrams } from './diagrams.ts';
import type { Node } from './unique-table.ts';

/** Levels as columns in rising order, and the nodes of a diagram that tests no others, with children before parents. */
export class FlatDiagram {
  /** By column, its level and how many values it has. */
  readonly levels: readonly number[];
  readonly sizes: readonly number[];
  /** The columns in the order in which nodes test them, the root's first. */
  readonly order: readonly number[];
  /** By column, its place in `order`. */
  readonly ranks: readonly number[];
  /** By node, the column that it tests, -1 for a terminal; the root stands last. */
  readonly columns: Int32Array;
  /** By node, where its children start; the outcome of a terminal. */
  readonly starts: Int32Array;
  /** The node that each value leads to. */
  readonly children: Int32Array;

  /** `levels` hold the support of `f`. */
  constructor(diagrams: Diagrams, f: Node, levels = diagrams.support(f)) {
    this.levels = levels;
    this.sizes = this.levels.map((level) => diagrams.variables[level]?.size as number);
    const columnAt = new Map(this.levels.map((level, column) => [level, column]));
    const nodes = diagrams.nodes(f);
    const places = new Map(nodes.map((node, place) => [node, place]));
    this.columns = new Int32Array(nodes.length);
    this.starts = new Int32Array(nodes.length);
    const children: number[] = [];
    nodes.forEach((node, place) => {
      const column = columnAt.get(diagrams.level(node)) ?? -1;
      this.columns[place] = column;
      this.starts[place] = column < 0 ? (diagrams.valueOf(node) as number) : children.length;
      for (let value = 0; value < (this.sizes[column] ?? 0); value += 1) {
        children.push(places.get(diagrams.child(node, value)) as number);
      }
    });
    this.children = Int32Array.from(children);
    this.order = diagrams.order.flatMap((level) => columnAt.get(level) ?? []);
    const ranks = this.order.map(() => 0);
    this.order.forEach((column, rank) => {
      ranks[column] = rank;
    });
    this.ranks = ranks;
  }

  get root(): number {
    return this.columns.length - 1;
  }

  /** The outcome of a node, undefined where it is no terminal. */
  outcome(node: number): number | undefined {
    return (this.columns[node] as number) < 0 ? this.starts[node] : undefined;
  }

  child(node: number, value: number): number {
    return this.children[(this.starts[node] as number) + value] as number;
  }

  /** By column, the values with a case of another outcome than this one, in rising order. */
  valuesBeside(outcome: number): readonly (readonly number[])[] {
    const isFound = this.sizes.map((size) => new Array<boolean>(size).fill(false));
    const pass = (from: number, node: number): void => {
      const until = this.ranks[this.columns[node] as number] ?? this.order.length;
      for (let rank = from; rank < until; rank += 1) isFound[this.order[rank] as number]?.fill(true);
    };
    if (this.outcome(this.root) !== outcome) pass(0, this.root);
    for (let node = 0; node < this.columns.length; node += 1) {
      const column = this.columns[node] as number;
      for (let value = 0; value < (this.sizes[column] ?? 0); value += 1) {
        // Every node can be reached, and one that is no terminal has more than one outcome.
        const child = this.child(node, value);
        if (this.outcome(child) === outcome) continue;
        (isFound[column] as boolean[])[value] = true;
        pass((this.ranks[column] as number) + 1, child);
      }
    }
    return isFound.map((found) => found.flatMap((is, value) => (is ? [value] : [])));
  }

  /** By column and value, the first value that leads on to the very same from every node: itself if there is none. */
  firstAlike(): readonly (readonly number[])[] {
    const testing = this.sizes.map((): number[] => []);
    for (const [node, column] of this.columns.entries()) testing[column]?.push(node);
    return this.sizes.map((size, column) => {
      const nodes = testing[column] as number[];
      const areAlike = (one: number, other: number): boolean =>
        nodes.every((node) => this.child(node, one) === this.child(node, other));
      const firsts: number[] = [];
      for (let value = 0; value < size; value += 1) {
        firsts.push(firsts.find((first, at) => first === at && areAlike(first, value)) ?? value);
      }
      return firsts;
    });
  }
}
