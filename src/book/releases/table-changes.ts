/** The marks of the state tables. */
import { CHANGES } from '../addresses.ts';
import type { TableChanges } from '../attributes.ts';
import { changedRows } from './changed-rows.ts';
import type { RevisionRecord } from './record.ts';

/** Undefined where there is no earlier revision. */
export function tableChanges({ releases: [last], compared }: RevisionRecord): TableChanges | undefined {
  if (!last) return undefined;
  return { rows: changedRows(compared(last)), told: { revision: last.revision, to: CHANGES } };
}
