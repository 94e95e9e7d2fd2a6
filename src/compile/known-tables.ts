/** State tables that were made before: groups, parts and pairs of fits often come to the same diagram. */
import { type Diagrams, type Node, type StateTable, stateTable } from '../logic/index.ts';
import { IMPOSSIBLE } from './outcomes.ts';

/** By the node and the level shown first. */
const KNOWN = new WeakMap<Diagrams, Map<string, StateTable>>();

/** The state table of `form`, with the variable at the level `own` first, if any. */
export function knownTable(diagrams: Diagrams, form: Node, own: number | undefined): StateTable {
  const known = KNOWN.get(diagrams) ?? new Map<string, StateTable>();
  KNOWN.set(diagrams, known);
  const key = `${form} ${own}`;
  const table =
    known.get(key) ?? stateTable(diagrams, form, { impossible: IMPOSSIBLE, ...(own === undefined ? {} : { own }) });
  known.set(key, table);
  return table;
}
