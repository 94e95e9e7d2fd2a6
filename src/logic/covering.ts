/**
 * The covering problem, exactly: essential columns, dominance of rows and columns, then branch and bound with a bound from
 * rows that share no column. The textbook method (E. J. McCluskey, "Minimization of Boolean Functions", 1956, and its many
 * successors). Sets of columns are bits of a big integer, column 0 the lowest.
 */
import type { StepBudget } from './step-budget.ts';

interface Found {
  readonly cost: number;
  /** Ascending. */
  readonly columns: readonly number[];
}

interface State {
  readonly rows: readonly bigint[];
  readonly chosen: readonly number[];
  readonly cost: number;
}

/**
 * The columns that cover every row at the least cost, ascending; of several such choices the first in lexical order.
 * Each row has the set of columns that cover it, never empty; `costs` are those of the columns, above 0.
 * Throws a `StepLimitError` when the budget is spent.
 */
export function leastCover(rows: readonly bigint[], costs: readonly number[], budget: StepBudget): readonly number[] {
  if (rows.includes(0n)) throw new RangeError('a row has no column');
  let best = undefined as Found | undefined;

  function search(state: State): void {
    const { rows: left, chosen, cost } = reduced(state);
    if (best && cost > best.cost) return;
    // Rows come in order of width.
    const [row] = left;
    if (row === undefined) {
      const columns = chosen.toSorted((a, b) => a - b);
      if (!best || cost < best.cost || isBefore(columns, best.columns)) best = { cost, columns };
      return;
    }
    if (best && cost + boundOf(left) > best.cost) return;
    let excluded = 0n;
    for (const column of membersOf(row)) {
      // No row is narrower: each has a column that the branches before have not had.
      const rest = left.filter((each) => !has(each, column)).map((each) => each & ~excluded);
      search({ rows: rest, chosen: [...chosen, column], cost: cost + (costs[column] as number) });
      excluded |= 1n << BigInt(column);
    }
  }

  /** Takes what must be taken and leaves out what cannot be better, until neither is found. */
  function reduced(state: State): State {
    let { rows: left, chosen, cost } = state;
    for (;;) {
      left = withoutWiderRows(left);
      const essential = left.find((row) => (row & (row - 1n)) === 0n);
      if (essential !== undefined) {
        const [column] = membersOf(essential) as [number];
        chosen = [...chosen, column];
        cost += costs[column] as number;
        left = left.filter((row) => !has(row, column));
        continue;
      }
      const worse = dominated(left);
      if (worse === 0n) return { rows: left, chosen, cost };
      left = left.map((row) => row & ~worse);
    }
  }

  /** What covers a row covers every row that has its columns and more. */
  function withoutWiderRows(left: readonly bigint[]): bigint[] {
    const distinct = [...new Set(left)].map((row) => ({ row, count: membersOf(row).length }));
    distinct.sort((a, b) => a.count - b.count);
    const kept: bigint[] = [];
    for (const { row } of distinct) {
      budget.spend(kept.length + 1);
      if (!kept.some((narrow) => (narrow & row) === narrow)) kept.push(row);
    }
    return kept;
  }

  /** The columns whose rows another column covers that costs less, or as much and comes before. */
  function dominated(left: readonly bigint[]): bigint {
    const covered = new Map<number, bigint>();
    for (const [at, row] of left.entries()) {
      for (const column of membersOf(row)) covered.set(column, (covered.get(column) ?? 0n) | (1n << BigInt(at)));
    }
    const order = [...covered.keys()].sort((a, b) => (costs[a] as number) - (costs[b] as number) || a - b);
    const kept: bigint[] = [];
    let worse = 0n;
    for (const column of order) {
      const own = covered.get(column) as bigint;
      budget.spend(kept.length + 1);
      if (kept.some((better) => (better & own) === own)) worse |= 1n << BigInt(column);
      else kept.push(own);
    }
    return worse;
  }

  /** The cheapest columns of rows, narrow ones first, of which no two share a column. */
  function boundOf(left: readonly bigint[]): number {
    let seen = 0n;
    let bound = 0;
    for (const row of left) {
      budget.spend(1);
      if ((row & seen) !== 0n) continue;
      seen |= row;
      bound += Math.min(...membersOf(row).map((column) => costs[column] as number));
    }
    return bound;
  }

  search({ rows, chosen: [], cost: 0 });
  return (best as Found).columns;
}

/** In lexical order; neither of two different choices of the same cost begins with the other. */
function isBefore(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((column, index) => column !== b[index]);
  return (a[at] as number) < (b[at] as number);
}

function has(set: bigint, column: number): boolean {
  return ((set >> BigInt(column)) & 1n) === 1n;
}

/** Ascending. */
function membersOf(set: bigint): number[] {
  const bits = set.toString(2);
  const found: number[] = [];
  for (let at = bits.length - 1; at >= 0; at -= 1) if (bits[at] === '1') found.push(bits.length - 1 - at);
  return found;
}
