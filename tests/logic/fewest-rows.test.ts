/** How far tables are from the fewest rows that there can be, by an integer program: too slow to be asked for every mutant. */
import { expect, test } from 'vitest';
import { Diagrams, stateTable } from '../../src/logic/index.ts';
import { fewestRows } from './fewest-rows.ts';
import { diagramOf, IMPOSSIBLE, type RuleList, ruleList, seeds, supportOf, truthTable } from './rule-lists.ts';

function rowsOf(list: RuleList): number {
  const diagrams = new Diagrams(list.variables);
  return stateTable(diagrams, diagramOf(diagrams, list), { impossible: IMPOSSIBLE }).rows.length;
}

// 600 lists of two to five variables that are few enough for the exact minimum. No order of splits makes some of the
// best tables, such as a pinwheel: six cases around two opposite corners of a cube, in three pairs.
test('tables of rule lists have the exact minimum of disjoint rows', () => {
  const lists = seeds(600).map((seed) => ruleList(seed, { variables: 5, size: 3, rules: 10 }));
  const tables = lists.map((list) => rowsOf(list));
  const fewest = lists.map((list) => fewestRows(list.variables, truthTable(list), IMPOSSIBLE));
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);
  const least = fewest.map((each) => each.least);
  const above = tables.map((rows, index) => rows - (least[index] as number));
  expect({
    support: sum(lists.map(supportOf)) / 600,
    rows: sum(tables) / 600,
    least: sum(least),
    above: sum(above),
    // A bound alone proves them: cases of which no two fit one row.
    proven: fewest.filter(({ lowerBound }, index) => lowerBound === tables[index]).length,
  }).toEqual({ support: 1783 / 600, rows: 2542 / 600, least: 2542, above: 0, proven: 573 });
  expect(Math.min(...above)).toBe(0);
  expect(Math.max(...above)).toBe(0);
});
