/** On which pages something has changed since the last revision, and where the page of changes tells of it. */
import type { Address } from '../book.ts';
import type { ChangesPage, ToldChanges } from '../book-changes.ts';

/** By address. What behaves or looks otherwise is told first, before what is new or said otherwise. */
export function changedPages({
  address: to,
  since: { revision },
  panels,
  lists,
}: ChangesPage): ReadonlyMap<Address, ToldChanges> {
  const found = new Map<Address, ToldChanges>();
  const add = (address: Address, anchor: string): void => {
    if (!found.has(address)) found.set(address, { revision, to, anchor });
  };
  for (const panel of panels) {
    for (const { what } of panel.differences) add(what.item.to, what.id);
    for (const { what } of panel.looks) add(what.control.to, panel.id);
  }
  for (const { id, kinds } of lists) {
    for (const { entries } of kinds) {
      for (const {
        words: [first],
      } of entries)
        if (first?.kind === 'link' && first.anchor === undefined) add(first.to, id);
    }
  }
  return found;
}
