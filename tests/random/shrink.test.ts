/** A failing family is told as a small one. */
import { expect, it } from 'vitest';
import { both } from './both.ts';
import { type Family, written } from './family.ts';
import { randomFamily } from './random-family.ts';
import { shrunk } from './shrink.ts';

const compiledOf = (family: Family) => {
  const { compiled, found } = both(written(family));
  return found.length === 0 ? compiled : undefined;
};

it('a family is made as small as what is asked of it lets it be', async () => {
  const differs = (family: Family): boolean =>
    compiledOf(family)?.behaviours.some(({ groups }) => groups.length > 1) ?? false;
  const large = Array.from({ length: 60 }, (_, at) => randomFamily(at)).filter(
    (family) => family.items.length > 2 && family.conditions.length > 2 && differs(family),
  );
  expect(large.length).toBeGreaterThan(2);
  for (const family of large.slice(0, 3)) {
    const least = await shrunk(family, differs);
    expect(differs(least)).toBe(true);
    // One item, two aircraft, one option with two values, and nothing beside them.
    expect(least.aircraft).toHaveLength(2);
    expect(least.options.map(({ values }) => values.length)).toEqual([2]);
    expect(least.items).toHaveLength(1);
    const { never, overrides, claims, signals, latches, changes, detectors } = least;
    expect([never, overrides, claims, signals, latches, changes, detectors].flat()).toEqual([]);
    expect(least.conditions.length + least.numbers.length + least.controls.length).toBeLessThan(3);
  }
});
