/** Packed diagrams as diagrams of a manager again. */
import type { Diagrams } from './diagrams.ts';
import { PackedError, type Reference, readPacked } from './read-packed.ts';
import type { Node } from './unique-table.ts';

/**
 * The roots of packed diagrams, in a manager whose variables at the packed levels have the same sizes; their order may be
 * another, and so may the levels: `levelOf` says where a packed level stands. Throws a `PackedError` where the data is
 * damaged or the variables are others.
 */
export function loadPacked(
  diagrams: Diagrams,
  data: unknown,
  levelOf: (packed: number) => number = (level) => level,
): Node[] {
  const { levels: packed, sizes, terminals, nodes, roots } = readPacked(data);
  const levels = packed.map(levelOf);
  levels.forEach((level, depth) => {
    const size = diagrams.variables[level]?.size;
    if (size !== sizes[depth]) throw new PackedError(`level ${level} has ${sizes[depth]} values, not ${size ?? 0}`);
  });
  const made: Node[] = [];
  const nodeOf = (reference: Reference): Node =>
    reference < 0 ? diagrams.terminal(terminals[~reference] as number) : (made[reference] as Node);
  for (const { depth, children } of nodes) {
    const [last, ...others] = [...new Set(children)].toReversed();
    made.push(
      others.reduce(
        (rest, child) => {
          const values = children.flatMap((each, value) => (each === child ? [value] : []));
          return diagrams.ite(diagrams.literal(levels[depth] as number, values), nodeOf(child), rest);
        },
        nodeOf(last as Reference),
      ),
    );
  }
  return roots.map(nodeOf);
}
