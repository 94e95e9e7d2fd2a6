/** The marks of the state tables. */
import type { Compiled } from '../../compile/index.ts';
import { CHANGES } from '../addresses.ts';
import type { TableChanges } from '../attributes.ts';
import { changedRows } from './changed-rows.ts';
import type { RevisionRecord } from './record.ts';
import { keptOrders } from './table-orders.ts';

/** Undefined where there is no earlier revision. */
export function tableChanges(
  compiled: Compiled,
  { releases: [last], compared }: RevisionRecord,
): TableChanges | undefined {
  if (!last) return undefined;
  return {
    order: keptOrders(compiled, last.orders ?? {}),
    rows: changedRows(compared(last)),
    told: { revision: last.revision, to: CHANGES },
  };
}
