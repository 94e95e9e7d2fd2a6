/** The browser as a printer: pages of a built book in a folder, out as PDF. */
import { existsSync, statSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import type { About, Bookmark } from './about.ts';
import { leadOut, mend, putIn, widen } from './assemble.ts';
import { chapterId, front, type Part, type PrintDocument, partsOf, skeleton, stretchesOf } from './document.ts';
import { countPages, ELSEWHERE, JoinedPdf } from './joined-pdf.ts';
import { startChromium } from './start-chromium.ts';

/** A page could not be composed; `message` is what it tells the reader. */
export class NotComposed extends Error {}

/** A stretch takes a few seconds; whatever takes this long will never end. */
const PATIENCE = 15 * 60 * 1000;

/** How many bytes of built pages are printed together. */
const MOST_TOGETHER = 1_200_000;

/** What is too wide for a column is found in this width, that of A4 between its margins; the height says nothing. */
const VIEW = { width: 688, height: 1000 };

export interface PageRequest {
  readonly composed: boolean;
  /** Where other pages can be read; may be empty. */
  readonly online: string;
  readonly about: About;
  readonly file: string;
}

export interface DocumentRequest {
  /** Where pages that are left out can be read; may be empty. */
  readonly online: string;
  /** The one aircraft that it is for; empty for all. */
  readonly serial: string;
  readonly about: About;
  readonly file: string;
}

export class Printer {
  readonly #browser: Browser;
  /** The built book. */
  readonly #folder: string;

  private constructor(browser: Browser, folder: string) {
    this.#browser = browser;
    this.#folder = folder;
  }

  static async start(executablePath: string, folder: string): Promise<Printer> {
    return new Printer(await startChromium(executablePath), folder);
  }

  async stop(): Promise<void> {
    await this.#browser.close();
  }

  /** One page of the book; where its script composes it, when it has. Rejects with NotComposed where that cannot be done. */
  async page(
    address: string,
    query: Readonly<Record<string, string>>,
    { composed, online, about, file }: PageRequest,
  ): Promise<void> {
    const bytes = await this.#with(async (page) => {
      const url = pathToFileURL(join(this.#folder, address));
      for (const [key, value] of Object.entries(query)) url.searchParams.set(key, value);
      await page.goto(url.href);
      if (composed) {
        const outcome = await page
          .waitForSelector('[data-composed]')
          .then((sheet) => sheet.getAttribute('data-composed'));
        if (outcome !== 'yes') throw new NotComposed((await page.textContent('.composed')) ?? '');
      }
      await page.evaluate(leadOut, { root: `${pathToFileURL(this.#folder).href}/`, online });
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      return printed(page);
    });
    const joined = new JoinedPdf(file);
    await joined.add(bytes);
    joined.finish(about, []);
  }

  /** Many pages as one document in a file, stretch by stretch, so that the browser never holds more than one. */
  async document(
    plan: PrintDocument,
    { online, serial, about, file }: DocumentRequest,
    tell: (words: string) => void,
  ): Promise<void> {
    const parts = partsOf(plan);
    const sizes = new Map(parts.map(({ address }) => [address, statSync(join(this.#folder, address)).size]));
    const stretches = stretchesOf(plan, ({ address }) => sizes.get(address) ?? 0, MOST_TOGETHER);
    const ids = Object.fromEntries(parts.map(({ address, id }) => [address, id]));
    const styles = await this.#styles();
    const wanted = await this.#wanted(plan, parts, ids);
    const toElsewhere = (id: string): string => `${ELSEWHERE}${id}`;
    const blank = front(plan, styles, { of: new Map(), pages: 0 }, toElsewhere);
    let pages = await countPages(await this.#printed(blank));
    const of = new Map<string, number>();
    const joined = new JoinedPdf(file);
    try {
      for (const [at, stretch] of stretches.entries()) {
        const html = skeleton(plan, stretch, styles, pages + 1);
        const here = stretch.parts.map(({ id }) => id);
        const bytes = await this.#printed(html, async (page) => {
          for (const { id, address } of stretch.parts) {
            const text = await readFile(join(this.#folder, address), 'utf8');
            const day = plan.frame.date;
            const piece = { id, address, html: text, ids, here, elsewhere: ELSEWHERE, online, serial, day };
            await page.evaluate(putIn, piece);
          }
          await page.evaluate(mend, { numbers: Object.fromEntries(of), wanted, elsewhere: ELSEWHERE });
          await page.evaluate(() => document.fonts.ready.then(() => undefined));
          await page.evaluate(widen);
        });
        const added = await joined.add(bytes);
        for (const [id, number] of added.ids) of.set(id, pages + number);
        const title = plan.chapters[stretch.chapter]?.title ?? '';
        const range = added.pages === 1 ? `page ${pages + 1}` : `pages ${pages + 1} to ${pages + added.pages}`;
        tell(`${title}${stretch.begins ? '' : ', continued'}: ${range} (${at + 1} of ${stretches.length})`);
        pages += added.pages;
      }
      await joined.add(await this.#printed(front(plan, styles, { of, pages }, toElsewhere)), 'first');
    } catch (error) {
      joined.abandon();
      throw error;
    }
    joined.finish(about, bookmarksOf(plan, parts));
  }

  /** A document that is printed and let go, with whatever `fill` puts into it. */
  async #printed(html: string, fill?: (page: Page) => Promise<void>): Promise<Uint8Array> {
    const file = join(this.#folder, 'print.html');
    await writeFile(file, html);
    return this.#with(async (page) => {
      await page.emulateMedia({ media: 'print' });
      await page.setViewportSize(VIEW);
      await page.goto(pathToFileURL(file).href);
      await fill?.(page);
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      return printed(page);
    });
  }

  /** The places that links of the pages lead to, by their ids in the document. */
  async #wanted(
    plan: PrintDocument,
    parts: readonly Part[],
    ids: Readonly<Record<string, string>>,
  ): Promise<readonly string[]> {
    const wanted = new Set([...plan.chapters.keys()].map(chapterId));
    for (const { id, address } of parts) {
      wanted.add(id);
      const html = await readFile(join(this.#folder, address), 'utf8');
      for (const [, href = ''] of html.matchAll(/ href="([^"#]*#[^"]+)"/g)) {
        const url = new URL(href.replaceAll('&#38;', '&').replaceAll('&amp;', '&'), `https://book.invalid/${address}`);
        const page = ids[decodeURIComponent(url.pathname.slice(1))];
        if (page !== undefined && page !== id) wanted.add(`${page}-${decodeURIComponent(url.hash.slice(1))}`);
      }
    }
    return [...wanted];
  }

  /** The styles of the book, relative to its folder, as its first page names them. */
  async #styles(): Promise<string[]> {
    const html = await readFile(join(this.#folder, 'index.html'), 'utf8');
    const found = [...html.matchAll(/<link[^>]+rel="stylesheet"[^>]*>/g)].flatMap(
      ([tag]) => /href="([^"]+)"/.exec(tag)?.[1] ?? [],
    );
    return found.filter((style) => existsSync(join(this.#folder, style)));
  }

  async #with<T>(work: (page: Page) => Promise<T>): Promise<T> {
    const context = await this.#browser.newContext({ colorScheme: 'light', locale: 'en-GB', timezoneId: 'UTC' });
    try {
      const page = await context.newPage();
      page.setDefaultTimeout(PATIENCE);
      return await work(page);
    } finally {
      await context.close();
    }
  }
}

async function printed(page: Page): Promise<Uint8Array> {
  return page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true });
}

function bookmarksOf(plan: PrintDocument, parts: readonly Part[]): Bookmark[] {
  return plan.chapters.map((chapter, at) => ({
    title: chapter.title,
    to: chapterId(at),
    below: parts
      .filter((part) => part.chapter === at && part.title !== chapter.title)
      .map(({ title, id }) => ({ title, to: id, below: [] })),
  }));
}
