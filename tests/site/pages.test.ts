/** What every page of a book must have, on the sample book, a book with every kind of thing and the demo. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { attribute, type BuiltPage, builtPages, type Element } from '../helpers/book-pages.ts';
import { sampleBook } from './sample-book.ts';

const sample = inject('sampleSite');

const books: [string, () => string][] = [
  ['the sample book', () => sample],
  ['a book with every kind of thing', () => inject('everyKindSite')],
  ['a book with supplies, sequences and sounds', () => inject('inTimeSite')],
  ['the demo', () => inject('demoSite')],
];
const named = (page: BuiltPage, name: string) => page.elements.filter((element) => element.tagName === name);
const links = (page: BuiltPage): [Element, string][] =>
  page.elements.flatMap((element): [Element, string][] =>
    ['href', 'src', 'srcset', 'poster', 'action', 'data'].flatMap((name): [Element, string][] => {
      const value = attribute(element, name);
      return value === undefined ? [] : [[element, value]];
    }),
  );

describe.each(books)('%s', (_name, root) => {
  let pages: BuiltPage[];
  beforeAll(() => {
    pages = builtPages(root());
  });
  /** Runs a check on each page and names those that fail. */
  const everyPage = (check: (page: BuiltPage) => unknown) => {
    expect(pages.length).toBeGreaterThan(20);
    for (const page of pages) check(page);
  };

  it('is valid HTML', async () => {
    const validator = new HtmlValidate({
      extends: ['html-validate:recommended', 'html-validate:document'],
      rules: {
        // The elements are written by a program in one fixed style; what these rules hold is style, not validity.
        'doctype-style': 'off',
        'void-style': 'off',
        'long-title': 'off',
        'no-inline-style': 'error',
        // The theme script runs before the first paint and lies in the book itself.
        'require-sri': 'off',
        // A table that scrolls must be reachable by keyboard (axe: scrollable-region-focusable).
        'no-redundant-role': 'error',
        // The results of the search are a list beside its box, after the pattern "combobox" of ARIA; no select can do that.
        'prefer-native-element': ['error', { exclude: ['listbox'] }],
      },
    });
    const messages: string[] = [];
    for (const page of pages) {
      const report = await validator.validateString(page.html, page.address);
      for (const result of report.results)
        for (const one of result.messages) messages.push(`${page.address}:${one.column} ${one.ruleId}: ${one.message}`);
    }
    expect(messages).toEqual([]);
  });

  it('links only to what is there, page and anchor', () => {
    const anchors = new Map(
      pages.map((page) => [
        page.address,
        new Set(page.elements.map((element) => attribute(element, 'id')).filter((id) => id !== undefined)),
      ]),
    );
    const dead: string[] = [];
    let seen = 0;
    for (const page of pages) {
      for (const [element, link] of links(page)) {
        if (element.tagName === 'a' && /^(?:https?|mailto):/.test(link) && attribute(element, 'rel') === 'external')
          continue;
        const url = new URL(link, `https://book.invalid/${page.address}`);
        const path = decodeURIComponent(url.pathname).slice(1);
        const anchor = decodeURIComponent(url.hash.slice(1));
        seen += 1;
        if (!existsSync(join(root(), path))) dead.push(`${page.address}: ${link}`);
        else if (anchor !== '' && anchors.get(path)?.has(anchor) !== true) dead.push(`${page.address}: ${link}`);
      }
    }
    expect(dead).toEqual([]);
    expect(seen).toBeGreaterThan(pages.length * 10);
  });

  it('reaches every page from the home page', () => {
    const byAddress = new Map(pages.map((page) => [page.address, page]));
    const reached = new Set(['index.html']);
    for (const address of reached) {
      const page = byAddress.get(address);
      if (page === undefined) continue;
      for (const [, link] of links(page)) {
        const path = new URL(link, `https://book.invalid/${address}`).pathname.slice(1);
        if (byAddress.has(path)) reached.add(path);
      }
    }
    // Pages at former addresses are for old links alone.
    const isMoved = (page: BuiltPage) =>
      page.elements.some((element) => attribute(element, 'data-former') !== undefined);
    expect(pages.filter((page) => !reached.has(page.address) && !isMoved(page)).map((page) => page.address)).toEqual(
      [],
    );
    expect(pages.filter((page) => reached.has(page.address) && isMoved(page)).map((page) => page.address)).toEqual([]);
  });

  it('writes relative addresses only, in pages and in styles', () => {
    everyPage((page) => {
      for (const [element, link] of links(page)) {
        if (attribute(element, 'rel') === 'external') continue;
        expect(link, page.address).not.toMatch(/^(?:\/|[a-z][a-z0-9+.-]*:)/i);
      }
    });
    const sheets = readdirSync(root(), { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.css'));
    expect(sheets.length).toBeGreaterThanOrEqual(2);
    for (const sheet of sheets) {
      const css = readFileSync(join(root(), sheet), 'utf8');
      for (const [, address] of css.matchAll(/url\(["']?([^"')]*)/g)) {
        expect(address, sheet).not.toMatch(/^(?:\/|[a-z][a-z0-9+.-]*:)/i);
        expect(existsSync(join(root(), sheet, '..', address ?? '')), address).toBe(true);
      }
    }
  });

  it('has no inline script, style or event handler, in drawings as well', () => {
    everyPage((page) => {
      expect(named(page, 'style'), page.address).toEqual([]);
      for (const script of named(page, 'script')) {
        expect(attribute(script, 'src'), page.address).toMatch(/^(?:\.\.\/)*[a-z-]+\.js$/);
        expect(attribute(script, 'type'), page.address).toBeUndefined();
        expect(script.childNodes, page.address).toEqual([]);
      }
      for (const element of page.elements) {
        for (const { name } of element.attrs) expect(name, page.address).not.toMatch(/^(?:style$|on)/);
      }
    });
  });

  it('carries the strict policy before anything is loaded', () => {
    everyPage((page) => {
      const policy = page.elements.findIndex(
        (element) => attribute(element, 'http-equiv') === 'Content-Security-Policy',
      );
      const firstLoad = page.elements.findIndex((element) => ['script', 'link'].includes(element.tagName));
      expect(policy, page.address).toBeGreaterThan(-1);
      expect(policy, page.address).toBeLessThan(firstLoad);
      const content = attribute(page.elements[policy] as Element, 'content') ?? '';
      expect(content).toContain("default-src 'none'");
      expect(content).not.toMatch(/unsafe|\*|https?:|data:/);
    });
  });

  it('has a language, a title of its own, one main part, one first heading and named parts', () => {
    everyPage((page) => {
      expect(attribute(named(page, 'html')[0] as Element, 'lang'), page.address).toBe('en');
      expect(named(page, 'main'), page.address).toHaveLength(1);
      expect(named(page, 'h1'), page.address).toHaveLength(1);
      const names = named(page, 'nav').map((nav) => attribute(nav, 'aria-label'));
      expect(names.every((name) => name !== undefined) && new Set(names).size === names.length, page.address).toBe(
        true,
      );
    });
    const titles = pages.map((page) => /<title>([^<]*)</.exec(page.html)?.[1]);
    expect(new Set(titles.slice().sort()).size).toBeGreaterThan(pages.length * 0.8);
  });

  it('gives each table a caption and each head cell a scope', () => {
    let tables = 0;
    everyPage((page) => {
      tables += named(page, 'table').length;
      expect(named(page, 'caption'), page.address).toHaveLength(named(page, 'table').length);
      for (const head of named(page, 'th'))
        expect(['col', 'row', 'rowgroup'], page.address).toContain(attribute(head, 'scope'));
    });
    expect(tables).toBeGreaterThan(20);
  });

  it('gives every table and every row of it an address of its own', () => {
    let rows = 0;
    // Sheets are paper: what stands on them is addressed on the pages.
    const isSheet = (page: BuiltPage) =>
      named(page, 'main').some((main) => /^page-(?:own-)?sheet$/.test(attribute(main, 'class') ?? ''));
    everyPage((page) => {
      if (isSheet(page)) return;
      const ids = page.elements.flatMap((element) => attribute(element, 'id') ?? []);
      expect(new Set(ids).size, page.address).toBe(ids.length);
      for (const table of named(page, 'table')) expect(attribute(table, 'id'), page.address).toBeDefined();
      for (const row of named(page, 'tr')) {
        if (row.parentNode && 'tagName' in row.parentNode && row.parentNode.tagName === 'thead') continue;
        rows += 1;
        expect(attribute(row, 'id'), page.address).toBeDefined();
      }
    });
    expect(rows).toBeGreaterThan(100);
  });

  it('prints the caution on each page and in the margin of each sheet', () => {
    const caution = 'For training and reference; not approved data.';
    everyPage((page) => expect(page.html.slice(page.html.lastIndexOf('<footer')), page.address).toContain(caution));
    expect(readFileSync(join(root(), 'sheet.css'), 'utf8')).toContain(caution);
  });
});

describe('the sample book', () => {
  it('says every word of every table and sentence of its data on the page', () => {
    const pages = new Map(builtPages(sample).map((page) => [page.address, page]));
    let cells = 0;
    for (const page of sampleBook.pages) {
      const html = pages.get(page.address)?.html ?? '';
      if (page.kind !== 'control' && page.kind !== 'item') continue;
      for (const group of page.attributes.flatMap((attribute) => attribute.groups)) {
        expect(html).toContain(group.effectivity.text);
        if (group.constant) expect(html).toContain(group.constant.text);
        for (const table of [group.normal, group.abnormal].filter((one) => one !== undefined)) {
          const from = html.indexOf(`id="${table.id}"`);
          const drawn = html.slice(from, html.indexOf('</table>', from));
          const words = drawn.match(/<td[^>]*>.*?<\/td>/g)?.map((cell) => cell.replace(/<[^>]*>/g, '').trim());
          const expected = table.rows.flatMap((row) => [
            ...row.cells.map((cell) => cell.text.map((part) => part.text).join('')),
            row.result.text,
          ]);
          expect(words, table.id).toEqual(expected);
          cells += expected.length;
        }
      }
    }
    expect(cells).toBeGreaterThan(300);
  });
});
