/** Removing variables from Boolean diagrams. */
import type { Kernel } from './apply.ts';
import { MISSING } from './computed-table.ts';
import type { Node } from './unique-table.ts';

/**
 * Removes the variables at `levels` from `f` by folding their cofactors with `combine`, which must be associative,
 * commutative and idempotent (a variable that `f` does not test is skipped). The operation number stands for the
 * levels and the fold together.
 */
export function quantify(
  kernel: Kernel,
  operation: number,
  f: Node,
  levels: ReadonlySet<number>,
  combine: (f: Node, g: Node) => Node,
): Node {
  const { table, cache } = kernel;
  const lowest = Math.max(-1, ...levels);
  const visit = (node: Node): Node => {
    const level = table.level(node);
    if (level > lowest) return node;
    const known = cache.get(operation, node, -1, -1);
    if (known !== MISSING) return known;
    const children = table.childrenOf(node).map(visit);
    const result = levels.has(level) ? children.reduce(combine) : table.make(level, children);
    cache.set(operation, node, -1, -1, result);
    return result;
  };
  return visit(f);
}
