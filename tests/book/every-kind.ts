/** The book of a content that has one of every kind of thing, and its pages as a reader sees them. */
import { join } from 'node:path';
import type { Book, Effectivity, Inline, Page, TableView } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';

function load(): Book {
  const { book } = loadBook(join(import.meta.dirname, 'every-kind'), 'every-kind');
  if (!book) throw new Error('the content is not sound');
  return book;
}

export const everyKind = load();

/** The page of a kind at an address. */
export function pageAt<K extends Page['kind']>(kind: K, address: string): Extract<Page, { kind: K }> {
  const page = everyKind.pages.find((each) => each.address === address);
  if (page?.kind !== kind) throw new Error(`there is no ${kind} at ${address}`);
  return page as Extract<Page, { kind: K }>;
}

/** Legends in square brackets, as a reader sees their frames, and links in angle brackets. */
export function seen(words: readonly Inline[]): string {
  return words
    .map(({ kind, text }) => (kind === 'legend' ? `[${text}]` : kind === 'link' ? `<${text}>` : text))
    .join('');
}

/** A table, a line a row: "[ON] | any => lit". */
export function lines(table: TableView | undefined): string[] {
  if (!table) return [];
  return [
    table.columns.map(({ title }) => seen(title)).join(' | '),
    ...table.rows.map(({ cells, result }) => `${cells.map(({ text }) => seen(text)).join(' | ')} => ${result.text}`),
  ];
}

/** The group of an attribute whose effectivity reads so. */
export function groupOn<G extends { readonly effectivity: Effectivity }>(groups: readonly G[], text: string): G {
  const group = groups.find(({ effectivity }) => effectivity.text === text);
  if (!group)
    throw new Error(`nothing holds for ${text}, but for ${groups.map((each) => each.effectivity.text).join(' / ')}`);
  return group;
}
