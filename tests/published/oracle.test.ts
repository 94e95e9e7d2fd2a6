/** The oracle against published figures: what judges the book is itself judged by something outside the project. */
import { describe, expect, test } from 'vitest';
import { loadOracle } from '../oracle/index.ts';
import { allPublished } from './published.ts';

const parts = (item: string): [string, string] => item.split('.') as [string, string];

describe.each(allPublished())('$expected.source ($name)', ({ content, expected }) => {
  const oracle = loadOracle(content);
  const stateOf = (aircraft: string, item: string, given: Readonly<Record<string, string>>): string => {
    const state = oracle.state(oracle.fitOf(aircraft), ...parts(item), given);
    return typeof state === 'string' ? state : Object.keys(state)[0]!;
  };

  test.each(expected.vectors)('$aircraft $item $case is $state', ({ aircraft, item, case: given, state }) => {
    expect(stateOf(aircraft, item, given)).toBe(state);
    if (state !== 'not-fitted') expect(oracle.canHappen(oracle.fitOf(aircraft), given)).toBe(true);
  });

  test.each(expected.claims ?? [])('$holds fails on $fails', ({ holds, fails }) => {
    const variables = oracle.variablesOf(holds);
    const failing = oracle.aircraft.filter(({ fit }) =>
      [...oracle.cases(fit, variables)].some((given) => !oracle.evaluate(fit, holds, given)),
    );
    expect(failing.map(({ registration }) => registration)).toEqual(fails);
    expect(oracle.holds(holds)).toBe(fails.length === 0);
  });

  test.each(expected.alike ?? [])('$item is alike within $groups only', ({ item, groups }) => {
    for (const [at, group] of groups.entries()) {
      for (const [other, others] of groups.entries()) {
        for (const a of group) {
          for (const b of others) {
            expect(oracle.alike(...parts(item), oracle.fitOf(a), oracle.fitOf(b)), `${a} and ${b}`).toBe(at === other);
          }
        }
      }
    }
  });

  test.each(expected.counts ?? [])('$item has its states in $states steps', ({ aircraft, item, number, states }) => {
    const range = oracle.content.conditions.get(number)!.number!;
    const found: Record<string, number> = {};
    for (let value = Number(range.from); value <= Number(range.to); value += Number(range.step)) {
      const state = stateOf(aircraft, item, { [number]: value.toFixed(1) });
      found[state] = (found[state] ?? 0) + 1;
    }
    expect(found).toEqual(states);
  });
});
