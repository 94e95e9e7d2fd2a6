/** Splitting a diagram on one variable, values that need not be told apart kept together. */
import type { Diagrams } from './diagrams.ts';
import type { Node } from './unique-table.ts';

/** Values of one variable that lead on together, and the diagram that they share. */
export interface ValueGroup {
  /** In rising order; undefined when there is only one group. */
  readonly values: readonly number[] | undefined;
  readonly node: Node;
}

/**
 * Groups the values of the variable at `level` by compatible cofactors of `f`: those that agree wherever both are
 * possible. A value joins the first group that it is compatible with, in declared order; of an ordered variable only
 * the last one, so that groups are intervals. Values without a possible case are left out of sets; of an ordered
 * variable they go with their lower neighbour (the first ones with their upper), so that intervals have no holes.
 * `f` has a possible case.
 */
export function groupValues(diagrams: Diagrams, f: Node, level: number, impossible: number): readonly ValueGroup[] {
  const { size, ordered } = diagrams.variables[level] as { size: number; ordered: boolean };
  const nothing = diagrams.terminal(impossible);
  const groups: { values: number[]; node: Node }[] = [];
  const leading: number[] = [];
  for (let value = 0; value < size; value += 1) {
    const cofactor = diagrams.restrict(f, level, value);
    if (cofactor === nothing) {
      if (ordered) (groups.at(-1)?.values ?? leading).push(value);
      continue;
    }
    const candidates = ordered ? groups.slice(-1) : groups;
    let placed = false;
    for (const group of candidates) {
      const merged = diagrams.merge(group.node, cofactor, impossible);
      if (merged === undefined) continue;
      group.node = merged;
      group.values.push(value);
      placed = true;
      break;
    }
    if (!placed) groups.push({ values: [...leading.splice(0), value], node: cofactor });
  }
  const [first] = groups;
  return groups.length === 1 && first ? [{ values: undefined, node: first.node }] : groups;
}
