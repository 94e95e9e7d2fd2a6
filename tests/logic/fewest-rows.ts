/** The least number of disjoint rows of a small table, by exhaustive search over rows as bit sets of cases. */
import type { Variable } from '../../src/logic/index.ts';

interface TruthTableCase {
  readonly each: readonly number[];
  readonly outcome: number;
}

/** `least` is exact when `proven`; else the search gave up, and `least` is the best known. */
export interface Fewest {
  readonly least: number;
  readonly proven: boolean;
  /** Cases of which no two fit one row: no table has fewer rows. */
  readonly lowerBound: number;
}

/** The value sets that a cell may hold. */
function cellSets({ size, ordered }: Variable): number[][] {
  const subsets = Array.from({ length: 2 ** size - 1 }, (_, bits) =>
    Array.from({ length: size }, (_, value) => value).filter((value) => (bits + 1) & (1 << value)),
  );
  const isInterval = (set: number[]): boolean => (set.at(-1) as number) - (set[0] as number) === set.length - 1;
  return ordered ? subsets.filter(isInterval) : subsets;
}

/** All rows that hold possible cases of one outcome only, as bit sets over the possible cases. */
function allRows(variables: readonly Variable[], cases: readonly TruthTableCase[], impossible: number): bigint[] {
  const possible = cases.filter(({ outcome }) => outcome !== impossible);
  const bit = new Map(possible.map((each, index) => [each, 1n << BigInt(index)]));
  let boxes: TruthTableCase[][] = [[...cases]];
  variables.forEach((variable, level) => {
    const sets = cellSets(variable);
    boxes = boxes.flatMap((box) => sets.map((set) => box.filter(({ each }) => set.includes(each[level] as number))));
  });
  const rows = new Set<bigint>();
  for (const box of boxes) {
    const held = box.filter(({ outcome }) => outcome !== impossible);
    if (new Set(held.map(({ outcome }) => outcome)).size !== 1) continue;
    rows.add(held.reduce((bits, each) => bits | (bit.get(each) as bigint), 0n));
  }
  return [...rows];
}

/**
 * Searches for a partition of the possible cases into fewer than `known` rows, deepest cut first: the case that the
 * fewest rows hold is decided next. Gives up after `effort` nodes of the search.
 */
export function fewestRows(
  variables: readonly Variable[],
  cases: readonly TruthTableCase[],
  impossible: number,
  known: number,
  effort: number,
): Fewest {
  const rows = allRows(variables, cases, impossible);
  const count = cases.filter(({ outcome }) => outcome !== impossible).length;
  const all = (1n << BigInt(count)) - 1n;
  const bits = Array.from({ length: count }, (_, index) => 1n << BigInt(index));
  const holding = bits.map((bit) => rows.filter((row) => row & bit));
  // together[i]: the cases that some row holds along with case i.
  const together = holding.map((some) => some.reduce((union, row) => union | row, 0n));

  /** A greedy set of cases, of which no two share a row: as many rows are needed for them. */
  const apart = (open: bigint): number => {
    let rest = open;
    let found = 0;
    while (rest) {
      let best = -1;
      let fewest = Number.POSITIVE_INFINITY;
      for (let index = 0; index < count; index += 1) {
        if (!(rest & (bits[index] as bigint))) continue;
        const shared = ones((together[index] as bigint) & rest);
        if (shared < fewest) [best, fewest] = [index, shared];
      }
      found += 1;
      rest &= ~(together[best] as bigint);
    }
    return found;
  };

  let least = known;
  let left = effort;
  const search = (open: bigint, used: number): void => {
    if (!open) {
      least = Math.min(least, used);
      return;
    }
    if (left <= 0 || used + apart(open) >= least) return;
    left -= 1;
    let choices: bigint[] | undefined;
    for (let index = 0; index < count; index += 1) {
      if (!(open & (bits[index] as bigint))) continue;
      const fitting = (holding[index] as bigint[]).filter((row) => (row & ~open) === 0n);
      if (!choices || fitting.length < choices.length) choices = fitting;
    }
    for (const row of choices?.toSorted((a, b) => ones(b) - ones(a)) ?? []) search(open & ~row, used + 1);
  };
  const lowerBound = apart(all);
  if (lowerBound < known) search(all, 0);
  return { least, proven: left > 0, lowerBound };
}

function ones(bits: bigint): number {
  let found = 0;
  for (let rest = bits; rest; rest &= rest - 1n) found += 1;
  return found;
}
