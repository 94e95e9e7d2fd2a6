import { describe, expect, test } from 'vitest';
import { ComputedTable, MISSING } from '../../src/logic/computed-table.ts';
import { Meter } from '../../src/logic/limits.ts';

/** How many results it holds at first. */
const FIRST = 2 ** 14;

/** A table with a result for so many questions, each of them another. */
function filled(count: number): ComputedTable {
  const table = new ComputedTable(new Meter({}));
  for (let at = 0; at < count; at += 1) table.set(at % 7, at, at + 1, -1, 2 * at);
  return table;
}

/** The questions of `filled` that are answered; every answer is the right one. */
function known(table: ComputedTable, count: number): number[] {
  const found: number[] = [];
  for (let at = 0; at < count; at += 1) {
    const result = table.get(at % 7, at, at + 1, -1);
    if (result !== MISSING) found.push(at);
    if (result !== MISSING && result !== 2 * at) throw new Error(`${result} in place of ${2 * at}`);
  }
  return found;
}

describe('the table of what has been computed', () => {
  test('knows nothing that it was not told, small or grown', () => {
    const grown = filled(0);
    for (let times = 0; times <= FIRST; times += 1) grown.set(5, 6, 7, 8, 9);
    for (const table of [filled(0), grown]) {
      for (const number of [0, 1]) expect(table.get(number, number, number, number)).toBe(MISSING);
      expect(table.get(3, 3, 4, 0)).toBe(MISSING);
    }
  });

  test('keeps the last result in a place, and counts the questions that it answered', () => {
    const table = filled(1000);
    table.set(5, 6, 7, 8, 9);
    table.set(5, 6, 7, 8, 10);
    expect(table.get(5, 6, 7, 8)).toBe(10);
    expect(known(table, 1000)).toHaveLength(table.hits - 1);
  });

  test('grows when as much was written as it holds, and forgets nothing then', () => {
    // Two results that had places of their own have them still.
    const table = filled(FIRST);
    const before = known(table, FIRST);
    const last = FIRST - 1;
    table.set(last % 7, last, last + 1, -1, 2 * last);
    expect(known(table, FIRST)).toEqual(before);
    // A table of the first size could not hold as many.
    expect(known(filled(2 * FIRST), 2 * FIRST).length).toBeGreaterThan(FIRST);
  });

  test('never holds more than 2^20 results', () => {
    const count = 3 * 2 ** 20;
    const held = known(filled(count), count).length;
    expect(held).toBeGreaterThan(2 ** 19);
    expect(held).toBeLessThanOrEqual(2 ** 20);
  });
});
