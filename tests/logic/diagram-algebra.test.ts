/**
 * Laws that functions of several values obey, on diagrams with any order of nodes: what is computed is compared with the
 * functions written out case by case, and laws must give the very same node.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagrams, type Node } from '../../src/logic/index.ts';
import { allCases, printed, variablesOf } from './truth-tables.ts';

interface Made {
  readonly sizes: readonly number[];
  readonly order: readonly number[];
  /** Three functions of up to four terminals, and three Boolean ones, by case. */
  readonly many: readonly (readonly number[])[];
  readonly two: readonly (readonly number[])[];
  readonly some: readonly number[];
}

const made: fc.Arbitrary<Made> = fc
  .array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 4 })
  .chain((sizes) => {
    const levels = sizes.map((_, level) => level);
    const count = allCases(sizes).length;
    const functions = (max: number) =>
      fc.array(fc.array(fc.nat(max), { minLength: count, maxLength: count }), { minLength: 3, maxLength: 3 });
    return fc.record({
      sizes: fc.constant(sizes),
      order: fc.shuffledSubarray(levels, { minLength: levels.length }),
      many: functions(3),
      two: functions(1),
      some: fc.subarray(levels),
    });
  });

/** The diagram of a function written out, out of one conjunction for each case. */
function nodeOf(diagrams: Diagrams, sizes: readonly number[], values: readonly number[]): Node {
  return allCases(sizes).reduce<Node>((rest, each, at) => {
    const here = diagrams.and(...each.map((value, level) => diagrams.literal(level, [value])));
    return diagrams.ite(here, diagrams.terminal(values[at] ?? 0), rest);
  }, diagrams.terminal(0));
}

function check(judge: (given: Made & { diagrams: Diagrams; cases: number[][]; f: Node[]; p: Node[] }) => void): void {
  fc.assert(
    fc.property(made, (given) => {
      const { sizes, order, many, two } = given;
      const diagrams = new Diagrams(variablesOf(sizes), { order });
      const f = many.map((values) => nodeOf(diagrams, sizes, values));
      const p = two.map((values) => nodeOf(diagrams, sizes, values));
      judge({ ...given, diagrams, cases: allCases(sizes), f, p });
      diagrams.assertConsistent();
    }),
    { numRuns: 400, seed: 20_261_601 },
  );
}

type Three<T> = readonly [T, T, T];
const three = <T>(all: readonly T[]): Three<T> => all as unknown as Three<T>;

describe('laws of propositions', () => {
  test('and, or, not and implies are a Boolean algebra', () => {
    check(({ diagrams, p }) => {
      const [a, b, c] = three(p);
      const { yes, no } = diagrams;
      const pairs: [Node, Node][] = [
        [diagrams.not(diagrams.not(a)), a],
        [diagrams.and(a, b), diagrams.and(b, a)],
        [diagrams.or(a, diagrams.or(b, c)), diagrams.or(diagrams.or(a, b), c)],
        [diagrams.and(a, diagrams.and(b, c)), diagrams.and(a, b, c)],
        [diagrams.and(a, diagrams.or(b, c)), diagrams.or(diagrams.and(a, b), diagrams.and(a, c))],
        [diagrams.or(a, diagrams.and(b, c)), diagrams.and(diagrams.or(a, b), diagrams.or(a, c))],
        [diagrams.not(diagrams.and(a, b)), diagrams.or(diagrams.not(a), diagrams.not(b))],
        [diagrams.and(a, diagrams.or(a, b)), a],
        [diagrams.or(a, diagrams.not(a)), yes],
        [diagrams.and(a, diagrams.not(a)), no],
        [diagrams.implies(a, b), diagrams.or(diagrams.not(a), b)],
        [diagrams.implies(a, b), diagrams.implies(diagrams.not(b), diagrams.not(a))],
        [diagrams.ite(a, b, c), diagrams.or(diagrams.and(a, b), diagrams.and(diagrams.not(a), c))],
        [diagrams.and(), yes],
        [diagrams.or(), no],
      ];
      for (const [left, right] of pairs) expect(left).toBe(right);
    });
  });

  test('quantifiers are each other denied, go one by one in any order, and leave nothing of what they remove', () => {
    check(({ diagrams, p, some }) => {
      const [a, b] = three(p);
      const gone = diagrams.exists(a, some);
      expect(gone).toBe(diagrams.not(diagrams.forAll(diagrams.not(a), some)));
      expect(gone).toBe(some.reduceRight((rest, level) => diagrams.exists(rest, [level]), a));
      expect(diagrams.forAll(a, some)).toBe(some.reduce((rest, level) => diagrams.forAll(rest, [level]), a));
      expect(diagrams.support(gone).filter((level) => some.includes(level))).toEqual([]);
      expect(diagrams.exists(diagrams.or(a, b), some)).toBe(diagrams.or(gone, diagrams.exists(b, some)));
      expect(diagrams.implies(a, gone)).toBe(diagrams.yes);
    });
  });
});

describe('laws of functions with several values', () => {
  test('are made, combined and changed case by case, whatever the order of nodes', () => {
    check(({ diagrams, sizes, cases, many, f, p, two }) => {
      const [a, b] = three(f);
      const [x, y] = three(many);
      const when = three(p)[0];
      const is = (node: Node, value: (at: number) => number): void => {
        const table = `\n${printed(sizes, (each) => diagrams.evaluate(node, each))}`;
        expect(
          cases.map((each) => diagrams.evaluate(node, each)),
          table,
        ).toEqual(cases.map((_, at) => value(at)));
      };
      is(a, (at) => x[at] ?? -1);
      is(
        diagrams.apply('sum', a, b, (m, n) => m + 2 * n),
        (at) => (x[at] ?? 0) + 2 * (y[at] ?? 0),
      );
      is(
        diagrams.map('squared', a, (m) => m * m),
        (at) => (x[at] ?? 0) ** 2,
      );
      is(diagrams.ite(when, a, b), (at) => (two[0]?.[at] === 1 ? x[at] : y[at]) ?? -1);
      is(diagrams.casesOf(a, 2), (at) => (x[at] === 2 ? 1 : 0));
      expect(diagrams.terminals(a)).toEqual([...new Set(x)].sort((m, n) => m - n));
    });
  });

  test('are their own cofactors put together again', () => {
    check(({ diagrams, sizes, f }) => {
      for (const node of f) {
        for (const [level, size] of sizes.entries()) {
          const parts = Array.from({ length: size }, (_, value) => value);
          const again = parts.reduceRight(
            (rest, value) =>
              diagrams.ite(diagrams.literal(level, [value]), diagrams.restrict(node, level, value), rest),
            diagrams.terminal(9),
          );
          expect(again).toBe(node);
        }
      }
    });
  });

  test('restricting goes through every other operation, in any order of the levels', () => {
    check(({ diagrams, f, p, some }) => {
      const [a, b] = three(f);
      const at = new Map(some.map((level) => [level, 0]));
      const here = (node: Node): Node => diagrams.restrictAll(node, at);
      expect(here(a)).toBe(some.reduceRight((rest, level) => diagrams.restrict(rest, level, 0), a));
      const sum = (m: number, n: number): number => m + 2 * n;
      expect(here(diagrams.apply('sum', a, b, sum))).toBe(diagrams.apply('sum', here(a), here(b), sum));
      expect(here(diagrams.ite(p[0] as Node, a, b))).toBe(diagrams.ite(here(p[0] as Node), here(a), here(b)));
    });
  });

  test('folding keeps the greatest of the values that a removed variable leads to', () => {
    check(({ diagrams, cases, many, f, some }) => {
      const folded = diagrams.fold('greatest', f[0] as Node, some, Math.max);
      for (const each of cases) {
        const alike = cases.flatMap((other, at) =>
          other.every((value, level) => some.includes(level) || value === each[level]) ? [many[0]?.[at] ?? -1] : [],
        );
        expect(diagrams.evaluate(folded, each)).toBe(Math.max(...alike));
      }
    });
  });

  test('merge to the node that says what either says, or to none where they disagree', () => {
    check(({ diagrams, many, f, cases }) => {
      const [a, b] = three(f);
      const [x, y] = three(many);
      const agree = cases.every((_, at) => x[at] === y[at] || x[at] === 0 || y[at] === 0);
      const merged = diagrams.merge(a, b, 0);
      const either = diagrams.apply('either', a, b, (m, n) => (m === 0 ? n : m));
      expect(merged).toBe(agree ? either : undefined);
      expect(diagrams.merge(a, a, 0)).toBe(a);
      expect(diagrams.merge(a, diagrams.terminal(0), 0)).toBe(a);
    });
  });
});

describe('counts', () => {
  test('are those of the cases, and add up', () => {
    check(({ diagrams, sizes, cases, two, p, f, some }) => {
      const [a, b] = three(p);
      const levels = sizes.map((_, level) => level);
      const count = (node: Node): bigint => diagrams.satCount(node, levels);
      expect(count(a)).toBe(BigInt(two[0]?.filter((value) => value === 1).length ?? -1));
      expect(count(diagrams.or(a, b)) + count(diagrams.and(a, b))).toBe(count(a) + count(b));
      expect(count(a) + count(diagrams.not(a))).toBe(BigInt(cases.length));
      const parts = [0, 1, 2, 3].map((value) => count(diagrams.casesOf(f[0] as Node, value)));
      expect(parts.reduce((total, each) => total + each)).toBe(BigInt(cases.length));
      // What stays after some levels are gone, by enumeration over the rest.
      const rest = levels.filter((level) => !some.includes(level));
      const left = new Set(
        cases.flatMap((each, at) => (two[0]?.[at] === 1 ? [rest.map((level) => each[level]).join()] : [])),
      );
      expect(diagrams.satCount(diagrams.exists(a, some), rest)).toBe(BigInt(left.size));
    });
  });

  test('are exact far beyond what numbers hold, against the product', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 30, maxLength: 60 }),
        fc.nat(8),
        (sizes, pick) => {
          const diagrams = new Diagrams(variablesOf(sizes));
          const levels = sizes.map((_, level) => level);
          const chosen = sizes.map((size) => pick % size);
          const all = diagrams.and(...levels.map((level) => diagrams.literal(level, [chosen[level] ?? 0])));
          const every = sizes.reduce((product, size) => product * BigInt(size), 1n);
          expect(diagrams.satCount(diagrams.not(all), levels)).toBe(every - 1n);
        },
      ),
      { numRuns: 50, seed: 20_261_602 },
    );
  });
});
