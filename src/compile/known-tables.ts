/** State tables that were made before: groups, parts and pairs of fits often come to the same diagram. */
import { type Diagrams, type Node, type StateTable, stateTable } from '../logic/index.ts';
import { IMPOSSIBLE } from './outcomes.ts';

/** By the node and the level shown first. */
const KNOWN = new WeakMap<Diagrams, Map<string, StateTable>>();

/**
 * The state table of `form`, with the variable at the level `own` first, if any. `previous` is the order of columns that an
 * earlier table of it was split in.
 */
export function knownTable(
  diagrams: Diagrams,
  form: Node,
  own: number | undefined,
  previous?: readonly number[],
): StateTable {
  const known = KNOWN.get(diagrams) ?? new Map<string, StateTable>();
  KNOWN.set(diagrams, known);
  const key = `${form} ${own} ${previous?.join(' ') ?? ''}`;
  const table =
    known.get(key) ??
    stateTable(diagrams, form, {
      impossible: IMPOSSIBLE,
      ...(own === undefined ? {} : { own }),
      ...(previous === undefined ? {} : { previous }),
    });
  known.set(key, table);
  return table;
}
