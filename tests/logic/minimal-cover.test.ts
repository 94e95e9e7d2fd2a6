/**
 * Minimal covers against primes found by trying every cube, and against the least number of them by integer programming:
 * nothing shared with the code under test.
 */
import { describe, expect, test } from 'vitest';
import { type Cube, Diagrams, type MinimalCover, minimalCover, primes } from '../../src/logic/index.ts';
import { leastCost } from './integer-program.ts';
import { type Bounds, diagramOf, IMPOSSIBLE, type RuleList, ruleList, truthTable } from './rule-lists.ts';
import { allCases, seeded, variablesOf } from './truth-tables.ts';

/** One outcome of a rule list as a function with don't-cares, in cases and in diagrams. */
interface Sample {
  readonly list: RuleList;
  readonly outcome: number;
  readonly diagrams: Diagrams;
  readonly columns: readonly number[];
  readonly on: readonly (readonly number[])[];
  readonly off: readonly (readonly number[])[];
  /** Asked anew by each test, so that a test is about what it runs. */
  primes(): readonly Cube[];
  cover(): MinimalCover;
}

function sampleOf(list: RuleList, outcome: number, order?: readonly number[]): Sample {
  const diagrams = new Diagrams(list.variables, order ? { order } : {});
  const f = diagramOf(diagrams, list);
  const columns = list.variables.map((_, level) => level);
  const on = diagrams.casesOf(f, outcome);
  const off = diagrams.not(diagrams.or(on, diagrams.casesOf(f, IMPOSSIBLE)));
  const table = truthTable(list);
  return {
    list,
    outcome,
    diagrams,
    columns,
    on: table.filter((row) => row.outcome === outcome).map(({ each }) => each),
    off: table.filter((row) => row.outcome !== outcome && row.outcome !== IMPOSSIBLE).map(({ each }) => each),
    primes: () => primes(diagrams, columns, off),
    cover: () => minimalCover(diagrams, columns, on, off),
  };
}

/** Every case drawn by itself, which makes many primes: outcomes 0 and 1 and impossible ones. */
function scattered(seed: number, sizes: readonly number[]): RuleList {
  const next = seeded(seed);
  for (let i = 0; i < 10; i += 1) next(2);
  const variables = variablesOf(
    sizes,
    sizes.map(() => next(3) === 0),
  );
  const cases = allCases(sizes).map((each) => ({
    when: each.map((value, level) => ({ level, values: [value] })),
    outcome: next(5),
  }));
  return {
    variables,
    rules: [
      ...cases.filter(({ outcome }) => outcome < 4).map(({ when, outcome }) => ({ when, outcome: outcome % 2 })),
      { when: [], outcome: 0 },
    ],
    never: cases.filter(({ outcome }) => outcome === 4).map(({ when }) => when),
  };
}

const SMALL: Bounds = { variables: 4, size: 3, rules: 6 };
const SIZES = [
  [2, 2, 2, 2],
  [3, 3, 2],
  [4, 3, 2],
  [2, 3, 2, 2],
  [4, 4],
  [5, 3],
  [2, 2, 2, 2, 2],
  [3, 3, 3],
];
const SAMPLES = [
  ...Array.from({ length: 200 }, (_, index) => sampleOf(ruleList(index + 1, SMALL), index % 3)),
  ...Array.from({ length: 200 }, (_, index) => sampleOf(scattered(index + 1, SIZES[index % SIZES.length] ?? []), 1)),
];

const holds = (cube: Cube, each: readonly number[]): boolean =>
  cube.every((values, at) => values?.includes(each[at] as number) ?? true);

/** The sets that a cell may hold: all, or an interval of an ordered variable, or any values of another. */
function cellsOf({ size, ordered }: RuleList['variables'][number]): Cube {
  const sets = Array.from({ length: 2 ** size - 2 }, (_, bits) =>
    Array.from({ length: size }, (_, value) => value).filter((value) => (bits + 1) & (1 << value)),
  );
  return [undefined, ...sets.filter((set) => !ordered || (set.at(-1) ?? 0) - (set[0] ?? 0) === set.length - 1)];
}

/** Every cube that holds none of `off` and is not within another such cube. */
function primesByTrying({ list, off }: Sample): Cube[] {
  const cubes = list.variables.reduce<Cube[]>(
    (some, variable) => some.flatMap((cube) => cellsOf(variable).map((cell) => [...cube, cell])),
    [[]],
  );
  const clear = cubes.filter((cube) => off.every((each) => !holds(cube, each)));
  const within = (cube: Cube, other: Cube): boolean =>
    cube.every((cell, at) => other[at] === undefined || (cell?.every((value) => other[at]?.includes(value)) ?? false));
  return clear.filter((cube) => !clear.some((other) => other !== cube && within(cube, other)));
}

const literals = (cube: Cube): number => cube.filter((cell) => cell !== undefined).length;
const printed = (cubes: readonly Cube[]): string[] =>
  cubes.map((cube) => cube.map((cell) => cell?.join('') ?? '-').join(' ')).sort();

describe('400 seeded functions of multi-valued variables with cases that are free', () => {
  const tried = SAMPLES.map(primesByTrying);

  test('are of many kinds', () => {
    const count = (is: (sample: Sample) => boolean): number => SAMPLES.filter(is).length;
    expect(count(({ cover }) => cover().cubes.length > 3)).toBeGreaterThan(100);
    expect(count(({ list }) => list.never.length > 0)).toBeGreaterThan(200);
    expect(count(({ list }) => list.variables.some(({ ordered, size }) => ordered && size > 2))).toBeGreaterThan(100);
    expect(count(({ cover, primes }) => primes().length > 2 * cover().cubes.length)).toBeGreaterThan(50);
  });

  test('have the primes that are found by trying every cube', () => {
    SAMPLES.forEach((sample, index) => {
      expect(printed(sample.primes())).toEqual(printed(tried[index] ?? []));
    });
  });

  test('are covered by primes that hold every case and none of another outcome', () => {
    SAMPLES.forEach(({ cover, on, off }, index) => {
      const { cubes } = cover();
      expect(on.every((each) => cubes.some((cube) => holds(cube, each)))).toBe(true);
      expect(off.some((each) => cubes.some((cube) => holds(cube, each)))).toBe(false);
      expect(printed(tried[index] ?? [])).toEqual(expect.arrayContaining(printed(cubes)));
    });
  });

  test('have the same primes and the same cover whatever the order of the nodes', () => {
    for (const sample of SAMPLES) {
      const other = sampleOf(sample.list, sample.outcome, sample.columns.toReversed());
      expect(other.primes()).toEqual(sample.primes());
      expect(other.cover().cubes).toEqual(sample.cover().cubes);
    }
  });

  test('have covers of the fewest cubes, and of the fewest literals among those', () => {
    SAMPLES.forEach(({ cover, on }, index) => {
      const candidates = tried[index] ?? [];
      const rows = on.map((each) => candidates.flatMap((cube, at) => (holds(cube, each) ? [at] : [])));
      const least = leastCost(
        rows,
        candidates.map((cube) => 1000 + literals(cube)),
      );
      const { cubes, exact } = cover();
      expect(exact).toBe(true);
      expect(cubes.reduce((sum, cube) => sum + 1000 + literals(cube), 0)).toBe(least);
    });
  });

  test('have, of several least covers, the one that comes first in the order of the primes', () => {
    let several = 0;
    for (const sample of SAMPLES) {
      const { on } = sample;
      const [candidates, cover] = [sample.primes(), sample.cover()];
      if (cover.cubes.length > 4 || candidates.length > 25) continue;
      const cost = (cubes: readonly Cube[]): number => cubes.reduce((sum, cube) => sum + literals(cube), 0);
      const least = choices(candidates, cover.cubes.length).filter(
        (cubes) => cost(cubes) === cost(cover.cubes) && on.every((each) => cubes.some((cube) => holds(cube, each))),
      );
      if (least.length > 1) several += 1;
      expect(cover.cubes).toEqual(least[0]);
    }
    expect(several).toBeGreaterThan(20);
  });
});

/** Every choice of so many, in lexical order. */
function choices(cubes: readonly Cube[], count: number): Cube[][] {
  if (count === 0) return [[]];
  return cubes.flatMap((cube, at) => choices(cubes.slice(at + 1), count - 1).map((rest) => [cube, ...rest]));
}

describe('the order of primes', () => {
  test('is that of their columns: limited before free, low values first', () => {
    const diagrams = new Diagrams(variablesOf([3, 2, 2]));
    const [a, b, c] = [diagrams.literal(0, [0, 2]), diagrams.literal(1, [1]), diagrams.literal(2, [0])];
    const off = diagrams.not(diagrams.or(diagrams.and(a, b), c, diagrams.literal(0, [1])));
    expect(primes(diagrams, [0, 1, 2], off)).toEqual([
      [[1], undefined, undefined],
      [undefined, [1], undefined],
      [undefined, undefined, [0]],
    ]);
  });

  test('has none where every case is off, and the cube of all where none is', () => {
    const diagrams = new Diagrams(variablesOf([3, 2]));
    expect(primes(diagrams, [0, 1], diagrams.yes)).toEqual([]);
    expect(primes(diagrams, [0, 1], diagrams.no)).toEqual([[undefined, undefined]]);
    expect(minimalCover(diagrams, [0, 1], diagrams.no, diagrams.yes).cubes).toEqual([]);
    expect(minimalCover(diagrams, [0, 1], diagrams.yes, diagrams.no).cubes).toEqual([[undefined, undefined]]);
  });
});

describe('the limit of the exact method', () => {
  const large = sampleOf(scattered(1, [4, 4, 4, 3, 2]), 1);

  test('is passed by scattered functions of some hundred cases, which then have irredundant primes and say so', () => {
    const { on, off } = large;
    const cover = large.cover();
    const own = printed(large.primes());
    expect(cover.exact).toBe(false);
    expect(on.every((each) => cover.cubes.some((cube) => holds(cube, each)))).toBe(true);
    expect(off.some((each) => cover.cubes.some((cube) => holds(cube, each)))).toBe(false);
    cover.cubes.forEach((cube, index) => {
      const others = cover.cubes.toSpliced(index, 1);
      expect(on.some((each) => !others.some((other) => holds(other, each)))).toBe(true);
      expect(own).toContain(printed([cube])[0]);
    });
  });

  test('is not passed by rule lists as authors write them, of up to 12 variables and 25 rules', () => {
    const covers = Array.from({ length: 60 }, (_, index) => {
      const list = ruleList(index + 1, { variables: 12, size: 4, rules: 25 });
      const diagrams = new Diagrams(list.variables);
      const f = diagramOf(diagrams, list);
      const on = diagrams.casesOf(f, index % 3);
      const off = diagrams.not(diagrams.or(on, diagrams.casesOf(f, IMPOSSIBLE)));
      return minimalCover(diagrams, diagrams.support(f), on, off);
    });
    expect(covers.every(({ exact }) => exact)).toBe(true);
    // Pinned: a change is made on purpose.
    expect(Math.max(...covers.map(({ steps }) => steps))).toBe(116_987);
    expect(covers.reduce((sum, { steps }) => sum + steps, 0)).toBe(185_653);
  });

  test('is a number of steps: one fewer than the method takes, and the cover is not exact', () => {
    const list = ruleList(5, SMALL);
    const diagrams = new Diagrams(list.variables);
    const f = diagramOf(diagrams, list);
    const on = diagrams.casesOf(f, 0);
    const off = diagrams.not(diagrams.or(on, diagrams.casesOf(f, IMPOSSIBLE)));
    const columns = diagrams.support(f);
    const { steps, exact } = minimalCover(diagrams, columns, on, off);
    expect(exact).toBe(true);
    expect(minimalCover(diagrams, columns, on, off, { stepLimit: steps }).exact).toBe(true);
    expect(minimalCover(diagrams, columns, on, off, { stepLimit: steps - 1 }).exact).toBe(false);
  });
});
