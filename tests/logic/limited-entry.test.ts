/**
 * Limited-entry decision tables: k two-way conditions. Sources, as public teaching material states them: 2^k elementary
 * rules ("Detecting Incompleteness, Ambiguity, Contradictions & Redundancy"); rules with the same actions that differ in
 * one entry merge, the entry becoming a dash ("Simplifying Structural Rules"). A rule with d dashes counts 2^d, and the
 * counts of a complete table of disjoint rules sum to 2^k (recomputed for this project). That merging of rules amounts
 * to the Quine-McCluskey method: K. Shwayder, Communications of the ACM, 1975 (abstract).
 */
import { describe, expect, test } from 'vitest';
import { Diagrams, type Node, type StateTable, stateTable } from '../../src/logic/index.ts';
import { seeded, variablesOf } from './truth-tables.ts';

const UNUSED = 9;

function countOf(table: StateTable, row: StateTable['rows'][number], conditions: number): number {
  const asked = row.cells.filter((cell) => cell !== undefined).length;
  expect(asked).toBeLessThanOrEqual(table.columns.length);
  return 2 ** (conditions - asked);
}

describe('limited-entry tables (sources above)', () => {
  test('merge rules of one action that differ in one entry into one with a dash', () => {
    const diagrams = new Diagrams(variablesOf([2, 2]));
    const [a, b] = [diagrams.literal(0, [1]), diagrams.literal(1, [1])];
    const f = diagrams.ite(
      diagrams.and(a, b),
      diagrams.terminal(2),
      diagrams.ite(a, diagrams.terminal(3), diagrams.terminal(4)),
    );
    expect(stateTable(diagrams, f, { impossible: UNUSED }).rows).toEqual([
      { cells: [[0], undefined], outcome: 4 },
      { cells: [[1], [0]], outcome: 3 },
      { cells: [[1], [1]], outcome: 2 },
    ]);
  });

  test.each([1, 2, 3, 4, 5, 6])('of %i conditions have counts that sum to 2^k', (k) => {
    const next = seeded(k);
    for (let sample = 0; sample < 25; sample += 1) {
      const diagrams = new Diagrams(variablesOf(Array.from({ length: k }, () => 2)));
      let f: Node = diagrams.terminal(next(2));
      for (let rule = 0; rule < k + 1; rule += 1) {
        const literals = diagrams.variables.flatMap((_, level) =>
          next(2) === 0 ? [diagrams.literal(level, [next(2)])] : [],
        );
        f = diagrams.ite(diagrams.and(...literals), diagrams.terminal(next(3)), f);
      }
      const table = stateTable(diagrams, f, { impossible: UNUSED });
      expect(table.rows.reduce((sum, row) => sum + countOf(table, row, k), 0)).toBe(2 ** k);
    }
  });

  test.each([2, 3, 4, 5])('of the parity of %i conditions cannot be merged: all 2^k elementary rules stand', (k) => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: k }, () => 2)));
    const parity = diagrams.variables.reduce<Node>(
      (f, _, level) => diagrams.apply('parity', f, diagrams.literal(level, [1]), (a, b) => a ^ b),
      diagrams.no,
    );
    expect(stateTable(diagrams, parity, { impossible: UNUSED }).rows).toHaveLength(2 ** k);
  });
});
