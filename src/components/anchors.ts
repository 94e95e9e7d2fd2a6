/** Addresses within a page: of the rows of its tables, and of what each position does. */
import type { Address, Effectivity } from '../book/index.ts';
import { nameIn } from './address.ts';

/** "Below 240 kt" as "below-240-kt"; of an address the name of its file, which is made of the permanent id. */
function slug(name: string): string {
  return (name.endsWith('.html') ? nameIn(name) : name)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}

/** The anchor of each row of a table, made of what names the row: its address, a date, or its words. */
export function rowAnchors(table: string, names: readonly (Address | string)[]): string[] {
  const taken = new Map<string, number>();
  return names.map((name) => {
    const anchor = `${table}_${slug(name)}`;
    const before = taken.get(anchor) ?? 0;
    taken.set(anchor, before + 1);
    return before === 0 ? anchor : `${anchor}_${before + 1}`;
  });
}

/**
 * The name of a group of aircraft in anchors: the serial of its first aircraft, which stays when the group gains others; with the
 * date where all of them come later, since each gives its serial to the group that it is in today.
 */
export function groupName({ aircraft }: Effectivity): string {
  const today = aircraft.find(({ from }) => from === undefined);
  const first = today ?? aircraft[0];
  return first === undefined ? 'none' : [slug(first.to), ...(today ? [] : [first.from ?? ''])].join('-');
}
