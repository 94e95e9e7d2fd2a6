/** The book of the demo as data: addresses, and where its links lead. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book, Page } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';
import { projectFolder } from '../helpers/content.ts';
import { everyKind } from './every-kind.ts';
import { lamp, smallBook } from './small-book.ts';

interface Target {
  readonly to: string;
  readonly anchor?: string;
}

/** Everything within a value that leads somewhere: links in text, entries of lists, aircraft. */
function targetsIn(value: unknown): Target[] {
  if (Array.isArray(value)) return value.flatMap(targetsIn);
  if (value instanceof Map) return [...value.values()].flatMap(targetsIn);
  if (typeof value !== 'object' || value === null) return [];
  // Notes are Markdown trees; flows lead from vertex to vertex, transitions from mode to mode, ranges from number to number.
  const inner = Object.entries(value).flatMap(([key, each]) =>
    ['notes', 'edges', 'transitions', 'range'].includes(key) ? [] : targetsIn(each),
  );
  return 'to' in value && typeof value.to === 'string' ? [value as Target, ...inner] : inner;
}

/** The ids that the parts of a page have. */
function anchorsOn(page: Page): Set<string> {
  const ids = (value: unknown): string[] => {
    if (Array.isArray(value)) return value.flatMap(ids);
    if (typeof value !== 'object' || value === null) return [];
    const inner = Object.entries(value).flatMap(([key, each]) => (key === 'notes' ? [] : ids(each)));
    return 'id' in value && typeof value.id === 'string' ? [value.id, ...inner] : inner;
  };
  return new Set(ids(page));
}

/** Limits at about twice what it takes: what small contents do not show is how the work grows. */
const limits = { nodeLimit: 600_000, stepLimit: 10_000_000 };
const { book: demo, diagnostics } = loadBook(join(projectFolder, 'content'), 'content', limits);
const books: [string, Book | undefined][] = [
  ['the demo', demo],
  ['a book with every kind of thing', everyKind],
  ['a small book', smallBook({ items: lamp(['when: sw is ON and knob is with, then: lit', 'otherwise: dark']) }).book],
];

it('the demo gives nothing to report', () => {
  expect(diagnostics).toEqual([]);
});

describe.each(books)('%s', (_, made) => {
  const book = made as Book;
  const addresses = book.pages.map(({ address }) => address);
  /** Where an aircraft is chosen on the page that compares two. */
  const chosen = book.frame.fleet.map(({ serial }) => `with-${serial}`);

  it('has each page at an address of its own, whatever the case of its letters', () => {
    expect(new Set(addresses.map((address) => address.toLowerCase())).size).toBe(addresses.length);
    for (const address of addresses) expect(address).toMatch(/^([a-z]+\/)?[A-Za-z0-9][A-Za-z0-9.-]*\.html$/);
  });

  it('leads with every link to a page of the book, and to an anchor there', () => {
    const targets = targetsIn([book.pages, book.frame, book.index, book.tables]);
    expect(targets.length).toBeGreaterThan(50);
    for (const { to, anchor } of targets) {
      const page = book.pages.find(({ address }) => address === to);
      expect(page, to).toBeDefined();
      if (!page || anchor === undefined) continue;
      if (page.kind === 'compare') expect(chosen, to).toContain(anchor);
      else if (page.kind === 'explorer') expect([...chosen, ...anchorsOn(page)], to).toContain(anchor);
      else expect(anchorsOn(page), `${to}#${anchor}`).toContain(anchor);
    }
  });

  it('is reached in two taps from the home page or the contents in full', () => {
    const byAddress = new Map(book.pages.map((page) => [page.address, page]));
    const linked = (parts: readonly unknown[]) => new Set(targetsIn(parts).map(({ to }) => to));
    const first = linked([byAddress.get('index.html'), book.frame]);
    const second = linked([...first].map((to) => byAddress.get(to)));
    // Pages at former addresses are for old links alone.
    const sought = addresses.filter((address) => byAddress.get(address)?.kind !== 'moved');
    expect(sought.filter((address) => address !== 'index.html' && !first.has(address) && !second.has(address))).toEqual(
      [],
    );
  });

  it('gives each part of a page an anchor of its own', () => {
    for (const page of book.pages) {
      if (page.kind !== 'item' && page.kind !== 'control') continue;
      const ids = page.attributes.flatMap(({ id, groups }) => [id, ...groups.map((group) => group.id)]);
      expect(new Set(ids).size, page.address).toBe(ids.length);
    }
  });
});
