/** Behaviours of the trade, said in the content language, against tables that were written by hand. See README.md. */
import { describe, expect, test } from 'vitest';
import { allBehaviours, nameOf, wrongFiles } from './behaviour.ts';
import { check, judge, unexpectedWarnings } from './judge.ts';

describe.each(allBehaviours())('$name', (behaviour) => {
  const { expected, wrong } = behaviour;
  const checked = check(behaviour.files);

  test('is sound content, with the expected findings only', () => {
    expect(checked.errors).toEqual([]);
    expect(unexpectedWarnings(checked, expected)).toEqual([]);
  });

  test.each(expected.map((entry) => ({ entry, name: nameOf(entry) })))('$name comes out as expected', ({ entry }) => {
    expect(judge(checked, entry)).toEqual([]);
  });

  test('has a wrong twin that is sound content too, and misses what it should', () => {
    const twin = check(wrongFiles(behaviour));
    expect(twin.errors).toEqual([]);
    const missed = expected.filter((entry) => judge(twin, entry).length > 0).map(nameOf);
    expect(missed).toEqual(expect.arrayContaining([...wrong.misses]));
    expect(wrong.misses.length).toBeGreaterThan(0);
  });
});
