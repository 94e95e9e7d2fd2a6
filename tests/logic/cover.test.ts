import { describe, expect, test } from 'vitest';
import { type Cube, cubeNode, Diagrams, minimalCover, sparse } from '../../src/logic/index.ts';
import { diagramOf, IMPOSSIBLE, ruleList } from './rule-lists.ts';

/** The cover of one outcome of a rule list as it comes without the exact method. */
function coverOf(seed: number, outcome: number) {
  const list = ruleList(seed, { variables: 5, size: 3, rules: 6 });
  const diagrams = new Diagrams(list.variables);
  const f = diagramOf(diagrams, list);
  const columns = diagrams.support(f);
  const on = diagrams.casesOf(f, outcome);
  const off = diagrams.not(diagrams.or(on, diagrams.casesOf(f, IMPOSSIBLE)));
  const { cubes: cover, exact } = minimalCover(diagrams, columns, on, off, { stepLimit: 0 });
  const nodes = cover.map((cube) => cubeNode(diagrams, columns, cube));
  return { diagrams, columns, on, off, cover, exact, nodes };
}

/** Made anew for each test, so that a test is about what it runs. */
const samples = () =>
  Array.from({ length: 200 }, (_, index) => coverOf(index + 1, index % 3)).filter(({ exact }) => !exact);

describe('covers of 200 seeded rule lists without the exact method', () => {
  test('hold every case of the outcome and none of another', () => {
    const all = samples();
    expect(all.filter(({ cover }) => cover.length > 1).length).toBeGreaterThan(40);
    for (const { diagrams, on, off, nodes } of all) {
      const union = diagrams.or(...nodes);
      expect(diagrams.implies(on, union)).toBe(diagrams.yes);
      expect(diagrams.and(union, off)).toBe(diagrams.no);
    }
  });

  test('have no cube that the others make superfluous, and none that could let one more value through', () => {
    for (const { diagrams, columns, on, off, cover, nodes } of samples()) {
      cover.forEach((cube, index) => {
        expect(diagrams.implies(on, diagrams.or(...nodes.toSpliced(index, 1)))).not.toBe(diagrams.yes);
        columns.forEach((level, at) => {
          const { size = 0, ordered } = diagrams.variables[level] ?? {};
          const values = cube[at];
          if (values === undefined) return;
          const ends = [(values[0] as number) - 1, (values.at(-1) as number) + 1];
          for (let value = 0; value < size; value += 1) {
            if (values.includes(value) || (ordered && !ends.includes(value))) continue;
            const wider = cubeNode(diagrams, columns, cube.with(at, [...values, value]));
            expect(diagrams.and(wider, off)).not.toBe(diagrams.no);
          }
        });
      });
    }
  });

  test('without the values that need not be said hold the same cases of the outcome, in smaller sets', () => {
    let fewer = 0;
    for (const { diagrams, columns, on, cover } of samples()) {
      const said = sparse(diagrams, columns, cover, on);
      const union = diagrams.or(...said.map((cube) => cubeNode(diagrams, columns, cube)));
      expect(diagrams.implies(on, union)).toBe(diagrams.yes);
      expect(said).toHaveLength(cover.length);
      said.forEach((cube, index) => {
        cube.forEach((values, at) => {
          const whole = cover[index]?.[at];
          expect(values?.every((value) => whole?.includes(value)) ?? whole === undefined).toBe(true);
          if ((values?.length ?? 0) < (whole?.length ?? 0)) fewer += 1;
          if (values === undefined || values.length === 1 || diagrams.variables[columns[at] as number]?.ordered) return;
          for (const value of values) {
            const without = said.with(
              index,
              cube.with(
                at,
                values.filter((each) => each !== value),
              ),
            );
            const left = diagrams.or(...without.map((each) => cubeNode(diagrams, columns, each)));
            expect(diagrams.implies(on, left)).not.toBe(diagrams.yes);
          }
        });
      });
    }
    expect(fewer).toBeGreaterThan(10);
  });
});

test('an interval grows to both sides as far as no case of another outcome lies', () => {
  const diagrams = new Diagrams([{ id: 'speed', size: 8, ordered: true }]);
  const [on, off] = [diagrams.literal(0, [3]), diagrams.literal(0, [0, 6])];
  const { cubes } = minimalCover(diagrams, [0], on, off, { stepLimit: 0 });
  expect(cubes).toEqual([[[1, 2, 3, 4, 5]]]);
});

describe('what need not be said', () => {
  const sparseOf = (ordered: boolean) => {
    const diagrams = new Diagrams([{ id: 'knob', size: 4, ordered }]);
    return (cubes: readonly Cube[], on: readonly number[]) => sparse(diagrams, [0], cubes, diagrams.literal(0, on));
  };

  test('is taken out of a set of values one by one, the last first', () => {
    const said = sparseOf(false);
    expect(said([[[0, 1, 2]]], [0, 1])).toEqual([[[0, 1]]]);
    expect(said([[[0, 1]], [[1, 2]]], [0, 1, 2])).toEqual([[[0, 1]], [[2]]]);
    // A set without a value would be no row at all.
    expect(said([[[0, 1]], [[0]]], [0, 1])).toEqual([[[1]], [[0]]]);
  });

  test('stays in the intervals of an ordered variable, which could not be said in one piece without it', () => {
    expect(sparseOf(true)([[[0, 1, 2]]], [0, 2])).toEqual([[[0, 1, 2]]]);
  });
});
