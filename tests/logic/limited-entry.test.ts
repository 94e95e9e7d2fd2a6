/**
 * Limited-entry decision tables: k two-way conditions. Sources, as public teaching material states them: 2^k elementary
 * rules ("Detecting Incompleteness, Ambiguity, Contradictions & Redundancy"); rules with the same actions that differ in
 * one entry merge, the entry becoming a dash ("Simplifying Structural Rules"). A rule with d dashes counts 2^d, and the
 * counts of a complete table of disjoint rules sum to 2^k (recomputed for this project). That merging of rules amounts
 * to the Quine-McCluskey method: K. Shwayder, Communications of the ACM, 1975 (abstract). Errors of such tables as the
 * content's authors meet them: tests/compile/limited-entry.test.ts.
 */
import { describe, expect, test } from 'vitest';
import { Diagrams, minimalCover, type Node, primes, type StateTable, stateTable } from '../../src/logic/index.ts';
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

/** Condition entries "0", "1" and "-" of a rule. */
type Entries = string;

/** What two rules merge into when they differ in exactly one entry, a dash not being part of it. */
function merged(a: Entries, b: Entries): Entries | undefined {
  const apart = [...a].flatMap((entry, at) => (entry === b[at] ? [] : [at]));
  const [at = -1] = apart;
  if (apart.length !== 1 || a[at] === '-' || b[at] === '-') return undefined;
  return `${a.slice(0, at)}-${a.slice(at + 1)}`;
}

/** Merges until nothing merges: what is left are the rules that became part of no other. */
function mergedThroughout(rules: readonly Entries[]): Entries[] {
  const found: Entries[] = [];
  let stage = new Set(rules);
  while (stage.size > 0) {
    const used = new Set<Entries>();
    const next = new Set<Entries>();
    for (const a of stage) {
      for (const b of stage) {
        const both = merged(a, b);
        if (both === undefined) continue;
        next.add(both);
        used.add(a).add(b);
      }
    }
    found.push(...[...stage].filter((rule) => !used.has(rule)));
    stage = next;
  }
  return found.sort();
}

function casesOf(rule: Entries): Entries[] {
  const at = rule.indexOf('-');
  return at === -1
    ? [rule]
    : ['0', '1'].flatMap((entry) => casesOf(`${rule.slice(0, at)}${entry}${rule.slice(at + 1)}`));
}

function dashCount(rules: readonly Entries[]): number {
  return rules.reduce((sum, rule) => sum + 2 ** [...rule].filter((entry) => entry === '-').length, 0);
}

describe('merging the rules of one action (equivalent to Quine-McCluskey: Shwayder 1975, abstract)', () => {
  test.each([2, 3, 4, 5])(
    'of %i conditions, throughout, gives the primes, and a minimal cover picks from them',
    (k) => {
      const next = seeded(40 + k);
      let more = 0;
      for (let sample = 0; sample < 40; sample += 1) {
        const elementary = Array.from({ length: 2 ** k }, (_, bits) => bits.toString(2).padStart(k, '0'));
        const rules = elementary.filter(() => next(5) > 1);
        const diagrams = new Diagrams(variablesOf(Array.from({ length: k }, () => 2)));
        const columns = diagrams.variables.map((_, level) => level);
        const caseNode = (rule: Entries): Node =>
          diagrams.and(...columns.map((level) => diagrams.literal(level, [Number(rule[level])])));
        const on = diagrams.or(...rules.map(caseNode));
        const off = diagrams.not(on);
        const asRule = (cube: readonly (readonly number[] | undefined)[]): Entries =>
          cube.map((values) => values?.[0] ?? '-').join('');
        const kept = mergedThroughout(rules);
        expect(primes(diagrams, columns, off).map(asRule).sort()).toEqual(kept);
        const cover = minimalCover(diagrams, columns, on, off).cubes.map(asRule);
        expect(kept).toEqual(expect.arrayContaining(cover));
        expect([...new Set(cover.flatMap(casesOf))].sort()).toEqual(rules.toSorted());
        if (cover.length < kept.length) more += 1;
      }
      // Rules that overlap: not all that merging gives is needed.
      if (k > 2) expect(more).toBeGreaterThan(3);
    },
  );

  test('counts 2^d for d dashes: disjoint rules reach 2^k when complete, overlapping ones reach it with a gap', () => {
    const complete = ['00-', '01-', '1-0', '1-1'];
    expect(dashCount(complete)).toBe(8);
    expect(new Set(complete.flatMap(casesOf)).size).toBe(8);
    // Recomputed for this project: the sum alone proves nothing where rules overlap.
    const withGap = ['0--', '-0-'];
    expect(dashCount(withGap)).toBe(8);
    expect(new Set(withGap.flatMap(casesOf)).size).toBe(6);
  });
});
