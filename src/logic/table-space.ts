/** What the search for one table shares between the orders that it tries. */
import type { Diagrams } from './diagrams.ts';
import { FlatDiagram } from './flat-diagram.ts';
import { groupValues } from './grouping.ts';
import type { Node } from './unique-table.ts';
import { ANY, ValueSets } from './value-sets.ts';

/** A row in the making. `cells` are numbers of value sets, one for each column of the space. */
export interface PartialRow {
  readonly cells: readonly number[];
  /** What is still to be told apart; a terminal when the row is done. */
  readonly node: Node;
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
  readonly root: PartialRow;
  readonly #groups: Map<Node, readonly { readonly set: number; readonly node: Node }[]>[];
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
    this.root = { cells: this.levels.map(() => ANY), node: f };
    this.#groups = this.levels.map(() => new Map());
  }

  isDone(row: PartialRow): boolean {
    return this.diagrams.valueOf(row.node) !== undefined;
  }

  /** The rows split on one column, each followed by its parts in the order of their values. */
  split(rows: readonly PartialRow[], column: number): readonly PartialRow[] {
    this.steps += rows.length;
    const parts: PartialRow[] = [];
    for (const row of rows) {
      if (this.isDone(row)) {
        parts.push(row);
        continue;
      }
      for (const { set, node } of this.#groupsOf(row.node, column)) {
        parts.push({ cells: set === ANY ? row.cells : withSet(row.cells, column, set), node });
      }
    }
    return parts;
  }

  #groupsOf(node: Node, column: number): readonly { readonly set: number; readonly node: Node }[] {
    const memo = this.#groups[column] as Map<Node, readonly { readonly set: number; readonly node: Node }[]>;
    const known = memo.get(node);
    if (known) return known;
    const sets = this.sets[column] as ValueSets;
    const groups = groupValues(this.diagrams, node, this.levels[column] as number, this.impossible).map((group) => ({
      set: group.values === undefined ? ANY : sets.intern(group.values),
      node: group.node,
    }));
    memo.set(node, groups);
    return groups;
  }
}

/** As `with` of an array, which is several times slower. */
function withSet(cells: readonly number[], column: number, set: number): readonly number[] {
  const result = cells.slice();
  result[column] = set;
  return result;
}
