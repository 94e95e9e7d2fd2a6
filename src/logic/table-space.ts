/** What the search for one table shares between the orders that it tries. */
import { bitCount } from './bits.ts';
import type { Diagrams } from './diagrams.ts';
import { FlatDiagram } from './flat-diagram.ts';
import { groupValues } from './grouping.ts';
import type { RowBlock } from './row-block.ts';
import type { Node } from './unique-table.ts';
import { ANY, ValueSets } from './value-sets.ts';

/** Some values of a column, and what is still to be told apart there. */
interface Part {
  readonly set: number;
  readonly node: Node;
  readonly least: number;
}

/** One diagram with the columns of its support, and the steps that all orders have in common. */
export class TableSpace {
  readonly diagrams: Diagrams;
  readonly impossible: number;
  /** The levels of the support, ascending. Columns are named by their index here. */
  readonly levels: readonly number[];
  /** By column, the values with a possible case. */
  readonly occurring: readonly (readonly number[])[];
  readonly sets: readonly ValueSets[];
  /** The diagram itself, to be read without making nodes. */
  readonly flat: FlatDiagram;
  readonly root: Node;
  readonly #groups: Map<Node, readonly Part[]>[];
  readonly #outcomes = new Map<Node, number>();
  /** Steps taken: the measure by which the search is capped. */
  steps = 0;

  constructor(diagrams: Diagrams, f: Node, impossible: number) {
    this.diagrams = diagrams;
    this.impossible = impossible;
    this.flat = new FlatDiagram(diagrams, f);
    this.levels = this.flat.levels;
    this.occurring = this.flat.valuesBeside(impossible);
    this.sets = this.occurring.map(
      (values, column) => new ValueSets(diagrams.variables[this.levels[column] as number]?.ordered as boolean, values),
    );
    this.root = f;
    this.#groups = this.levels.map(() => new Map());
  }

  isDone(node: Node): boolean {
    return this.diagrams.valueOf(node) !== undefined;
  }

  /**
   * Fills `parts` with these rows split on one column, each followed by its parts in the order of their values. Ends, and
   * says so by `false`, when these surely come to more than `most` rows.
   */
  split(rows: RowBlock, column: number, parts: RowBlock, most: number): boolean {
    parts.count = 0;
    parts.least = rows.least;
    for (let row = 0; row < rows.count; row += 1) {
      this.steps += 1;
      const node = rows.nodes[row] as Node;
      if (this.isDone(node)) {
        parts.add(rows, row, node);
        continue;
      }
      parts.least -= this.leastOf(node);
      for (const part of this.#groupsOf(node, column)) {
        parts.add(rows, row, part.node);
        // The cell was "any" before: a row is split on a column once.
        parts.cells[(parts.count - 1) * parts.width + column] = part.set;
        parts.least += part.least;
      }
      if (parts.least > most) return false;
    }
    return true;
  }

  /** How many outcomes can happen below a node: at least so many rows it comes to. */
  leastOf(node: Node): number {
    return Math.max(1, bitCount(this.#outcomesOf(node)));
  }

  /** A bit for each outcome that can happen below a node, more than bits folded. */
  #outcomesOf(node: Node): number {
    const { diagrams } = this;
    const outcome = diagrams.valueOf(node);
    if (outcome !== undefined) return outcome === this.impossible ? 0 : 1 << outcome;
    const known = this.#outcomes.get(node);
    if (known !== undefined) return known;
    const size = diagrams.variables[diagrams.level(node)]?.size as number;
    let outcomes = 0;
    for (let value = 0; value < size; value += 1) outcomes |= this.#outcomesOf(diagrams.child(node, value));
    this.#outcomes.set(node, outcomes);
    return outcomes;
  }

  #groupsOf(node: Node, column: number): readonly Part[] {
    const memo = this.#groups[column] as Map<Node, readonly Part[]>;
    const known = memo.get(node);
    if (known) return known;
    const sets = this.sets[column] as ValueSets;
    const groups = groupValues(this.diagrams, node, this.levels[column] as number, this.impossible).map((group) => ({
      set: group.values === undefined ? ANY : sets.intern(group.values),
      node: group.node,
      least: this.leastOf(group.node),
    }));
    memo.set(node, groups);
    return groups;
  }
}
