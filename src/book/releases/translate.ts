/** Normal forms out of one manager in another, whose variables have the values of more than one release. */
import type { Diagrams, Node } from '../../logic/index.ts';

/** Where a level of the one manager stands in the other, and which of its values each value there was. */
export interface LevelIn {
  readonly level: number;
  /** By value there: the value here, or -1 for one that it did not have. */
  readonly values: readonly number[];
}

/**
 * `nodes` of the manager `from` in the manager `to`. A value that a variable did not have is a case that could not happen:
 * the terminal `impossible` of both.
 */
export function translated(
  from: Diagrams,
  to: Diagrams,
  levels: ReadonlyMap<number, LevelIn>,
  impossible: number,
): (node: Node) => Node {
  const known = new Map<Node, Node>();
  const visit = (node: Node): Node => {
    const terminal = from.valueOf(node);
    if (terminal !== undefined) return to.terminal(terminal);
    const found = known.get(node);
    if (found !== undefined) return found;
    const there = levels.get(from.level(node));
    if (!there) throw new Error(`level ${from.level(node)} stands nowhere`);
    const children = there.values.map((value) =>
      value < 0 ? to.terminal(impossible) : visit(from.child(node, value)),
    );
    const [last, ...others] = [...new Set(children)].toReversed() as [Node, ...Node[]];
    const made = others.reduce((rest, child) => {
      const values = children.flatMap((each, value) => (each === child ? [value] : []));
      return to.ite(to.literal(there.level, values), child, rest);
    }, last);
    known.set(node, made);
    return made;
  };
  return visit;
}
