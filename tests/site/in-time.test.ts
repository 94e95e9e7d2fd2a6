/** The built pages of supplies, sequences, timelines and sounds say every word of their data, in order. */
import { beforeAll, expect, inject, test } from 'vitest';
import { plain } from '../../src/book/index.ts';
import { inTimeBook } from '../book/in-time.ts';
import { builtPages } from '../helpers/book-pages.ts';

const { book } = inTimeBook();
let html: ReadonlyMap<string, string>;
beforeAll(() => {
  html = new Map(builtPages(inject('inTimeSite')).map((page) => [page.address, page.html]));
});

const ENTITIES: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};

function wordsIn(markup: string): string {
  return markup
    .replace(/<[^>]*>/g, '')
    .replace(/&[#\w]+;/g, (entity) => ENTITIES[entity] ?? entity)
    .replace(/\s+/g, ' ')
    .trim();
}

/** The words of each row of a table's body, cell by cell. */
function rowsOf(page: string, caption: string, from = 0): string[][] {
  const at = page.indexOf(`>${caption}</caption>`, from);
  if (at < 0) throw new Error(`no table is called ${caption}`);
  const body = page.slice(page.indexOf('<tbody', at), page.indexOf('</table>', at));
  return [...body.matchAll(/<tr[^>]*>(.*?)<\/tr>/gs)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map(([, cell = '']) => wordsIn(cell)),
  );
}

test('every transition stands in the table, and every step of every timeline', () => {
  let steps = 0;
  for (const page of book.pages) {
    if (page.kind !== 'sequence' && page.kind !== 'sequences') continue;
    const built = html.get(page.address) ?? '';
    if (page.kind === 'sequence') {
      const timed = page.transitions.some(({ delay }) => delay.length > 0);
      expect(rowsOf(built, 'What leads from one mode to another')).toEqual(
        page.transitions.map(({ number, from, to, waits, delay }) => [
          String(number),
          from.join(', '),
          to,
          plain(waits),
          ...(timed ? [plain(delay) || 'at once'] : []),
        ]),
      );
      expect(built).toContain('class="states-mode"');
      expect(built).toContain(page.diagram.mermaid.trim().split('\n').at(-1)?.trim().replace('>', '&gt;'));
    }
    for (const timeline of page.kind === 'sequence' ? page.timelines : page.own) {
      const rows = rowsOf(built, 'Step by step', built.indexOf(`id="${timeline.id}"`));
      expect(rows.map(([time, , ...states]) => [time, ...states])).toEqual(
        timeline.steps.map(({ time, states }) => [time, ...states.map(({ state }) => state.text)]),
      );
      timeline.steps.forEach(({ inputs, changes }, at) => {
        for (const words of [...inputs.map(plain), ...changes]) expect(rows[at]?.[1]).toContain(words);
      });
      steps += rows.length;
    }
  }
  expect(steps).toBeGreaterThan(10);
});

test('everything that differs when a supply is lost stands under it', () => {
  const page = book.pages.find((each) => each.kind === 'supplies');
  if (page?.kind !== 'supplies') throw new Error('there is no page of supplies');
  const built = html.get(page.address) ?? '';
  for (const loss of page.losses) {
    const start = built.indexOf(`id="${loss.id}"`);
    expect(start).toBeGreaterThan(0);
    if (loss.rows.length === 0) {
      expect(built.slice(start, built.indexOf('</section>', start))).toContain('Nothing that this book shows differs');
      continue;
    }
    const part = built.slice(start, built.indexOf('</section>', start));
    const sometimes = loss.rows.filter(({ when }) => when.length > 0);
    const somewhere = sometimes.some(({ effectivity }) => !effectivity.whole);
    const rows =
      sometimes.length > 0
        ? rowsOf(part, 'In some cases, all else as it normally is', 0).filter((cells) => cells.length > 1)
        : [];
    const itemsOf = ({ items }: (typeof loss.rows)[number]): string => items.map(({ title }) => title).join(', ');
    const states = ({ normally }: (typeof loss.rows)[number]): string => normally.map(({ text }) => text).join(' or ');
    expect(rows).toEqual(
      sometimes.map((row) => [
        itemsOf(row),
        states(row),
        row.then.text,
        plain(row.when),
        ...(somewhere ? [row.effectivity.text] : []),
      ]),
    );
    const lines = [...part.matchAll(/<dd[^>]*>([\s\S]*?)<\/dd>/g)].map(([, line = '']) => wordsIn(line));
    expect(lines).toEqual(
      loss.rows
        .filter(({ when }) => when.length === 0)
        .map((row) => {
          const on = row.effectivity.whole ? '' : ` On ${row.effectivity.text}`;
          return `${itemsOf(row)}: ${row.then.text}, normally ${states(row)}${on}`;
        }),
    );
  }
});

test('every movement that sets a sound off stands in its table', () => {
  let movements = 0;
  for (const page of book.pages) {
    if (page.kind !== 'sound') continue;
    const built = html.get(page.address) ?? '';
    for (const table of page.groups.flatMap(({ tables }) => tables)) {
      const rows = rowsOf(built, 'Movements', built.indexOf(`id="${table.id}"`));
      const withMore = table.rows.some(({ forced }) => forced.length > 0);
      expect(rows).toEqual(
        table.rows.map(({ moves, from, to, forced, cases, heard }) => [
          plain(moves),
          plain(from),
          plain(to),
          ...(withMore ? [plain(forced) || 'nothing'] : []),
          plain(cases),
          heard,
        ]),
      );
      movements += rows.length;
      expect(built).toContain(plain(table.sentence));
    }
  }
  expect(movements).toBeGreaterThan(5);
});
