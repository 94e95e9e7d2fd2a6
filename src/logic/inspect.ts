/** Questions to a diagram that make no node: support, terminals, size, counts. */
import type { Node, UniqueTable } from './unique-table.ts';

/** All nodes of `f`, terminals too, parents before children. */
export function reachable(table: UniqueTable, f: Node): readonly Node[] {
  const seen = new Set<Node>([f]);
  for (const node of seen) {
    if (table.isTerminal(node)) continue;
    const size = table.sizes[table.level(node)] as number;
    for (let value = 0; value < size; value += 1) seen.add(table.child(node, value));
  }
  return [...seen];
}

/** The levels that `f` tests, ascending. */
export function supportOf(table: UniqueTable, f: Node): readonly number[] {
  const inner = reachable(table, f).filter((node) => !table.isTerminal(node));
  return ascending(inner.map((node) => table.level(node)));
}

/** The terminal values that `f` reaches, ascending. */
export function terminalsOf(table: UniqueTable, f: Node): readonly number[] {
  const terminals = reachable(table, f).filter((node) => table.isTerminal(node));
  return ascending(terminals.map((node) => table.value(node)));
}

/**
 * In how many assignments of the variables at `levels` the Boolean `f` holds.
 * Throws a RangeError when `f` tests a variable that is not among them.
 */
export function countSatisfying(table: UniqueTable, f: Node, levels: readonly number[]): bigint {
  const counted = ascending(levels);
  const rank = new Map(counted.map((level, index) => [level, index]));
  // below[i]: assignments of the counted variables from the i-th on.
  const below: bigint[] = [1n];
  for (const level of counted.toReversed()) below.unshift((below[0] as bigint) * BigInt(table.sizes[level] as number));
  const rankOf = (node: Node): number => {
    if (table.isTerminal(node)) return counted.length;
    const found = rank.get(table.level(node));
    if (found === undefined) throw new RangeError('a variable is tested but not counted');
    return found;
  };
  const done = new Map<Node, bigint>();
  /** Over the variables from the node's own on. */
  const count = (node: Node): bigint => {
    if (table.isTerminal(node)) return BigInt(table.value(node));
    const known = done.get(node);
    if (known !== undefined) return known;
    const total = table.childrenOf(node).reduce((sum, child) => sum + scaled(child, rankOf(node) + 1), 0n);
    done.set(node, total);
    return total;
  };
  /** The same over the variables from rank `from` on: the skipped ones are free. */
  const scaled = (node: Node, from: number): bigint =>
    (count(node) * (below[from] as bigint)) / (below[rankOf(node)] as bigint);
  return scaled(f, 0);
}

/** Without duplicates, in rising order. */
export function ascending(numbers: Iterable<number>): readonly number[] {
  return [...new Set(numbers)].toSorted((a, b) => a - b);
}
