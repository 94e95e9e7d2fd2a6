/** The fewest facts, against a trial of every set of facts on the truth table. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { because } from '../../src/compile/because.ts';
import { Diagrams } from '../../src/logic/index.ts';
import { diagramOf, IMPOSSIBLE, ruleList, truthTable } from '../logic/rule-lists.ts';

/** Every set of levels, the smaller ones first, those of one size in lexical order. */
function levelSets(count: number): number[][] {
  const all = Array.from({ length: 2 ** count }, (_, mask) =>
    Array.from({ length: count }, (__, level) => level).filter((level) => (mask >> level) & 1),
  );
  return all.sort((a, b) => a.length - b.length || a.join(' ').localeCompare(b.join(' ')));
}

it('the reason is the first smallest set of facts that leaves no other outcome among the cases that can happen', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 100_000 }), (seed) => {
      const list = ruleList(seed, { variables: 4, size: 3, rules: 5 });
      const table = truthTable(list);
      const diagrams = new Diagrams(list.variables);
      const form = diagrams.map('outcomes from 1 on', diagramOf(diagrams, list), (outcome) =>
        outcome === IMPOSSIBLE ? 0 : outcome + 1,
      );
      const support = diagrams.support(form);
      for (const { each, outcome } of table.filter((row) => row.outcome !== IMPOSSIBLE)) {
        const forces = (levels: readonly number[]): boolean =>
          table.every(
            (other) =>
              other.outcome === outcome ||
              other.outcome === IMPOSSIBLE ||
              levels.some((level) => other.each[level] !== each[level]),
          );
        const expected = levelSets(list.variables.length).find(
          (levels) => levels.every((level) => support.includes(level)) && forces(levels),
        );
        const found = because(diagrams, form, new Map(each.map((value, level) => [level, value])));
        expect([...found]).toEqual(expected?.map((level) => [level, each[level]]));
      }
    }),
    { numRuns: 150 },
  );
});

it('more variables than can be tried in every combination still give facts of which none can be left out', () => {
  const variables = Array.from({ length: 20 }, (_, at) => ({ id: `x${at}`, size: 2, ordered: false }));
  const diagrams = new Diagrams(variables);
  const all = diagrams.and(...variables.map((_, level) => diagrams.literal(level, [1])));
  const form = diagrams.map('outcomes', all, (value) => value + 1);
  const lit = new Map(variables.map((_, level) => [level, 1]));
  expect(because(diagrams, form, lit).size).toBe(20);
  expect([...because(diagrams, form, new Map([...lit, [7, 0]]))]).toEqual([[7, 0]]);
});
