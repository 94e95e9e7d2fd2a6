/** The least number of disjoint rows of a small table: a bound that proves most of them, an integer program for the rest. */
import type { Variable } from '../../src/logic/index.ts';
import { leastCost } from './integer-program.ts';

interface TruthTableCase {
  readonly each: readonly number[];
  readonly outcome: number;
}

export interface Fewest {
  /** Exact. */
  readonly least: number;
  /** Cases of which no two fit one row: no table has fewer rows. */
  readonly lowerBound: number;
}

/** The fewest rows that part the possible cases, each row a product of value sets with cases of one outcome only. */
export function fewestRows(
  variables: readonly Variable[],
  cases: readonly TruthTableCase[],
  impossible: number,
): Fewest {
  const outcomes = new Set(cases.map(({ outcome }) => outcome));
  outcomes.delete(impossible);
  const boxes = allBoxes(variables, cases);
  let least = 0;
  let lowerBound = 0;
  // Rows of different outcomes share no case, possible or not in anybody's way.
  for (const wanted of outcomes) {
    const own = cases.filter(({ outcome }) => outcome === wanted);
    const index = new Map(own.map((each, at) => [each, at]));
    const rows = new Map<string, readonly number[]>();
    for (const box of boxes) {
      if (box.some(({ outcome }) => outcome !== wanted && outcome !== impossible)) continue;
      const held = box.flatMap((each) => index.get(each) ?? []);
      if (held.length > 0) rows.set(held.join(), held);
    }
    const apart = casesApart(own.length, [...rows.values()]);
    lowerBound += apart;
    const holding = own.map((): number[] => []);
    [...rows.values()].forEach((row, at) => {
      for (const each of row) holding[each]?.push(at);
    });
    least += leastCost(
      holding,
      [...rows.values()].map(() => 1),
      'exactly one',
    );
  }
  return { least, lowerBound };
}

/** The value sets that a cell may hold. */
function cellSets({ size, ordered }: Variable): number[][] {
  const subsets = Array.from({ length: 2 ** size - 1 }, (_, bits) =>
    Array.from({ length: size }, (_, value) => value).filter((value) => (bits + 1) & (1 << value)),
  );
  const isInterval = (set: number[]): boolean => (set.at(-1) as number) - (set[0] as number) === set.length - 1;
  return ordered ? subsets.filter(isInterval) : subsets;
}

function allBoxes(variables: readonly Variable[], cases: readonly TruthTableCase[]): TruthTableCase[][] {
  let boxes: TruthTableCase[][] = [[...cases]];
  variables.forEach((variable, level) => {
    const sets = cellSets(variable);
    boxes = boxes.flatMap((box) => sets.map((set) => box.filter(({ each }) => set.includes(each[level] as number))));
  });
  return boxes;
}

/** Greedily chosen cases of which no two share a row: the one that shares rows with the fewest others comes next. */
function casesApart(count: number, rows: readonly (readonly number[])[]): number {
  const together = Array.from({ length: count }, () => new Set<number>());
  for (const row of rows) for (const a of row) for (const b of row) together[a]?.add(b);
  const rest = new Set(together.keys());
  let found = 0;
  while (rest.size > 0) {
    let best = -1;
    let fewest = Number.POSITIVE_INFINITY;
    for (const each of rest) {
      const shared = [...(together[each] ?? [])].filter((other) => rest.has(other)).length;
      if (shared < fewest) [best, fewest] = [each, shared];
    }
    found += 1;
    for (const other of together[best] ?? []) rest.delete(other);
  }
  return found;
}
