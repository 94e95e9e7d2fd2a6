/**
 * Sizes of reduced ordered diagrams with two values (totals include both terminals). The paired and split orders of
 * x1 x2 + x3 x4 + ...: the encyclopedia article on binary decision diagrams (2n + 2 and 2^(n+1)); both are usually
 * credited to R. Bryant, "Graph-based algorithms for Boolean function manipulation", IEEE Trans. Computers, 1986 (from
 * memory). Hidden weighted bit: OEIS A137202. Parity and majority: recomputed for this project, no source.
 */
import { describe, expect, test } from 'vitest';
import { Diagrams, type Node } from '../../src/logic/index.ts';
import { variablesOf } from './truth-tables.ts';

function binary(count: number): Diagrams {
  return new Diagrams(variablesOf(Array.from({ length: count }, () => 2)));
}

/** How many of the variables are 1. */
function weight(diagrams: Diagrams): Node {
  return diagrams.variables.reduce<Node>(
    (sum, _, level) => diagrams.apply('plus', sum, diagrams.literal(level, [1]), (a, b) => a + b),
    diagrams.no,
  );
}

/** 1 where the w-th bit is 1, w being the number of ones. `order` lists the bits (from 1) from the root down. */
function hiddenWeightedBit(diagrams: Diagrams, order: readonly number[]): Node {
  const ones = weight(diagrams);
  return diagrams.or(
    ...order.map((bit, level) => diagrams.and(diagrams.casesOf(ones, bit), diagrams.literal(level, [1]))),
  );
}

function hiddenWeightedBitSize(order: readonly number[]): number {
  const diagrams = binary(order.length);
  return diagrams.size(hiddenWeightedBit(diagrams, order));
}

function permutations(values: readonly number[]): number[][] {
  if (values.length === 0) return [[]];
  return values.flatMap((first) =>
    permutations(values.filter((value) => value !== first)).map((rest) => [first, ...rest]),
  );
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, index) => index + 1);

/** n products of two variables; `levels` gives the levels of the two variables of the i-th. */
function sumOfProducts(n: number, levels: (i: number) => readonly [number, number]): number {
  const diagrams = binary(2 * n);
  const products = upTo(n).map((i) => diagrams.and(...levels(i - 1).map((level) => diagrams.literal(level, [1]))));
  const f = diagrams.or(...products);
  diagrams.assertConsistent();
  return diagrams.size(f);
}

describe('published sizes (sources above)', () => {
  test.each(upTo(8))('%i products of neighbouring variables have 2n + 2 nodes', (n) => {
    expect(sumOfProducts(n, (i) => [2 * i, 2 * i + 1])).toBe(2 * n + 2);
  });

  test.each(upTo(8))('%i products with all first variables on top have 2^(n+1) nodes', (n) => {
    expect(sumOfProducts(n, (i) => [i, n + i])).toBe(2 ** (n + 1));
  });

  test.each(upTo(10))('the parity of %i bits has 2n + 1 nodes', (n) => {
    const diagrams = binary(n);
    expect(diagrams.size(diagrams.map('parity', weight(diagrams), (ones) => ones % 2))).toBe(2 * n + 1);
  });

  test.each([
    [3, 6],
    [5, 11],
    [7, 18],
  ])('the majority of %i bits has %i nodes', (n, size) => {
    const diagrams = binary(n);
    expect(diagrams.size(diagrams.map('majority', weight(diagrams), (ones) => (2 * ones > n ? 1 : 0)))).toBe(size);
  });

  test('the hidden weighted bit of 1 to 6 bits has 3, 3, 7, 10, 17 and 25 nodes in the natural order', () => {
    expect(upTo(6).map((n) => hiddenWeightedBitSize(upTo(n)))).toEqual([3, 3, 7, 10, 17, 25]);
  });

  test('the hidden weighted bit of 1 to 6 bits has 3, 3, 5, 9, 16 and 23 nodes in its best order (OEIS A137202)', () => {
    const best = upTo(6).map((n) => Math.min(...permutations(upTo(n)).map(hiddenWeightedBitSize)));
    expect(best).toEqual([3, 3, 5, 9, 16, 23]);
  });

  test('the hidden weighted bit of 8 bits has 46 nodes, 1 2 4 6 9 12 8 2 by level, in the order 8 7 1 6 2 5 4 3', () => {
    const diagrams = binary(8);
    const f = hiddenWeightedBit(diagrams, [8, 7, 1, 6, 2, 5, 4, 3]);
    const seen = new Set([f]);
    const levels = Array.from({ length: 8 }, () => 0);
    for (const node of seen) {
      if (diagrams.valueOf(node) !== undefined) continue;
      const level = diagrams.level(node);
      levels[level] = (levels[level] as number) + 1;
      seen.add(diagrams.child(node, 0)).add(diagrams.child(node, 1));
    }
    expect(levels).toEqual([1, 2, 4, 6, 9, 12, 8, 2]);
    expect(diagrams.size(f)).toBe(46);
  });
});
