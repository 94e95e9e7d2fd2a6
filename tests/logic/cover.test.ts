import { describe, expect, test } from 'vitest';
import { type Cube, cubeNode, Diagrams, irredundantPrimes, type Node, stateTable } from '../../src/logic/index.ts';
import { diagramOf, IMPOSSIBLE, ruleList } from './rule-lists.ts';
import { variablesOf } from './truth-tables.ts';

/** The cover of one outcome of a rule list, started from the rows of its table. */
function coverOf(seed: number, outcome: number) {
  const list = ruleList(seed, { variables: 5, size: 3, rules: 6 });
  const diagrams = new Diagrams(list.variables);
  const f = diagramOf(diagrams, list);
  const { columns, rows } = stateTable(diagrams, f, { impossible: IMPOSSIBLE });
  const cubes = rows.filter((row) => row.outcome === outcome).map(({ cells }): Cube => cells);
  const on = diagrams.casesOf(f, outcome);
  const off = diagrams.not(diagrams.or(on, diagrams.casesOf(f, IMPOSSIBLE)));
  const cover = irredundantPrimes(diagrams, columns, cubes, on, off);
  const nodes = cover.map((cube) => cubeNode(diagrams, columns, cube));
  return { diagrams, columns, rows: cubes, on, off, cover, nodes };
}

const SAMPLES = Array.from({ length: 200 }, (_, index) => coverOf(index + 1, index % 3)).filter(
  ({ rows }) => rows.length > 0,
);

describe('covers of 200 seeded rule lists', () => {
  test('hold every case of the outcome and none of another, in no more cubes than rows', () => {
    expect(SAMPLES.filter(({ cover }) => cover.length > 1).length).toBeGreaterThan(40);
    for (const { diagrams, on, off, rows, cover, nodes } of SAMPLES) {
      const union = diagrams.or(...nodes);
      expect(diagrams.implies(on, union)).toBe(diagrams.yes);
      expect(diagrams.and(union, off)).toBe(diagrams.no);
      expect(cover.length).toBeLessThanOrEqual(rows.length);
    }
  });

  test('have no cube that the others make superfluous, and none in which a variable could be freed', () => {
    for (const { diagrams, columns, on, off, cover, nodes } of SAMPLES) {
      cover.forEach((cube, index) => {
        expect(diagrams.implies(on, diagrams.or(...nodes.toSpliced(index, 1)))).not.toBe(diagrams.yes);
        for (const at of columns.keys()) {
          if (cube[at] === undefined) continue;
          expect(diagrams.and(cubeNode(diagrams, columns, cube.with(at, undefined)), off)).not.toBe(diagrams.no);
        }
      });
    }
  });
});

/** Minimum covers printed in logic design texts; A is the first variable. */
describe('published functions of four variables', () => {
  const diagrams = new Diagrams(variablesOf([2, 2, 2, 2]));
  const minterm = (index: number): Cube => [8, 4, 2, 1].map((weight) => [Math.floor(index / weight) % 2]);
  const union = (indices: readonly number[]): Node =>
    diagrams.or(...indices.map((index) => cubeNode(diagrams, [0, 1, 2, 3], minterm(index))));

  test.each([
    [
      'the Quine-McCluskey article example m(4,8,10,11,12,15) + d(9,14)',
      [4, 8, 10, 11, 12, 15],
      [9, 14],
      ['-100', '1-1-'],
    ],
    [
      '"Quine-McClusky Minimization Method" slides m(0,1,2,3,5,7,8,10,14,15)',
      [0, 1, 2, 3, 5, 7, 8, 10, 14, 15],
      [],
      ['-0-0', '0--1'],
    ],
  ])('%s: the cover holds the essential primes', (_, on, free, essential) => {
    const off = diagrams.not(union([...on, ...free]));
    const cover = irredundantPrimes(diagrams, [0, 1, 2, 3], on.map(minterm), union(on), off);
    const printed = cover.map((cube) => cube.map((values) => values?.[0] ?? '-').join(''));
    expect(printed).toEqual(expect.arrayContaining(essential));
  });
});
