/** Rows joined at once against rows joined one pair after the other, each time from the first pair on. */
import { describe, expect, test } from 'vitest';
import { Diagrams } from '../../src/logic/index.ts';
import { RowJoiner } from '../../src/logic/join-rows.ts';
import { type DoneRow, RowBlock } from '../../src/logic/row-block.ts';
import { TableSpace } from '../../src/logic/table-space.ts';
import { diagramOf, IMPOSSIBLE, type RuleList, ruleList, seeds } from './rule-lists.ts';
import { seeded, variablesOf } from './truth-tables.ts';

/** The space of a list, and its rows after all columns in a random order. */
function splitRows(list: RuleList, next: (below: number) => number): { space: TableSpace; rows: RowBlock } {
  const diagrams = new Diagrams(list.variables);
  const space = new TableSpace(diagrams, diagramOf(diagrams, list), IMPOSSIBLE);
  const left = space.levels.map((_, column) => column);
  let rows = new RowBlock(left.length);
  rows.startWith(space.root, 1);
  while (left.length > 0) {
    const [column] = left.splice(next(left.length), 1) as [number];
    const parts = new RowBlock(space.levels.length);
    space.split(rows, column, parts, Number.POSITIVE_INFINITY);
    rows = parts;
  }
  return { space, rows };
}

/** The values of a row's cells; of a cell that says any, those that occur. */
const cellsOf = ({ sets }: TableSpace, row: DoneRow): (readonly number[])[] =>
  row.cells.map((set, column) => sets[column]?.values(set) ?? []);

/** Sets of values as one more set, where that may stand in a cell. */
function union(space: TableSpace, column: number, a: readonly number[], b: readonly number[]): number[] | undefined {
  const values = [...new Set([...a, ...b])].sort((x, y) => x - y);
  const { ordered } = space.diagrams.variables[space.levels[column] as number] as { ordered: boolean };
  const hasGap = values.some((value, at) => at > 0 && value !== (values[at - 1] as number) + 1);
  if (ordered && hasGap) return undefined;
  // A cell with all that can happen says any, whatever else it runs over.
  const all = space.occurring[column] ?? [];
  return all.every((value) => values.includes(value)) ? [...all] : values;
}

function joinedOneByOne(space: TableSpace, rows: readonly DoneRow[]): { cells: (readonly number[])[]; node: number }[] {
  const left = rows.map((row) => ({ cells: cellsOf(space, row), node: row.node }));
  const joinFirst = (): boolean => {
    for (const [i, one] of left.entries()) {
      for (const [j, other] of left.entries()) {
        if (j <= i || one.node !== other.node) continue;
        const differing = one.cells.flatMap((cell, at) => (cell.join() === other.cells[at]?.join() ? [] : [at]));
        const [column, ...more] = differing;
        if (column === undefined || more.length > 0) continue;
        const values = union(space, column, one.cells[column] ?? [], other.cells[column] ?? []);
        if (!values) continue;
        left[i] = { cells: one.cells.with(column, values), node: one.node };
        left.splice(j, 1);
        return true;
      }
    }
    return false;
  };
  while (joinFirst()) {}
  return left;
}

describe('joining rows', () => {
  test('comes to what joining the first pair that can be joined, over and over, comes to', () => {
    let joined = 0;
    for (const seed of seeds(150)) {
      const next = seeded(seed);
      const { space, rows } = splitRows(ruleList(seed, { variables: 5, size: 4, rules: 6 }), next);
      const before = rows.rows();
      const joiner = new RowJoiner(space);
      joiner.join(rows);
      const after = rows.rows().map((row) => ({ cells: cellsOf(space, row), node: row.node }));
      expect(after).toEqual(joinedOneByOne(space, before));
      joined += before.length - after.length;
    }
    expect(joined).toBeGreaterThan(100);
  });

  test('goes back to a row before, which a larger one can be joined to', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const f = diagrams.ite(
      diagrams.literal(0, [0]),
      diagrams.terminal(1),
      diagrams.map('other', diagrams.literal(1, [2]), (a) => 2 + a),
    );
    const space = new TableSpace(diagrams, f, IMPOSSIBLE);
    const set = (column: number, values: readonly number[]): number => space.sets[column]?.intern(values) ?? -1;
    const rows = new RowBlock(2);
    // The last three become one step by step, and that one is joined to the first.
    const cells = [
      [set(0, [0]), set(1, [0, 1, 2])],
      [set(0, [1]), set(1, [0])],
      [set(0, [1]), set(1, [2])],
      [set(0, [1]), set(1, [1])],
    ];
    for (const [row, each] of cells.entries()) {
      rows.nodes[row] = 7;
      rows.cells.set(each, 2 * row);
    }
    rows.count = cells.length;
    new RowJoiner(space).join(rows);
    expect(rows.rows().map(({ cells: [a, b] }) => [a, b])).toEqual([[0, 0]]);
  });

  test('counts each pair of like rows that it looks at', () => {
    const diagrams = new Diagrams(variablesOf([2, 2]));
    const both = diagrams.and(diagrams.literal(0, [1]), diagrams.literal(1, [1]));
    const neither = diagrams.and(diagrams.literal(0, [0]), diagrams.literal(1, [0]));
    const space = new TableSpace(diagrams, diagrams.or(both, neither), IMPOSSIBLE);
    const rows = new RowBlock(2);
    rows.startWith(space.root, 2);
    for (const column of [0, 1]) {
      const parts = new RowBlock(2);
      space.split(rows, column, parts, Number.POSITIVE_INFINITY);
      rows.become(parts);
    }
    const before = space.steps;
    new RowJoiner(space).join(rows);
    // Two rows that hold, and two that do not: a pair of each.
    expect([rows.count, space.steps - before]).toEqual([4, 2]);
  });
});
