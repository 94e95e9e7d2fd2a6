/** The oracle: functions written out case by case, with nothing shared with the code under test. */
import type { Variable } from '../../src/logic/index.ts';

/** All assignments of variables of these sizes, the last one moving fastest. */
export function allCases(sizes: readonly number[]): number[][] {
  return sizes.reduce<number[][]>(
    (cases, size) => cases.flatMap((each) => Array.from({ length: size }, (_, value) => [...each, value])),
    [[]],
  );
}

export function variablesOf(sizes: readonly number[], ordered: readonly boolean[] = []): Variable[] {
  return sizes.map((size, level) => ({ id: `x${level}`, size, ordered: ordered[level] ?? false }));
}

/** One line a case, for the message of a failed test. */
export function printed(sizes: readonly number[], value: (each: readonly number[]) => number | string): string {
  return allCases(sizes)
    .map((each) => `${each.join(' ')} | ${value(each)}`)
    .join('\n');
}

/** A repeatable sequence of integers below a bound (a linear congruential generator with the constants of C's rand48). */
export function seeded(seed: number): (below: number) => number {
  let state = BigInt(seed);
  return (below) => {
    state = (state * 0x5deece66dn + 0xbn) & 0xffffffffffffn;
    return Number(state >> 17n) % below;
  };
}
