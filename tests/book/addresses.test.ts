/** Addresses of rows, positions and renamed things: permanent, and made of ids. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book, Page } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';
import { edit, smallProject } from '../helpers/content.ts';
import { everyKind } from './every-kind.ts';

function load(project: string): Book {
  const { book, diagnostics } = loadBook(join(project, 'content'), 'content');
  if (!book) throw new Error(diagnostics.map(({ code }) => code).join());
  return book;
}

/** The rows of all tables of states and differences of a page, as their anchors name them. */
function rowsOf(page: Page): string[] {
  if (page.kind !== 'control' && page.kind !== 'item') return [];
  return page.attributes.flatMap(({ groups }) =>
    groups.flatMap(({ normal, abnormal }) =>
      [normal, abnormal].flatMap((table) => (table ? table.rows.map(({ key }) => `${table.id}_${key}`) : [])),
    ),
  );
}
const allRows = ({ pages }: Book): string[] =>
  pages.flatMap((page) => rowsOf(page).map((row) => `${page.address}#${row}`));

describe('the address of a row', () => {
  it('is its own', () => {
    const rows = allRows(everyKind);
    expect(rows.length).toBeGreaterThan(50);
    expect(new Set(rows).size).toBe(rows.length);
    for (const row of rows) expect(row).toMatch(/^[a-z/.-]+#[A-Za-z0-9_-]+$/);
  });

  it('stays when titles change, and when the rules of something else do', () => {
    const project = smallProject();
    const before = allRows(load(project));
    const panel = join(project, 'content', 'panels', 'strip.yaml');
    edit(panel, 'title: Logo switch', 'title: Fin switch');
    edit(panel, 'title: Logo lights\n', 'title: Fin lights\n');
    const renamed = load(project);
    expect(renamed.pages.some(({ title }) => title === 'Fin switch')).toBe(true);
    expect(allRows(renamed)).toEqual(before);
    expect(before).toContain('lights/logo-lights.html#logo-lights-lamp-101-normal_ON');
    edit(panel, 'logo-lights is lit and fast', 'logo-lights is lit and not fast');
    const lights = (rows: readonly string[]) => rows.filter((row) => row.startsWith('lights/'));
    const after = allRows(load(project));
    expect(after).not.toEqual(before);
    expect(lights(after)).toEqual(lights(before));
  });
});

describe('a renamed id', () => {
  it('has a page at its former address, which nothing lists', () => {
    const project = smallProject();
    const panel = join(project, 'content', 'panels', 'strip.yaml');
    edit(panel, '  logo-lights:\n', '  logo-lights:\n    formerly: [fin-lights]\n');
    edit(panel, '  logo:\n', '  logo:\n    formerly: [fin]\n');
    const sheets = 'card: { title: Card, formerly: [old-card], topics: [{ fleet: options }] }\n';
    writeFileSync(join(project, 'content', 'sheets.yaml'), sheets);
    const book = load(project);
    const moved = book.pages.filter((page) => page.kind === 'moved');
    expect(moved.map(({ address, to }) => [address, to.to])).toEqual([
      ['controls/fin.html', 'controls/logo.html'],
      ['lights/fin-lights.html', 'lights/logo-lights.html'],
      ['sheets/old-card.html', 'sheets/card.html'],
    ]);
    const listed = [
      ...book.search.map(({ to }) => to),
      ...book.frame.contents.flatMap(({ to, entries }) => [to, ...entries.map((entry) => entry.to)]),
    ];
    for (const { address } of moved) expect(listed).not.toContain(address);
    expect(book.formerAnchors.get('lights/logo-lights.html#logo-lights-lamp')).toEqual(['fin-lights-lamp']);
  });
});
