/** The command `print`: PDFs read back with another library, held to the pages that they were made of. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Book, plain } from '../../src/book/index.ts';
import { loadBook } from '../../src/cli/load-book.ts';
import { chaptersFor, chaptersOf } from '../../src/cli/print/chapters.ts';
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
`;

let book: Book;
let ran: Ran;
let again: Ran;
beforeAll(async () => {
  cpSync(inTimeFolder, content, { recursive: true });
  const panel = loadBook(content).book?.pages.find(({ kind }) => kind === 'panel')?.address ?? '';
  writeFileSync(join(content, 'sheets.yaml'), SHEETS.replaceAll('PANEL', panel.replace(/^panels\/|\.html$/g, '')));
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
const squeezed = (words: string): string => words.replace(/[\s‐-]+/g, '');

describe('what is asked for is printed', () => {
  it('names the files, and tells on the way what it does', () => {
    expect([ran.status, again.status, ran.stdout.trim().split('\n').at(-1)]).toEqual([
      0,
      0,
      expect.stringMatching(/^Printed 3 files into one in /),
    ]);
    expect(ran.stderr).toContain('[1/3] book: printing');
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
          const [page] = (one?.dest ?? []) as unknown as [Parameters<typeof pdf.getPageIndex>[0]];
          expect(await pdf.getPageIndex(page)).toBeGreaterThan(0);
        }
      }
    });
  });

  it('says in the contents on which page each begins', async () => {
    await read('one/book.pdf', async (pdf) => {
      const texts = await textsOf(pdf);
      const outline = await pdf.getOutline();
      const contents = texts.filter(({ page }) => page === 2 || page === 3);
      for (const { title, dest } of outline) {
        const [page] = dest as [Parameters<typeof pdf.getPageIndex>[0]];
        const index = (await pdf.getPageIndex(page)) + 1;
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
    const text = squeezed(
      await read('one/book.pdf', async (pdf) => (await textsOf(pdf)).map((one) => one.text).join('')),
    );
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

describe('the reference of one aircraft', () => {
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
  it('fills pages of its size, with nothing beyond what printers reach, and every row', async () => {
    const page = book.pages.find((each) => each.kind === 'sheet');
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
