/** The browser as a printer: pages of a built book in a folder, out as PDF. */
import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { leadOut, mend, numberPages, putIn } from './assemble.ts';
import { chapterId, documentCss, type PrintDocument, partsOf, skeleton } from './document.ts';
import { type Bookmark, pagesOfIds } from './pdf.ts';

/** A page could not be composed; `message` is what it tells the reader. */
export class NotComposed extends Error {}

/** A book of 300 pages takes half a minute; whatever takes this long will never end. */
const PATIENCE = 15 * 60 * 1000;

export class Printer {
  readonly #browser: Browser;
  /** The built book. */
  readonly #folder: string;

  private constructor(browser: Browser, folder: string) {
    this.#browser = browser;
    this.#folder = folder;
  }

  static async start(executablePath: string, folder: string): Promise<Printer> {
    const args = ['--disable-gpu', '--disable-background-networking', '--disable-component-update', '--no-first-run'];
    // Chromium refuses its sandbox to root, as whom a build in a container runs. It opens files of the book alone.
    if (process.getuid?.() === 0) args.push('--no-sandbox');
    return new Printer(
      await chromium.launch({ executablePath, args, handleSIGINT: false, handleSIGTERM: false, handleSIGHUP: false }),
      folder,
    );
  }

  async stop(): Promise<void> {
    await this.#browser.close();
  }

  /** One page of the book; where its script composes it, when it has. Rejects with NotComposed where that cannot be done. */
  async page(
    address: string,
    query: Readonly<Record<string, string>>,
    { composed, online }: { readonly composed: boolean; readonly online: string },
  ): Promise<Uint8Array> {
    return this.#with(async (page) => {
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
  }

  /** Many pages as one document, whose contents say where each begins. `online` and `serial` may be empty. */
  async document(
    plan: PrintDocument,
    { online, serial }: { readonly online: string; readonly serial: string },
    tell: (words: string) => void,
  ): Promise<{ readonly bytes: Uint8Array; readonly bookmarks: readonly Bookmark[] }> {
    const parts = partsOf(plan);
    const file = join(this.#folder, 'print.html');
    await writeFile(file, skeleton(plan, await this.#styles(), documentCss(plan)));
    const ids = Object.fromEntries(parts.map(({ address, id }) => [address, id]));
    const day = plan.frame.date;
    return this.#with(async (page) => {
      await page.goto(pathToFileURL(file).href);
      for (const { id, address } of parts) {
        const html = await readFile(join(this.#folder, address), 'utf8');
        await page.evaluate(putIn, { id, address, html, ids, online, serial, day });
      }
      await page.evaluate(mend);
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      tell(`${parts.length} pages of the book are laid out`);
      // Tags move nothing, and take most of the time.
      const first = await pagesOfIds(await printed(page, false));
      await page.evaluate(numberPages, Object.fromEntries(first));
      tell('the contents have their page numbers');
      const bookmarks = plan.chapters.map((chapter, at) => ({
        title: chapter.title,
        to: chapterId(at),
        below: parts
          .filter((part) => part.chapter === at && part.title !== chapter.title)
          .map(({ title, id }) => ({ title, to: id, below: [] })),
      }));
      return {
        bytes: await printed(page),
        bookmarks,
      };
    });
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

async function printed(page: Page, tagged = true): Promise<Uint8Array> {
  return page.pdf({ preferCSSPageSize: true, printBackground: true, tagged });
}
