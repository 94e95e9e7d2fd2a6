/** The command `print`: PDFs read back with another library, held to the pages that they were made of. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, PDFRawStream } from '@cantoo/pdf-lib';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Book, plain } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';
import { chaptersFor, chaptersOf } from '../../src/cli/print/chapters.ts';
import { partsOf, stretchesOf } from '../../src/cli/print/document.ts';
import { inTimeFolder } from '../book/in-time.ts';
import { type Ran, runCommand } from '../helpers/run-command.ts';

const work = mkdtempSync(join(tmpdir(), 'switchleaf-print-test-'));
const content = join(work, 'content');
const SHEETS = `
card:
  title: Everything on a card
  size: A5
  sheets: { from: 1, to: 4 }
  type: { from: 6, to: 9 }
  topics:
    - panel: PANEL
    - panel: PANEL
      show: positions
changes:
  title: What differs from the first
  size: A5
  sheets: { from: 1, to: 4 }
  type: { from: 6, to: 9 }
  topics:
    - differences: "FIRST"
`;

let book: Book;
let ran: Ran;
let again: Ran;
beforeAll(async () => {
  cpSync(inTimeFolder, content, { recursive: true });
  const panel = loadBook(content).book?.pages.find(({ kind }) => kind === 'panel')?.address ?? '';
  const first = loadBook(content).book?.frame.fleet[0]?.serial ?? '';
  const sheets = SHEETS.replaceAll('PANEL', panel.replace(/^panels\/|\.html$/g, '')).replace('FIRST', first);
  writeFileSync(join(content, 'sheets.yaml'), sheets);
  book = loadBook(content).book as Book;
  const serial = book.frame.fleet[0]?.serial ?? '';
  ran = await runCommand(['print', 'book', 'sheets', serial, '--out', 'one'], work);
  again = await runCommand(['print', 'sheets/card', serial, '--out', 'two'], work);
});
afterAll(() => rmSync(work, { recursive: true, force: true }));

const bytes = (path: string): Uint8Array => new Uint8Array(readFileSync(join(work, path)));
const serial = (): string => book.frame.fleet[0]?.serial ?? '';

async function read<T>(path: string, look: (pdf: PDFDocumentProxy) => Promise<T>): Promise<T> {
  const task = getDocument({ data: bytes(path), verbosity: 0 });
  try {
    return await look(await task.promise);
  } finally {
    await task.destroy();
  }
}

interface PlacedText {
  readonly text: string;
  readonly page: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** Read once for all tests. */
let ofBook: Promise<PlacedText[]> | undefined;
function textsOfBook(): Promise<PlacedText[]> {
  ofBook ??= read('one/book.pdf', textsOf);
  return ofBook;
}

async function textsOf(pdf: PDFDocumentProxy): Promise<PlacedText[]> {
  const texts: PlacedText[] = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const { items } = await (await pdf.getPage(number)).getTextContent();
    for (const item of items) {
      if ('str' in item && item.str.trim() !== '') {
        const [, , , , x = 0, y = 0] = item.transform as number[];
        texts.push({ text: item.str, page: number, x, y, width: item.width });
      }
    }
  }
  return texts;
}
/** The number of the page that a bookmark leads to. */
async function pageOf(pdf: PDFDocumentProxy, dest: unknown): Promise<number> {
  const [page] = (dest ?? []) as [Parameters<typeof pdf.getPageIndex>[0]];
  return (await pdf.getPageIndex(page)) + 1;
}
const squeezed = (words: string): string => words.replace(/[\s‐-]+/g, '');

describe('what is asked for is printed', () => {
  it('names the files, and tells on the way what it does', () => {
    expect([ran.status, again.status, ran.stdout.trim().split('\n').at(-1)]).toEqual([
      0,
      0,
      expect.stringMatching(/^Printed 4 files into one in /),
    ]);
    expect(ran.stderr).toContain('[1/4] book: printing');
  });

  it('gives the same bytes each time', () => {
    for (const file of ['sheets/card.pdf', `aircraft/${serial()}.pdf`])
      expect(Buffer.compare(bytes(`one/${file}`), bytes(`two/${file}`)), file).toBe(0);
  });
});

describe('the whole book', () => {
  it('has a bookmark for each chapter and each page of it, all of which lead somewhere', async () => {
    await read('one/book.pdf', async (pdf) => {
      const outline = await pdf.getOutline();
      expect(outline.map(({ title }) => title)).toEqual(chaptersOf(book).map(({ title }) => title));
      for (const [at, { title, pages }] of chaptersOf(book).entries()) {
        const below = outline[at]?.items ?? [];
        expect(below.map((one) => one.title)).toEqual(pages.map((page) => page.title).filter((each) => each !== title));
        for (const one of [outline[at], ...below]) {
          expect(await pageOf(pdf, one?.dest)).toBeGreaterThan(1);
        }
      }
    });
  });

  it('says in the contents on which page each begins', async () => {
    await read('one/book.pdf', async (pdf) => {
      const texts = await textsOfBook();
      const outline = await pdf.getOutline();
      const contents = texts.filter(({ page }) => page === 2 || page === 3);
      for (const { title, dest } of outline) {
        const index = await pageOf(pdf, dest);
        const line = contents.find(({ text }) => text === title);
        const beside = contents.filter(
          (one) =>
            line && one.page === line.page && Math.abs(one.y - line.y) < 2 && one.x > line.x && one.x < line.x + 300,
        );
        expect(
          beside.map(({ text }) => text),
          title,
        ).toContain(String(index));
      }
    });
  });

  it('has every word of every state table of a page', async () => {
    const text = squeezed((await textsOfBook()).map((one) => one.text).join(''));
    let cells = 0;
    for (const page of book.pages) {
      if (page.kind !== 'item') continue;
      for (const { groups } of page.attributes)
        for (const { normal, abnormal } of groups)
          for (const { cells: inRow, result } of [...(normal?.rows ?? []), ...(abnormal?.rows ?? [])]) {
            expect(text).toContain(squeezed(result.text));
            for (const cell of inRow) for (const part of cell.text) expect(text).toContain(squeezed(part.text));
            cells += inRow.length;
          }
    }
    expect(cells).toBeGreaterThan(50);
  });

  it('keeps links between its pages inside of it, and all of them alive', async () => {
    await read('one/book.pdf', async (pdf) => {
      let inside = 0;
      for (let number = 1; number <= pdf.numPages; number += 1) {
        for (const link of await (await pdf.getPage(number)).getAnnotations()) {
          expect(link.url ?? 'https:').toMatch(/^https?:/);
          if (link.dest === undefined || link.dest === null) continue;
          inside += 1;
          const target = typeof link.dest === 'string' ? await pdf.getDestination(link.dest) : link.dest;
          expect(target, `a link on page ${number}`).not.toBeNull();
        }
      }
      expect(inside).toBeGreaterThan(book.pages.length);
    });
  });

  it('takes fewer sheets than the book has pages, none of them nearly empty but the last of a chapter', async () => {
    await read('one/book.pdf', async (pdf) => {
      expect(pdf.numPages).toBeLessThan(chaptersOf(book).flatMap(({ pages }) => pages).length);
      const begins = await Promise.all((await pdf.getOutline()).map(({ dest }) => pageOf(pdf, dest)));
      const texts = await textsOfBook();
      let full = 0;
      for (let number = begins[0] ?? 0; number < pdf.numPages; number += 1) {
        if (begins.includes(number + 1)) continue;
        // Of A4 in points: the last line of what stands above the caution.
        const lowest = Math.min(...texts.filter(({ page, y }) => page === number && y > 52).map(({ y }) => y));
        expect(lowest, `page ${number}`).toBeLessThan(842 / 2);
        full += 1;
      }
      expect(full).toBeGreaterThan(3);
    });
  });

  it('has the caution on every sheet, and the number of the page', async () => {
    await read('one/book.pdf', async (pdf) => {
      const texts = await textsOfBook();
      const caution = squeezed(book.frame.cautions[0] ?? '');
      for (let number = 1; number <= pdf.numPages; number += 1) {
        const own = texts.filter(({ page }) => page === number).map(({ text }) => text);
        expect(squeezed(own.join('')), `page ${number}`).toContain(caution);
        if (number > 1) expect(own.join(''), `page ${number}`).toMatch(new RegExp(`page ${number}$|page ${number}\\D`));
      }
    });
  });

  it('says in the index on which page each thing is', async () => {
    await read('one/book.pdf', async (pdf) => {
      const texts = await textsOfBook();
      const first = await pageOf(pdf, (await pdf.getOutline()).find(({ title }) => title === 'Index')?.dest);
      const lines = texts.filter(({ page }) => page >= first).map(({ text }) => text);
      const item = book.pages.find(({ kind }) => kind === 'item');
      const numbers = lines.flatMap((line, each) => (line === item?.title ? Number(lines[each + 1]) : []));
      expect(numbers.length).toBeGreaterThan(0);
      for (const number of numbers)
        expect(texts.filter(({ page }) => page === number).map(({ text }) => text)).toContain(item?.title);
    });
  });

  it('has tags on each of its sheets, and table cells that name heads of their own table alone', async () => {
    await read('one/book.pdf', async (pdf) => {
      for (let number = 1; number <= pdf.numPages; number += 1)
        expect(JSON.stringify(await (await pdf.getPage(number)).getStructTree()), `page ${number}`).toContain('"id"');
    });
    // Outside of its streams the file is plain text.
    const text = Buffer.from(bytes('one/book.pdf')).toString('latin1');
    const ids = [...text.matchAll(/\/ID \((\d+-\d+)\)/g)].map(([, id]) => id);
    const named = [...text.matchAll(/\/Headers \[([^\]]*)\]/g)].flatMap(([, list]) => list?.match(/\d+-\d+/g) ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    expect(named.filter((id) => !ids.includes(id))).toEqual([]);
    expect(named.length).toBeGreaterThan(50);
  });

  it('has each drawn letter and picture once, however many of its parts show it', async () => {
    const pdf = await PDFDocument.load(bytes('one/book.pdf'));
    const streams = pdf.context
      .enumerateIndirectObjects()
      .flatMap(([, object]) =>
        object instanceof PDFRawStream ? [Buffer.from(object.contents).toString('base64')] : [],
      );
    expect(streams.length).toBeGreaterThan(50);
    expect(new Set(streams).size).toBe(streams.length);
  });

  it('is tagged, says what it is, and is dated as the book is', async () => {
    await read('one/book.pdf', async (pdf) => {
      const { info } = (await pdf.getMetadata()) as unknown as { info: Record<string, unknown> };
      expect(info).toMatchObject({
        Title: book.frame.title,
        Author: book.frame.operator,
        Language: book.frame.language,
      });
      expect(String(info['CreationDate'])).toContain(book.frame.date.replaceAll('-', ''));
      const marked = (await pdf.getMarkInfo()) as unknown as ReadonlyMap<string, boolean>;
      expect(marked.get('Marked')).toBe(true);
      const tree = await (await pdf.getPage(4)).getStructTree();
      expect(JSON.stringify(tree)).toMatch(/"H[1-6]"/);
    });
  });
});

describe('a chapter', () => {
  it('is printed at once up to a size, and in stretches beyond, each page once and in order', () => {
    const plan = { title: '', subtitle: '', frame: book.frame, chapters: chaptersOf(book) };
    const parts = partsOf(plan);
    for (const most of [1, 2.5, 1000]) {
      const stretches = stretchesOf(plan, () => 1, most);
      expect(stretches.flatMap((stretch) => stretch.parts)).toEqual(parts);
      for (const { parts: own, chapter } of stretches) {
        expect(own.length).toBeLessThanOrEqual(most);
        expect(own.every((part) => part.chapter === chapter)).toBe(true);
      }
      expect(stretches.filter(({ begins }) => begins).map(({ chapter }) => chapter)).toEqual([...plan.chapters.keys()]);
    }
    expect(stretchesOf(plan, () => 1, 1000)).toHaveLength(plan.chapters.length);
  });
});

describe('the reference of one aircraft', () => {
  it('says nothing of what holds for others', async () => {
    await read(`one/aircraft/${serial()}.pdf`, async (pdf) => {
      const texts = (await textsOf(pdf)).map(({ text }) => text);
      expect(texts.filter((text) => /^(Holds for|Otherwise on|So fitted)/.test(text))).toEqual([]);
    });
    expect(await read('one/book.pdf', textsOf).then((all) => all.some(({ text }) => /^Holds for/.test(text)))).toBe(
      true,
    );
  });

  it('has its own page first, and none of another', async () => {
    const pages = chaptersFor(book, serial()).flatMap((chapter) => chapter.pages);
    expect(pages[0]).toMatchObject({ kind: 'aircraft', serial: serial() });
    expect(pages.filter(({ kind }) => kind === 'aircraft')).toHaveLength(1);
    await read(`one/aircraft/${serial()}.pdf`, async (pdf) => {
      const outline = await pdf.getOutline();
      expect(outline[0]?.title).toBe(pages[0]?.title);
    });
  });
});

describe('a sheet', () => {
  it('that tells what differs from an aircraft shows one that differs, until a reader chooses', () => {
    const page = book.pages.find((each) => each.kind === 'sheet' && each.title === 'What differs from the first');
    if (page?.kind !== 'sheet') throw new Error('no sheet');
    expect(book.frame.fleet.map((one) => one.serial)).toContain(page.shown);
    const of = (on: string) =>
      page.topics[0]?.blocks.filter(({ effectivity }) =>
        effectivity?.aircraft.some(({ to }) => to === `aircraft/${on}.html`),
      );
    expect(of(page.shown)).not.toEqual(of(serial()));
  });

  it('fills pages of its size, with nothing beyond what printers reach, and every row', async () => {
    const page = book.pages.find((each) => each.kind === 'sheet' && each.title === 'Everything on a card');
    if (page?.kind !== 'sheet') throw new Error('no sheet');
    await read('one/sheets/card.pdf', async (pdf) => {
      expect(pdf.numPages).toBeGreaterThanOrEqual(1);
      for (let number = 1; number <= pdf.numPages; number += 1) {
        const [, , width = 0, height = 0] = (await pdf.getPage(number)).view;
        // 148 by 210 mm in points.
        expect(Math.abs(width - 419.5)).toBeLessThan(1);
        expect(Math.abs(height - 595.3)).toBeLessThan(1);
      }
      // Nothing of the folder that it was built in.
      expect(Buffer.from(bytes('one/sheets/card.pdf')).includes('file:')).toBe(false);
      const texts = await textsOf(pdf);
      // Five millimetres: common practice, no source.
      const edge = (5 / 25.4) * 72;
      for (const { text, x, y, width } of texts) {
        expect([x > edge, x + width < 419.5 - edge, y > edge, y < 595.3 - edge], text).toEqual([
          true,
          true,
          true,
          true,
        ]);
      }
      const text = squeezed(texts.map((one) => one.text).join(''));
      const shown = (on: { readonly aircraft: readonly { readonly to: string }[] } | undefined): boolean =>
        !on || on.aircraft.some(({ to }) => to === `aircraft/${page.shown}.html`);
      for (const block of page.topics.flatMap(({ blocks }) => blocks).filter((each) => shown(each.effectivity)))
        for (const row of block.rows.filter((each) => shown(each.effectivity)))
          for (const { lines } of row.cells)
            for (const { words } of lines) expect(text).toContain(squeezed(plain(words)));
    });
  });
});
