/** Where the judges take pages from: the built book, or the built book with one page changed. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Element, parsePage } from '../../helpers/dom.ts';

export interface Pages {
  html(address: string): string;
  page(address: string): Element;
}

export function pagesIn(folder: string): Pages {
  const html = (address: string): string => readFileSync(join(folder, address), 'utf8');
  const parsed = new Map<string, Element>();
  const page = (address: string): Element => {
    const known = parsed.get(address) ?? parsePage(html(address));
    parsed.set(address, known);
    return known;
  };
  return { html, page };
}

/** The same pages, one of them changed. Throws if the change changes nothing, so that no mutation is idle. */
export function changed(pages: Pages, address: string, change: (html: string) => string): Pages {
  const before = pages.html(address);
  const after = change(before);
  if (after === before) throw new Error(`nothing was changed in ${address}`);
  return {
    html: (asked) => (asked === address ? after : pages.html(asked)),
    page: (asked) => (asked === address ? parsePage(after) : pages.page(asked)),
  };
}
