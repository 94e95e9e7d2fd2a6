/** Cells of numbers against every step of a range, compared as exact decimals by the oracle. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutCells } from '../../src/compile/cells.ts';
import { formatNumber, type Meaning, valuesTitle } from '../../src/compile/index.ts';
import type { Comparison } from '../../src/language/index.ts';
import { compares } from '../oracle/index.ts';

const BY: readonly Comparison[] = ['<', '<=', '>', '>=', '='];
const HUNDREDTHS = 100;
const decimal = (hundredths: number): string => (hundredths / HUNDREDTHS).toFixed(2);

/** A range of a few steps and comparisons around it, thresholds between steps and outside included. */
const ranges = fc
  .record({ from: fc.integer({ min: -300, max: 300 }), step: fc.constantFrom(10, 25, 50, 100), steps: fc.nat(12) })
  .map(({ from, step, steps }) => ({ from, step, to: from + step * (steps + 1) }));
const comparison = fc.record({ by: fc.constantFrom(...BY), value: fc.integer({ min: -400, max: 1600 }).map(decimal) });

describe('the cells of a number', () => {
  it('part its steps so that within one every comparison says the same, and no two that touch agree in all', () => {
    fc.assert(
      fc.property(ranges, fc.array(comparison, { maxLength: 4 }), ({ from, step, to }, comparisons) => {
        const range = { unit: 'kt', from: decimal(from), to: decimal(to), step: decimal(step) };
        const cells = cutCells(range, comparisons);
        const answers = cells.map(({ first, last }) => {
          const steps = Array.from({ length: Number(last - first) + 1 }, (_, at) =>
            decimal(from + (Number(first) + at) * step),
          );
          expect(steps.length).toBeGreaterThan(0);
          return steps.map((each) => comparisons.map(({ by, value }) => compares(each, by, value)).join());
        });
        expect(answers.flat()).toHaveLength((to - from) / step + 1);
        for (const within of answers) expect(new Set(within).size).toBe(1);
        expect(cells.map(({ first }) => first)).toEqual([0n, ...cells.slice(0, -1).map(({ last }) => last + 1n)]);
        for (const [at, [here]] of answers.slice(1).entries()) expect(here).not.toBe(answers[at]?.[0]);
      }),
      { numRuns: 1000 },
    );
  });

  it('are said in the words that are true of exactly their steps', () => {
    const bounds: readonly (readonly [RegExp, Comparison])[] = [
      [/^(.*) kt or below$/, '<='],
      [/^(.*) kt or above$/, '>='],
      [/^above (.*) kt$/, '>'],
      [/^below (.*) kt$/, '<'],
      [/^from (.*) kt$/, '>='],
      [/^up to (.*) kt$/, '<='],
      [/^at (.*) kt$/, '='],
    ];
    const isIn = (words: string, value: string): boolean =>
      words === 'any value' ||
      words.split(/, (?=up to|below)/).every((part) => {
        const [found, by] = bounds.map(([form, each]) => [form.exec(part), each] as const).find(([each]) => each) ?? [];
        if (!found?.[1] || !by) throw new Error(`"${part}" is no bound`);
        return compares(value, by, found[1].replaceAll(',', ''));
      });
    fc.assert(
      fc.property(ranges, fc.array(comparison, { maxLength: 4 }), fc.nat(), fc.nat(), (sizes, comparisons, a, b) => {
        const { from, step, to } = sizes;
        const number = { unit: 'kt', from: decimal(from), to: decimal(to), step: decimal(step) };
        const cells = cutCells(number, comparisons);
        const [low = 0, high = 0] = [a % cells.length, b % cells.length].sort((x, y) => x - y);
        const place = { file: { path: '', text: '' }, start: 0, end: 0 };
        const meaning: Meaning = {
          kind: 'number',
          condition: { id: 'n', title: 'N', noun: 'the n', number, place },
          cells,
        };
        const words = valuesTitle(
          meaning,
          Array.from({ length: high - low + 1 }, (_, at) => low + at),
        );
        for (let value = from; value <= to; value += step) {
          const at = BigInt((value - from) / step);
          const inside = (cells[low]?.first ?? 0n) <= at && at <= (cells[high]?.last ?? -1n);
          expect(isIn(words, decimal(value)), `${words}: ${decimal(value)}`).toBe(inside);
        }
      }),
      { numRuns: 1000 },
    );
  });
});

describe('numbers', () => {
  it.each([
    ['0', '0'],
    ['999', '999'],
    ['1000', '1,000'],
    ['-12500', '-12,500'],
    ['1234567.0005', '1,234,567.0005'],
  ])('%s is written %s', (given, written) => {
    expect(formatNumber(given)).toBe(written);
  });
});
