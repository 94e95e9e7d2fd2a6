/** Pointwise operations on one, two and three diagrams. */
import { type ComputedTable, MISSING } from './computed-table.ts';
import type { Node, UniqueTable } from './unique-table.ts';

/** What the algorithms on nodes work with. */
export interface Kernel {
  readonly table: UniqueTable;
  readonly cache: ComputedTable;
}

/** Answer of a decision function that needs to look further down. */
export const UNDECIDED = -1;

/** Result of a merge of two diagrams that disagree. */
export const CONFLICT = -1;

const NONE = -1;

/** Applies `change` to every terminal of `f`. Equal `operation` numbers must mean equal changes. */
export function mapTerminals(kernel: Kernel, operation: number, f: Node, change: (value: number) => number): Node {
  const { table, cache } = kernel;
  if (table.isTerminal(f)) return table.terminal(change(table.value(f)));
  const known = cache.get(operation, f, NONE, NONE);
  if (known !== MISSING) return known;
  const children = table.childrenOf(f).map((child) => mapTerminals(kernel, operation, child, change));
  const result = table.make(table.level(f), children);
  cache.set(operation, f, NONE, NONE, result);
  return result;
}

/**
 * Combines `f` and `g` pointwise. `decide` answers pairs that need no further look (at least all pairs of terminals)
 * and `UNDECIDED` for the others. Equal `operation` numbers must mean equal decisions.
 */
export function applyBinary(
  kernel: Kernel,
  operation: number,
  f: Node,
  g: Node,
  decide: (f: Node, g: Node) => Node,
): Node {
  const decided = decide(f, g);
  if (decided !== UNDECIDED) return decided;
  const { table, cache } = kernel;
  const known = cache.get(operation, f, g, NONE);
  if (known !== MISSING) return known;
  const level = Math.min(table.level(f), table.level(g));
  const size = table.sizes[level] as number;
  const children = new Array<Node>(size);
  for (let value = 0; value < size; value += 1) {
    const left = table.cofactor(f, level, value);
    children[value] = applyBinary(kernel, operation, left, table.cofactor(g, level, value), decide);
  }
  const result = table.make(level, children);
  cache.set(operation, f, g, NONE, result);
  return result;
}

/** `g` where the Boolean `f` holds, `h` elsewhere. */
export function ifThenElse(kernel: Kernel, operation: number, f: Node, g: Node, h: Node): Node {
  const { table, cache } = kernel;
  if (table.isTerminal(f)) {
    const value = table.value(f);
    if (value > 1) throw new TypeError(`a Boolean diagram has the terminals 0 and 1, not ${value}`);
    return value === 1 ? g : h;
  }
  if (g === h) return g;
  const known = cache.get(operation, f, g, h);
  if (known !== MISSING) return known;
  const level = Math.min(table.level(f), table.level(g), table.level(h));
  const size = table.sizes[level] as number;
  const children = new Array<Node>(size);
  for (let value = 0; value < size; value += 1) {
    const condition = table.cofactor(f, level, value);
    const positive = table.cofactor(g, level, value);
    children[value] = ifThenElse(kernel, operation, condition, positive, table.cofactor(h, level, value));
  }
  const result = table.make(level, children);
  cache.set(operation, f, g, h, result);
  return result;
}

/**
 * The diagram that equals `f` where `f` is not `free` and `g` where `g` is not `free`, or `CONFLICT` when they differ
 * somewhere where neither is. Stops at the first difference.
 */
export function mergePossible(kernel: Kernel, operation: number, f: Node, g: Node, free: Node): Node {
  if (f === g || g === free) return f;
  if (f === free) return g;
  const { table, cache } = kernel;
  if (table.isTerminal(f) && table.isTerminal(g)) return CONFLICT;
  // Merging is symmetric: one cache entry serves both orders.
  const [a, b] = f < g ? [f, g] : [g, f];
  const known = cache.get(operation, a, b, free);
  if (known !== MISSING) return known;
  const level = Math.min(table.level(a), table.level(b));
  const size = table.sizes[level] as number;
  const children: Node[] = [];
  let result: Node | undefined;
  for (let value = 0; value < size && result === undefined; value += 1) {
    const left = table.cofactor(a, level, value);
    const child = mergePossible(kernel, operation, left, table.cofactor(b, level, value), free);
    if (child === CONFLICT) result = CONFLICT;
    children.push(child);
  }
  result ??= table.make(level, children);
  cache.set(operation, a, b, free, result);
  return result;
}
