/** Fixing variables: what a diagram becomes when some of them have known values. */
import type { Kernel } from './apply.ts';
import { MISSING } from './computed-table.ts';
import type { Node } from './unique-table.ts';

/** The cofactor of `f` for one variable. */
export function restrictOne(kernel: Kernel, operation: number, f: Node, level: number, value: number): Node {
  const { table, cache } = kernel;
  const own = table.level(f);
  if (own > level) return f;
  if (own === level) return table.child(f, value);
  const known = cache.get(operation, f, level, value);
  if (known !== MISSING) return known;
  const children = table.childrenOf(f).map((child) => restrictOne(kernel, operation, child, level, value));
  const result = table.make(own, children);
  cache.set(operation, f, level, value, result);
  return result;
}

/**
 * The cofactor of `f` for several variables at once. Where the fixed variables are the topmost ones it only follows
 * pointers and makes no node. `valueAt` gives the value at a level, if it has one; none below `lowest` has.
 */
export function restrictMany(
  kernel: Kernel,
  f: Node,
  lowest: number,
  valueAt: (level: number) => number | undefined,
): Node {
  const { table } = kernel;
  const done = new Map<Node, Node>();
  const visit = (node: Node): Node => {
    const level = table.level(node);
    if (level > lowest) return node;
    const value = valueAt(level);
    if (value !== undefined) return visit(table.child(node, value));
    const known = done.get(node);
    if (known !== undefined) return known;
    const result = table.make(level, table.childrenOf(node).map(visit));
    done.set(node, result);
    return result;
  };
  return visit(f);
}
