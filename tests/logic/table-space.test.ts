/** What the search for a table knows of the rows that it will come to. */
import { describe, expect, test } from 'vitest';
import { Diagrams, stateTable } from '../../src/logic/index.ts';
import { RowBlock } from '../../src/logic/row-block.ts';
import { TableSpace } from '../../src/logic/table-space.ts';
import { diagramOf, IMPOSSIBLE, ruleList, seeds } from './rule-lists.ts';
import { variablesOf } from './truth-tables.ts';

describe('the fewest rows that can be told beforehand', () => {
  test('are as many as outcomes that can happen, at least one', () => {
    const diagrams = new Diagrams(variablesOf([3, 2]));
    const first = (value: number) => diagrams.literal(0, [value]);
    const [one, two, nothing] = [1, 2, 9].map((value) => diagrams.terminal(value)) as [number, number, number];
    const f = diagrams.ite(
      first(0),
      one,
      diagrams.ite(first(1), two, diagrams.ite(diagrams.literal(1, [0]), one, nothing)),
    );
    const space = new TableSpace(diagrams, f, 9);
    expect(space.leastOf(f)).toBe(2);
    expect(space.leastOf(diagrams.restrict(f, 0, 2))).toBe(1);
    expect([one, nothing].map((node) => space.leastOf(node))).toEqual([1, 1]);
  });

  test('are added up over the rows of a split, which ends when they are more than asked for', () => {
    const diagrams = new Diagrams(variablesOf([2, 2]));
    const [high, low] = [0, 1].map((level) => diagrams.literal(level, [1])) as [number, number];
    const parity = diagrams.ite(high, diagrams.not(low), low);
    const space = new TableSpace(diagrams, parity, 9);
    const [rows, parts, done] = [new RowBlock(2), new RowBlock(2), new RowBlock(2)];
    rows.startWith(space.root, space.leastOf(space.root));
    expect(rows.least).toBe(2);
    expect(space.split(rows, 0, parts, 4)).toBe(true);
    expect([parts.count, parts.least, space.steps]).toEqual([2, 4, 1]);
    expect(space.split(parts, 1, done, 4)).toBe(true);
    expect([done.count, done.least, space.steps]).toEqual([4, 4, 3]);
    expect(space.split(rows, 0, parts, 3)).toBe(false);
  });

  test('are as many as the outcomes in the table of a rule list', () => {
    for (const seed of seeds(100)) {
      const list = ruleList(seed, { variables: 5, size: 4, rules: 6 });
      const diagrams = new Diagrams(list.variables);
      const f = diagramOf(diagrams, list);
      if (f === diagrams.terminal(IMPOSSIBLE)) continue;
      const { rows } = stateTable(diagrams, f, { impossible: IMPOSSIBLE });
      const least = new TableSpace(diagrams, f, IMPOSSIBLE).leastOf(f);
      expect(least).toBe(new Set(rows.map(({ outcome }) => outcome)).size);
    }
  });
});

test('a row that is moved in a block takes the place of one, and the others stay', () => {
  const block = new RowBlock(2);
  const from = new RowBlock(2);
  from.startWith(0, 1);
  for (const node of [5, 6, 7]) {
    from.cells.set([node, 10 * node]);
    block.add(from, 0, node);
  }
  block.move(2, 0);
  expect(block.rows()).toEqual([
    { cells: [7, 70], node: 7 },
    { cells: [6, 60], node: 6 },
    { cells: [7, 70], node: 7 },
  ]);
});
