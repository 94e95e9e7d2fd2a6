/**
 * Published minimum covers and prime counts. Each list names its source; "recomputed" means for this project, without a
 * source, by a search of its own. A is the first variable and the highest bit of a case's number.
 */
import { describe, expect, test } from 'vitest';
import { type Cube, cubeNode, Diagrams, minimalCover, type Node, primes } from '../../src/logic/index.ts';
import { variablesOf } from './truth-tables.ts';

/** A function of two-valued variables by the numbers of its cases, with cubes as strings: "1-0" is A and not C. */
class TwoValued {
  readonly diagrams: Diagrams;
  readonly columns: readonly number[];
  readonly on: Node;
  readonly off: Node;
  readonly #cases: readonly number[];

  constructor(count: number, cases: readonly number[], free: readonly number[] = []) {
    this.diagrams = new Diagrams(variablesOf(Array.from({ length: count }, () => 2)));
    this.columns = this.diagrams.variables.map((_, level) => level);
    this.on = this.#union(cases);
    this.off = this.diagrams.not(this.#union([...cases, ...free]));
    this.#cases = cases;
  }

  primes(): string[] {
    return primes(this.diagrams, this.columns, this.off).map(asText);
  }

  /** Primes that alone hold some case. */
  essential(): string[] {
    const all = this.primes();
    const holders = this.#cases.map((each) => all.filter((cube) => this.#holds(cube, each)));
    return all.filter((cube) => holders.some((some) => some.length === 1 && some[0] === cube));
  }

  minimal(): string[] {
    const { cubes, exact } = minimalCover(this.diagrams, this.columns, this.on, this.off);
    expect(exact).toBe(true);
    return cubes.map(asText);
  }

  /** Every choice of so many primes that holds all cases, by trying them all. */
  coversOf(count: number): string[][] {
    return choices(this.primes(), count).filter((some) =>
      this.#cases.every((each) => some.some((cube) => this.#holds(cube, each))),
    );
  }

  #union(cases: readonly number[]): Node {
    return this.diagrams.or(...cases.map((each) => cubeNode(this.diagrams, this.columns, this.#minterm(each))));
  }

  #minterm(each: number): Cube {
    return this.columns.map((level) => [(each >> (this.columns.length - 1 - level)) & 1]);
  }

  #holds(cube: string, each: number): boolean {
    return this.#minterm(each).every((values, at) => cube[at] === '-' || cube[at] === `${values?.[0]}`);
  }
}

function asText(cube: Cube): string {
  return cube.map((values) => values?.join('') ?? '-').join('');
}

function literals(cubes: readonly string[]): number {
  return cubes.join('').replaceAll('-', '').length;
}

/** Every choice of so many, in lexical order. */
function choices(cubes: readonly string[], count: number): string[][] {
  if (count === 0) return [[]];
  return cubes.flatMap((cube, at) => choices(cubes.slice(at + 1), count - 1).map((rest) => [cube, ...rest]));
}

function sorted(cubes: readonly string[]): string[] {
  return [...cubes].sort();
}

interface Published {
  readonly source: string;
  readonly variables: number;
  readonly cases: readonly number[];
  readonly free: readonly number[];
  /** All of them, or only how many. */
  readonly primes: readonly string[] | number;
  readonly essential: readonly string[];
  readonly literals: number;
  /** All covers of the fewest cubes. */
  readonly covers: readonly (readonly string[])[];
}

const with3 = (common: readonly string[], ...rests: readonly string[][]): string[][] =>
  rests.map((rest) => [...common, ...rest]);

const PUBLISHED: readonly Published[] = [
  {
    source: 'the Quine-McCluskey encyclopedia article example and several solver pages; counts recomputed',
    variables: 4,
    cases: [4, 8, 10, 11, 12, 15],
    free: [9, 14],
    primes: ['-100', '10--', '1--0', '1-1-'],
    essential: ['-100', '1-1-'],
    literals: 7,
    covers: with3(['-100', '1-1-'], ['10--'], ['1--0']),
  },
  {
    source: '"Quine-McClusky Minimization Method" slides; counts recomputed',
    variables: 4,
    cases: [0, 1, 2, 3, 5, 7, 8, 10, 14, 15],
    free: [],
    primes: ['00--', '-0-0', '0--1', '1-10', '-111', '111-'],
    essential: ['-0-0', '0--1'],
    literals: 7,
    covers: [['0--1', '111-', '-0-0']],
  },
  {
    source: 'list of cases read in a text that had lost its overbars; answer recomputed',
    variables: 4,
    cases: [4, 5, 6, 8, 9, 10, 13],
    free: [0, 7, 15],
    primes: ['0-00', '-000', '100-', '10-0', '1-01', '01--', '-1-1'],
    essential: ['01--', '10-0'],
    literals: 8,
    covers: [['01--', '1-01', '10-0']],
  },
  {
    source: 'the cyclic textbook case, from memory; answer recomputed',
    variables: 3,
    cases: [0, 1, 2, 5, 6, 7],
    free: [],
    primes: ['00-', '0-0', '-01', '-10', '1-1', '11-'],
    essential: [],
    literals: 6,
    covers: [
      ['-01', '0-0', '11-'],
      ['-10', '00-', '1-1'],
    ],
  },
  {
    source: 'a published exercise; answer recomputed',
    variables: 4,
    cases: [1, 3, 5, 6, 8, 9, 12, 14, 15],
    free: [4, 10, 13],
    primes: 7,
    essential: ['00-1', '-1-0', '11--'],
    literals: 11,
    covers: with3(['00-1', '-1-0', '11--'], ['--01', '1--0'], ['--01', '1-0-'], ['-10-', '1-0-']),
  },
  {
    source: 'a published exercise; answer recomputed',
    variables: 4,
    cases: [2, 3, 4, 7, 9, 11, 12, 13, 14],
    free: [1, 10, 15],
    primes: 7,
    essential: ['--11', '-01-', '-100'],
    literals: 11,
    covers: with3(['--11', '-01-', '-100'], ['11--', '-0-1'], ['11--', '1--1'], ['1-1-', '1--1']),
  },
  {
    source: 'a published exercise; answer recomputed',
    variables: 4,
    cases: [0, 1, 5, 6, 8, 9, 11, 13],
    free: [7, 10, 12],
    primes: 6,
    essential: ['-00-', '011-', '10--'],
    literals: 9,
    covers: [['-00-', '011-', '10--', '--01']],
  },
  {
    source: 'a published exercise; answer recomputed',
    variables: 4,
    cases: [3, 4, 6, 7, 8, 9, 11, 13, 14],
    free: [2, 5, 15],
    primes: 7,
    essential: ['100-', '-11-', '01--'],
    literals: 11,
    covers: with3(['100-', '-11-', '01--'], ['--11', '-1-1'], ['--11', '1--1'], ['0-1-', '1--1']),
  },
];

describe.each(PUBLISHED)('m($cases) + d($free): $source', (published) => {
  const f = new TwoValued(published.variables, published.cases, published.free);
  const [cover = []] = published.covers;

  test('has the primes, and the essential ones among them', () => {
    if (typeof published.primes === 'number') expect(f.primes()).toHaveLength(published.primes);
    else expect(sorted(f.primes())).toEqual(sorted(published.primes));
    expect(sorted(f.essential())).toEqual(sorted(published.essential));
  });

  test('has these covers of the fewest cubes, the first of the fewest literals being chosen', () => {
    const all = f.coversOf(cover.length);
    expect(all.map(sorted).sort()).toEqual(published.covers.map(sorted).sort());
    expect(f.coversOf(cover.length - 1)).toEqual([]);
    expect(Math.min(...all.map(literals))).toBe(published.literals);
    expect(f.minimal()).toEqual(all.find((some) => literals(some) === published.literals));
  });
});

/**
 * The decoder from decimal digits to seven segments, 6 and 9 with tails. Truth table: J. Crenshaw, "The seven-segment
 * decoder"; covers, counts of primes and sizes recomputed.
 */
describe('the seven-segment decoder', () => {
  const DIGITS = [
    '1111110',
    '0110000',
    '1101101',
    '1111001',
    '0110011',
    '1011011',
    '1011111',
    '1110000',
    '1111111',
    '1111011',
  ];
  const NO_DIGIT = [10, 11, 12, 13, 14, 15];
  const lit = (segment: string): number[] =>
    DIGITS.flatMap((pattern, digit) => (pattern['abcdefg'.indexOf(segment)] === '1' ? [digit] : []));

  test.each([
    ['a', [['1---', '--1-', '-1-1', '-0-0']], 4, 6],
    ['b', [['-0--', '--11', '--00']], 4, 5],
    // Dark for 2 alone, so that each of the four variables gives a prime: A is one, though no least cover needs it.
    ['c', [['-1--', '--0-', '---1']], 4, 3],
    ['d', [['1---', '-01-', '--10', '-0-0', '-101']], 5, 10],
    ['e', [['--10', '-0-0']], 5, 4],
    ['f', [['1---', '--00', '-10-', '-1-0']], 4, 7],
    ['g', with3(['1---', '-10-', '-01-'], ['--10'], ['-1-0']), 5, 7],
  ])('segment %s with 10 to 15 free', (segment, covers, count, size) => {
    const f = new TwoValued(4, lit(segment), NO_DIGIT);
    const terms = covers[0]?.length ?? 0;
    const least = f.coversOf(terms).filter((some) => literals(some) === size);
    expect(f.primes()).toHaveLength(count);
    expect(f.coversOf(terms - 1)).toEqual([]);
    expect(least.map(sorted).sort()).toEqual(covers.map(sorted).sort());
    expect(f.minimal()).toEqual(least[0]);
  });

  test.each([
    ['a', 4, 11],
    ['b', 4, 10],
    ['c', 3, 6],
    ['d', 5, 16],
    ['e', 2, 6],
    ['f', 4, 12],
    ['g', 4, 12],
  ])('segment %s dark from 10 to 15: %i terms of %i literals', (segment, terms, size) => {
    const cover = new TwoValued(4, lit(segment)).minimal();
    expect(cover).toHaveLength(terms);
    expect(literals(cover)).toBe(size);
  });
});

/**
 * The most primes. Symmetric functions of n = 1 to 12 variables: OEIS A109385, there after D. Knuth. All functions of
 * n <= 4: recomputed; agrees with OEIS A003039 as quoted at second hand.
 */
describe('the most primes', () => {
  const A109385 = [1, 2, 6, 13, 32, 92, 218, 576, 1698, 4300, 11_770, 34_914];
  const countsOf = (n: number, mask: number): number[] =>
    Array.from({ length: n + 1 }, (_, count) => count).filter((count) => (mask >> count) & 1);
  const masks = (n: number): number[] => Array.from({ length: 2 ** (n + 1) }, (_, mask) => mask);

  /** Of the function that holds where so many of n variables are 1. */
  function symmetricPrimes(n: number, counts: readonly number[]): number {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: n }, () => 2)));
    const levels = diagrams.variables.map((_, level) => level);
    const f = levels.reduceRight<readonly Node[]>(
      (below, level) =>
        Array.from({ length: level + 1 }, (_, ones) =>
          diagrams.ite(diagrams.literal(level, [1]), below[ones + 1] as Node, below[ones] as Node),
        ),
      Array.from({ length: n + 1 }, (_, ones) => (counts.includes(ones) ? diagrams.yes : diagrams.no)),
    )[0] as Node;
    return primes(diagrams, levels, diagrams.not(f)).length;
  }

  const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

  /** A run of counts from a to b that neither a - 1 nor b + 1 continues gives n! / (a! (b - a)! (n - b)!) (recomputed). */
  function byRuns(n: number, counts: readonly number[]): number {
    return counts
      .filter((a) => !counts.includes(a - 1))
      .map((a) => {
        let b = a;
        while (counts.includes(b + 1)) b += 1;
        return factorial(n) / (factorial(a) * factorial(b - a) * factorial(n - b));
      })
      .reduce((sum, each) => sum + each, 0);
  }

  test.each([1, 2, 3, 4, 5, 6, 7])('of all symmetric functions of %i variables are as OEIS A109385 says', (n) => {
    const found = masks(n).map((mask) => symmetricPrimes(n, countsOf(n, mask)));
    expect(Math.max(...found)).toBe(A109385[n - 1]);
    expect(found).toEqual(masks(n).map((mask) => byRuns(n, countsOf(n, mask))));
  });

  test.each([8, 9, 10, 11])('of %i variables are those of the symmetric function that is best by its runs', (n) => {
    const best = masks(n).reduce((a, b) => (byRuns(n, countsOf(n, b)) > byRuns(n, countsOf(n, a)) ? b : a));
    expect(byRuns(n, countsOf(n, best))).toBe(A109385[n - 1]);
    expect(symmetricPrimes(n, countsOf(n, best))).toBe(A109385[n - 1]);
  });

  test('of 12 variables are 34,914 by the runs', () => {
    expect(Math.max(...masks(12).map((mask) => byRuns(12, countsOf(12, mask))))).toBe(A109385[11]);
  });

  test('of 10 variables are 90 + 4200 + 10 = 4300, where 1, 2, 4 to 7, 9 or 10 are 1 (OEIS A109385)', () => {
    expect(
      [
        [1, 2],
        [4, 5, 6, 7],
        [9, 10],
      ].map((run) => symmetricPrimes(10, run)),
    ).toEqual([90, 4200, 10]);
    expect(symmetricPrimes(10, [1, 2, 4, 5, 6, 7, 9, 10])).toBe(4300);
  });

  test('of "exactly 1 or 2 of 3" are 6 (recomputed)', () => {
    expect(symmetricPrimes(3, [1, 2])).toBe(6);
  });

  test.each([
    [1, 1],
    [2, 2],
    [3, 6],
  ])('of all functions of %i variables are %i (recomputed; OEIS A003039)', (n, most) => {
    const cases = Array.from({ length: 2 ** n }, (_, each) => each);
    const counts = Array.from(
      { length: 2 ** (2 ** n) },
      (_, bits) =>
        new TwoValued(
          n,
          cases.filter((each) => (bits >> each) & 1),
        ).primes().length,
    );
    expect(Math.max(...counts)).toBe(most);
  });

  test('of all functions of 4 variables are 13 (recomputed; OEIS A003039)', () => {
    const diagrams = new Diagrams(variablesOf([2, 2, 2, 2]));
    const levels = [0, 1, 2, 3];
    /** Every function of the variables from a level on. */
    const from = (level: number): Node[] => {
      if (level === 4) return [diagrams.no, diagrams.yes];
      const below = from(level + 1);
      return below.flatMap((g) => below.map((h) => diagrams.ite(diagrams.literal(level, [1]), g, h)));
    };
    const all = from(0);
    expect(new Set(all).size).toBe(65_536);
    expect(all.reduce((most, f) => Math.max(most, primes(diagrams, levels, f).length), 0)).toBe(13);
  });

  test('of 4 variables are reached by m(0,2,3,4,5,7,8,9,11,13,14) (recomputed)', () => {
    expect(new TwoValued(4, [0, 2, 3, 4, 5, 7, 8, 9, 11, 13, 14]).primes()).toHaveLength(13);
  });
});
