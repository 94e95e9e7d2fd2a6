/** All that a revision changed, as data. */
import type { Compiled } from '../../compile/index.ts';
import type { Address } from '../book.ts';
import type { ChangesPage } from '../book-changes.ts';
import type { Names } from '../names.ts';
import { aircraftChanges } from './aircraft-changes.ts';
import { changedFits } from './changed-fits.ts';
import type { ComparedReleases } from './compared-releases.ts';
import { listedChanges } from './listed-changes.ts';

export type Changes = Pick<ChangesPage, 'aircraft' | 'groups' | 'panels' | 'lists'>;

/** `names` are the two revisions, the earlier one first; `address` is the page that all this stands on. */
export function changesSince(compiled: Compiled, compared: ComparedReleases, names: Names, address: Address): Changes {
  return {
    aircraft: aircraftChanges(compiled, compared),
    ...changedFits(compiled, compared, names, address),
    lists: listedChanges(compiled, compared.release),
  };
}
