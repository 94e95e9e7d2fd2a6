/** What is read from a diagram in arrays, against truth tables and against cofactors. */
import { describe, expect, test } from 'vitest';
import { caseCount } from '../../src/logic/case-count.ts';
import { FlatDiagram } from '../../src/logic/flat-diagram.ts';
import { Diagrams } from '../../src/logic/index.ts';
import { diagramOf, IMPOSSIBLE, ruleList, seeds, truthTable } from './rule-lists.ts';
import { seeded, variablesOf } from './truth-tables.ts';

/** Rule lists in managers whose order is the declared one, or turned round. */
const samples = () =>
  seeds(120).map((seed) => {
    const list = ruleList(seed, { variables: 5, size: 4, rules: 6 });
    const order = list.variables.map((_, level) => level);
    const diagrams = new Diagrams(list.variables, { order: seed % 2 ? order : order.toReversed() });
    const f = diagramOf(diagrams, list);
    return { seed, list, diagrams, f, flat: new FlatDiagram(diagrams, f) };
  });

describe('a diagram in arrays', () => {
  test('has the values with a possible case, and those that lead on alike, as its cofactors say', () => {
    for (const { diagrams, f, flat } of samples()) {
      const cofactors = flat.levels.map((level, column) =>
        Array.from({ length: flat.sizes[column] as number }, (_, value) => diagrams.restrict(f, level, value)),
      );
      const nothing = diagrams.terminal(IMPOSSIBLE);
      expect(flat.valuesBeside(IMPOSSIBLE)).toEqual(
        cofactors.map((each) => [...each.keys()].filter((value) => each[value] !== nothing)),
      );
      expect(flat.firstAlike()).toEqual(cofactors.map((each) => each.map((node) => each.indexOf(node))));
    }
  });

  test('may have columns that it does not test, all of whose values can happen', () => {
    const diagrams = new Diagrams(variablesOf([2, 3, 2]));
    const flat = new FlatDiagram(diagrams, diagrams.literal(1, [2]), [0, 1, 2]);
    expect(flat.valuesBeside(0)).toEqual([[0, 1], [2], [0, 1]]);
    expect(flat.firstAlike()).toEqual([
      [0, 0],
      [0, 0, 2],
      [0, 0],
    ]);
  });

  test('of nothing but one outcome has no columns', () => {
    const diagrams = new Diagrams(variablesOf([2]));
    const flat = new FlatDiagram(diagrams, diagrams.terminal(7));
    expect(flat.outcome(flat.root)).toBe(7);
    const tested = new FlatDiagram(diagrams, diagrams.literal(0, [1]));
    expect([tested.root, ...tested.children].map((node) => tested.outcome(node))).toEqual([undefined, 0, 1]);
    // With a column that is not tested, no value of it has a case of another outcome.
    expect(new FlatDiagram(diagrams, diagrams.terminal(7), [0]).valuesBeside(7)).toEqual([[]]);
    expect(caseCount(flat)([], (outcome) => outcome === 7)).toBe(1n);
  });
});

describe('cases in a box', () => {
  test('are as many as in the truth table', () => {
    for (const { seed, list, diagrams, f } of samples()) {
      const next = seeded(seed);
      const flat = new FlatDiagram(
        diagrams,
        f,
        list.variables.map((_, level) => level),
      );
      const box = list.variables.map(({ size }) => {
        const values = Array.from({ length: size }, (_, value) => value).filter(() => next(3) > 0);
        return next(3) === 0 ? undefined : values;
      });
      const inside = truthTable(list).filter(({ each }) =>
        box.every((cell, at) => cell?.includes(each[at] ?? -1) ?? true),
      );
      for (const outcome of [0, 1, 2, IMPOSSIBLE]) {
        const count = BigInt(inside.filter((row) => row.outcome === outcome).length);
        expect(caseCount(flat)(box, (each) => each === outcome)).toBe(count);
      }
    }
  });

  test('are counted exactly where they are more than a number can tell apart', () => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 60 }, () => 3)));
    const all = diagrams.and(...diagrams.variables.map((_, level) => diagrams.literal(level, [1, 2])));
    const count = caseCount(new FlatDiagram(diagrams, all));
    expect(count([], (outcome) => outcome === 1)).toBe(2n ** 60n);
    expect(count([], (outcome) => outcome === 0)).toBe(3n ** 60n - 2n ** 60n);
    expect(count([[0, 1], [2]], (outcome) => outcome === 1)).toBe(2n ** 58n);
  });
});
