/** The covering problem against every choice of columns. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastCover } from '../../src/logic/covering.ts';
import { StepBudget, StepLimitError } from '../../src/logic/step-budget.ts';

const COLUMNS = 8;
const columns = Array.from({ length: COLUMNS }, (_, at) => at);

/** Every choice of columns, ascending, in lexical order. */
function choices(from = 0): number[][] {
  return [[], ...columns.slice(from).flatMap((first) => choices(first + 1).map((rest) => [first, ...rest]))];
}

/** A row as bits: most have few columns, so that none is essential or dominated for long. */
const row = fc
  .oneof(
    { weight: 4, arbitrary: fc.subarray(columns, { minLength: 2, maxLength: 3 }) },
    fc.subarray(columns, { minLength: 1 }),
  )
  .map((some) => some.reduce((bits, column) => bits | (1 << column), 0));
const problems = fc.record({
  rows: fc.array(row, { maxLength: 12, size: 'max' }),
  costs: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: COLUMNS, maxLength: COLUMNS }),
});

const cover = (rows: readonly number[], costs: readonly number[]): readonly number[] =>
  leastCover(rows.map(BigInt), costs, new StepBudget());

describe('the least cover', () => {
  test('is the first in lexical order of all the cheapest choices that cover every row', () => {
    const all = choices();
    fc.assert(
      fc.property(problems, ({ rows, costs }) => {
        const costOf = (chosen: readonly number[]): number =>
          chosen.reduce((sum, column) => sum + (costs[column] as number), 0);
        const covers = all.filter((chosen) => rows.every((each) => chosen.some((column) => each & (1 << column))));
        const least = Math.min(...covers.map(costOf));
        expect(cover(rows, costs)).toEqual(covers.find((chosen) => costOf(chosen) === least));
      }),
      { numRuns: 2000 },
    );
  });

  test('of no rows has no column, and of a row without columns is refused', () => {
    expect(cover([], [1, 1])).toEqual([]);
    expect(() => cover([0b01, 0], [1, 1])).toThrow(new RangeError('a row has no column'));
  });

  test('is not looked for beyond the budget', () => {
    // Three rows in a ring: whichever two columns are taken.
    const ring = [0b011n, 0b110n, 0b101n];
    const budget = new StepBudget();
    expect(leastCover(ring, [1, 1, 1], budget)).toEqual([0, 1]);
    expect(leastCover(ring, [1, 1, 1], new StepBudget(budget.spent))).toEqual([0, 1]);
    const short = budget.spent - 1;
    expect(() => leastCover(ring, [1, 1, 1], new StepBudget(short))).toThrow(
      new StepLimitError(`more than ${short} steps`),
    );
  });
});
