/** Addresses inside the book, as a page writes them: always relative, so that the book works wherever it lies. */
import type { Address } from '../book/index.ts';

/**
 * The link from the page at `from` to the page (or file) at `to`, both relative to the book's root, with an anchor where
 * given: `relative('controls/logo.html', 'index.html')` is `../index.html`.
 */
export function relative(from: Address, to: Address, anchor?: string): string {
  const here = from.split('/').slice(0, -1);
  const there = to.split('/');
  let common = 0;
  while (common < here.length && common < there.length - 1 && here[common] === there[common]) common += 1;
  const path = [...here.slice(common).map(() => '..'), ...there.slice(common)].join('/');
  return anchor === undefined ? path : `${from === to ? '' : path}#${anchor}`;
}

/** The permanent id that an address is made of: "logo" of `controls/logo.html`. */
export function nameIn(address: Address): string {
  return address.replace(/^.*\/|\.html$/g, '');
}
