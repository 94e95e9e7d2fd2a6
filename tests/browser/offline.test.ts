/** The book on a device whose network goes away, and two releases that must not be mixed. */
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest';
import { buildSite } from '../../src/cli/build-site.ts';
import { everyKind } from '../book/every-kind.ts';
import { launchChromium } from '../helpers/chromium.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};

const folder = mkdtempSync(join(tmpdir(), 'switchleaf-offline-'));
const older = inject('everyKindSite');
const newer = join(folder, 'newer');
/** A server in the middle of being brought up to date: the script of the newer release, a page of the older one. */
const torn = join(folder, 'torn');
const addresses = everyKind.pages.map(({ address }) => address);

const panels = everyKind.comparison?.panels.map(({ title }) => title);
/** What the newer release compares with: its panels have other titles. */
const comparison = everyKind.comparison && {
  comparison: {
    ...everyKind.comparison,
    panels: everyKind.comparison.panels.map((panel) => ({ ...panel, title: `${panel.title}, next` })),
  },
};

let browser: Browser;
beforeAll(async () => {
  await buildSite(
    { ...everyKind, frame: { ...everyKind.frame, revision: 'Next', date: '2027-02-01' }, ...comparison },
    newer,
  );
  cpSync(newer, torn, { recursive: true });
  cpSync(join(older, 'about.html'), join(torn, 'about.html'));
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A server whose folder can change, and that can be stopped and started again under its address. */
class Site {
  root = older;
  #server: Server | undefined;
  #port = 0;

  get address(): string {
    return `http://localhost:${this.#port}/library/`;
  }

  async start(): Promise<void> {
    this.#server = createServer((request, response) => {
      const path = new URL(request.url ?? '', this.address).pathname.replace('/library/', '') || 'index.html';
      try {
        const body = readFileSync(join(this.root, path));
        response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'text/plain', 'cache-control': 'no-store' });
        response.end(body);
      } catch {
        response.writeHead(404).end();
      }
    });
    await new Promise<void>((resolve) => this.#server?.listen(this.#port, resolve));
    this.#port = (this.#server.address() as AddressInfo).port;
  }

  async stop(): Promise<void> {
    this.#server?.closeAllConnections();
    await new Promise((resolve) => this.#server?.close(resolve));
  }
}

const site = new Site();
let context: BrowserContext;
afterEach(async () => {
  await context.close();
  await site.stop();
});

/** A reader who has been there once: the copy is whole. */
async function visited(): Promise<Page> {
  site.root = older;
  await site.start();
  context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
  const page = await context.newPage();
  await page.goto(site.address);
  await page.waitForSelector('.copy:not([hidden])');
  return page;
}

/** The panels under which two aircraft differ. */
async function comparedOn(page: Page): Promise<string[]> {
  await page.goto(`${site.address}compare.html#1001/1003`);
  await page.waitForSelector('.result h2');
  const titles = await page.$$eval('.result h3', (all) => all.map(({ textContent }) => textContent ?? ''));
  expect(titles).not.toEqual([]);
  return titles;
}

const editionOn = (page: Page) => page.textContent('.bar .edition');

describe('a copy on the device', () => {
  it('has a third of all pages, wherever they stand, the search and the comparison after the first visit, when the server is gone', async () => {
    const page = await visited();
    expect(await page.textContent('.copy')).toMatch(
      /can be read without a network\. Last compared .* on \d{4}-\d\d-\d\d/,
    );
    await site.stop();
    for (const address of addresses.filter((_, at) => at % 3 === 0)) {
      const response = await page.goto(site.address + address);
      expect(response?.status(), address).toBe(200);
      expect(response?.fromServiceWorker(), address).toBe(true);
    }
    expect(
      await page.evaluate(() =>
        document.fonts.ready.then(() => [...document.fonts].some(({ status }) => status === 'loaded')),
      ),
    ).toBe(true);
    await page.keyboard.press('/');
    await page.fill('dialog.search input', everyKind.pages[1]?.title ?? '');
    await page.waitForSelector('[role="option"]');
    for (const title of await comparedOn(page)) expect(panels).toContain(title);
    await site.start();
  });

  it('offers a newer release when all of it is there, and takes it on the word of the reader', async () => {
    const page = await visited();
    await page.reload();
    site.root = newer;
    await page.goto(`${site.address}about.html`);
    await page.waitForSelector('.release:not([hidden])');
    expect(await page.textContent('.release p')).toContain('Revision Next, as of 2027-02-01, is ready');
    // Until then every page is of the older one, also with a network.
    for (const address of addresses.slice(0, 10)) {
      await page.goto(site.address + address);
      expect(await editionOn(page), address).not.toContain('Next');
    }
    for (const title of await comparedOn(page)) expect(panels).toContain(title);
    await page.waitForSelector('.release:not([hidden])');
    const reloaded = page.waitForEvent('load');
    await page.click('.release button');
    await reloaded;
    await site.stop();
    for (const address of addresses.slice(0, 10)) {
      await page.goto(site.address + address);
      expect(await editionOn(page), address).toContain('Next');
    }
    for (const title of await comparedOn(page)) expect(title).toMatch(/, next$/);
    await site.start();
  });

  it('takes nothing of a server that is in the middle of being brought up to date', async () => {
    const page = await visited();
    await page.reload();
    site.root = torn;
    await page.goto(`${site.address}about.html`);
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      const coming = registration.installing;
      if (coming) await new Promise((resolve) => coming.addEventListener('statechange', resolve));
    });
    expect(await page.isVisible('.release')).toBe(false);
    for (const address of addresses.slice(0, 10)) {
      await page.goto(site.address + address);
      expect(await editionOn(page), address).not.toContain('Next');
    }
    site.root = newer;
    await page.reload();
    await page.waitForSelector('.release:not([hidden])');
  });
});
