import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addDecimals,
  type Comparison,
  compareDecimals,
  isOnStep,
  parseDecimal,
  subtractDecimals,
  thresholdCut,
} from '../../src/language/index.ts';

/** A whole number of hundredths as a decimal, with no more digits than it needs. */
const hundredths = (count: number): string => `${count / 100}`;

const HOLDS: Readonly<Record<Comparison, (a: number, b: number) => boolean>> = {
  '<': (a, b) => a < b,
  '<=': (a, b) => a <= b,
  '>': (a, b) => a > b,
  '>=': (a, b) => a >= b,
  '=': (a, b) => a === b,
};

test('the cut of a comparison is the run of steps for which it holds', () => {
  const steps = fc.record({
    from: fc.integer({ min: -500, max: 500 }),
    step: fc.integer({ min: 1, max: 150 }),
    count: fc.nat(12),
  });
  fc.assert(
    fc.property(
      steps,
      fc.constantFrom<Comparison>('<', '<=', '>', '>=', '='),
      fc.integer({ min: -700, max: 2500 }),
      (range, by, value) => {
        const { from, step, count } = range;
        // By counting every step, in whole hundredths, where numbers are exact.
        const holding = Array.from({ length: count + 1 }, (_, n) => n).filter((n) => HOLDS[by](from + n * step, value));
        const cut = thresholdCut(
          { from: hundredths(from), to: hundredths(from + count * step), step: hundredths(step) },
          by,
          hundredths(value),
        );
        const counted =
          holding.length === 0 ? undefined : [BigInt(holding[0] as number), BigInt(holding.at(-1) as number)];
        expect(cut).toEqual(counted);
      },
    ),
    { numRuns: 2000 },
  );
});

describe('thresholds', () => {
  const speed = { from: '0', to: '400', step: '1' };
  test.each<[by: Comparison, value: string, cut: [bigint, bigint] | undefined]>([
    ['>', '240', [241n, 400n]],
    ['>=', '240', [240n, 400n]],
    ['>=', '240.5', [241n, 400n]],
    ['<', '240.5', [0n, 240n]],
    ['=', '240.0', [240n, 240n]],
    ['=', '240.5', undefined],
    ['>', '400', undefined],
    ['<', '0', undefined],
    ['<=', '1000', [0n, 400n]],
  ])('%s %s', (by, value, cut) => expect(thresholdCut(speed, by, value)).toEqual(cut));

  test('tenths are exact where floating point is not', () => {
    expect(0.1 + 0.2 === 0.3).toBe(false);
    expect(thresholdCut({ from: '0.1', to: '0.9', step: '0.2' }, '=', '0.3')).toEqual([1n, 1n]);
  });

  test('a range that ends between two steps ends on the step before', () => {
    expect(thresholdCut({ from: '0', to: '10', step: '3' }, '>', '5')).toEqual([2n, 3n]);
  });

  test('no number is too long', () => {
    const tiny = '0.00000000000000000000000000001';
    expect(thresholdCut({ from: '0', to: '1', step: tiny }, '<=', '1')).toEqual([0n, 10n ** 29n]);
  });
});

test('decimals compare by value, not by their writing', () => {
  expect(compareDecimals('88.50', '88.5')).toBe(0);
  expect(compareDecimals('-0', '0')).toBe(0);
  expect(compareDecimals('9', '10')).toBeLessThan(0);
  expect(compareDecimals('-9', '-10')).toBeGreaterThan(0);
  expect(compareDecimals('-0.5', '-0.45')).toBeLessThan(0);
});

test('steps are counted from the start of the range', () => {
  expect(isOnStep('9.5', '0.5', '3')).toBe(true);
  expect(isOnStep('9', '0.5', '3')).toBe(false);
  expect(isOnStep('-2.5', '0.5', '3')).toBe(true);
});

test.each(['', '1,000', '1e3', '.5', '5.', '+5', ' 5', '5 ', '0x10', '--5', '∞'])('"%s" is not a decimal', (text) => {
  expect(parseDecimal(text)).toBeUndefined();
});

describe('sums and differences', () => {
  test.each([
    ['88.5', '0.25', '88.75', '88.25'],
    ['5', '5', '10', '0'],
    ['0.5', '0.5', '1', '0'],
    ['3', '10', '13', '-7'],
    ['-0.05', '0.1', '0.05', '-0.15'],
    ['100', '0.001', '100.001', '99.999'],
  ])('of %s and %s', (a, b, sum, difference) => {
    expect(addDecimals(a, b)).toBe(sum);
    expect(subtractDecimals(a, b)).toBe(difference);
  });

  test('need numbers: anything else is a fault of ours, told with the text', () => {
    for (const of of [addDecimals, subtractDecimals, compareDecimals]) {
      expect(() => of('5 kt', '1')).toThrow('5 kt is not a decimal number');
      expect(() => of('1', '')).toThrow(' is not a decimal number');
    }
  });
});
