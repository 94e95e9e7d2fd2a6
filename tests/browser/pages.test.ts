/** The pages as a reader has them: a book opened from a folder, in Chromium, by day and by night, wide and narrow. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { Book } from '../../src/book/index.ts';
import { inTimeBook } from '../book/in-time.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { sampleBook } from '../site/sample-book.ts';

type Site = 'sampleSite' | 'inTimeSite';

const addressOf = (site: Site, address: string): string => pathToFileURL(join(inject(site), address)).href;

/** One page of each kind, and the control with the longest tables; of a real content what the sample does not have. */
const inTime = inTimeBook().book;
const firstOfKinds = ({ pages }: Book): Map<string, string> =>
  new Map(pages.map(({ kind, address }) => [kind, address]));
const sampleKinds = firstOfKinds(sampleBook);
const addresses: [Site, string][] = [
  ...[...sampleKinds.values(), 'controls/landing-left.html'].map((address): [Site, string] => ['sampleSite', address]),
  ...[...firstOfKinds(inTime)]
    .filter(([kind]) => !sampleKinds.has(kind))
    .map(([, address]): [Site, string] => ['inTimeSite', address]),
  ['inTimeSite', 'lights/belt-signs.html'],
];

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

async function open(
  site: Site,
  address: string,
  theme: 'day' | 'night',
  width: number,
): Promise<{ page: Page; troubles: string[] }> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme: theme === 'day' ? 'light' : 'dark',
  });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('console', (message) => troubles.push(message.text()));
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('requestfailed', (request) => troubles.push(`failed: ${request.url()}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(addressOf(site, ''))) troubles.push(`elsewhere: ${request.url()}`);
  });
  await page.goto(addressOf(site, address));
  return { page, troubles };
}

describe.each(addresses)('%s %s', (site, address) => {
  /** Under its policy; opened once, looked at in several sizes. */
  let page: Page;
  let troubles: string[];
  beforeAll(async () => {
    ({ page, troubles } = await open(site, address, 'day', 1280));
  });
  afterAll(() => page?.context().close());

  it('opens from a folder under its policy, with its styles and its typeface, asking for nothing elsewhere', async () => {
    const look = await page.evaluate(async () => {
      await document.fonts.ready;
      return {
        paper: getComputedStyle(document.body).backgroundColor,
        loaded: [...document.fonts].filter((font) => font.status === 'loaded').length,
      };
    });
    expect(look).toEqual({ paper: 'rgb(251, 250, 246)', loaded: 1 });
    expect(troubles).toEqual([]);
  });

  it('fits screens 320, 390 and 820 wide: the page does not move sideways and no word is cut off', async () => {
    for (const width of [320, 390, 820]) {
      await page.setViewportSize({ width, height: 900 });
      const found = await page.evaluate(() => ({
        sideways: document.documentElement.scrollWidth - innerWidth,
        cut: [...document.querySelectorAll('main :is(td, th, dd, dt, p, li, summary, h1, h2, h3)')]
          .filter((element) => element.checkVisibility() && element.closest('thead, .flow') === null)
          .filter(
            (element) =>
              element.scrollWidth > element.clientWidth + 1 && getComputedStyle(element).display !== 'inline',
          )
          .map((element) => element.textContent),
      }));
      expect(found.sideways, String(width)).toBeLessThanOrEqual(0);
      expect(found.cut, String(width)).toEqual([]);
    }
  });

  it('gives thumbs 44 px on a phone, outside running text (WCAG 2.2, 2.5.5)', async () => {
    await page.setViewportSize({ width: 390, height: 900 });
    await page.click('.contents summary');
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('a, button, summary')]
        // Links within a sentence, a cell or a heading keep the line that they stand in (the exception "inline").
        .filter(
          (element) =>
            element.checkVisibility() &&
            element.closest('.skip, p:not(.name, .book), td, th, h2, h3, h4, dd, .sentences, .says') === null,
        )
        .filter((element) => element.getBoundingClientRect().height < 43.5)
        .map((element) => `${element.textContent}: ${element.getBoundingClientRect().height}`),
    );
    expect(small).toEqual([]);
  });
});

describe('the theme', () => {
  const paper = (page: Page) => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const DAY = 'rgb(251, 250, 246)';
  const NIGHT = 'rgb(11, 13, 14)';

  it('follows the system until the reader chooses, keeps the choice on other pages, and follows again', async () => {
    const { page } = await open('sampleSite', 'index.html', 'day', 820);
    expect(await paper(page)).toBe(DAY);
    await page.click('button[value=night]');
    expect(await paper(page)).toBe(NIGHT);
    expect(await page.getAttribute('button[value=night]', 'aria-pressed')).toBe('true');
    await page.goto(addressOf('sampleSite', 'controls/logo.html'));
    expect(await paper(page)).toBe(NIGHT);
    await page.click('button[value=system]');
    expect(await paper(page)).toBe(DAY);
    await page.context().close();
  });

  it('follows the system without script, and shows no switch that would do nothing', async () => {
    const context = await browser.newContext({ colorScheme: 'dark', javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(addressOf('sampleSite', 'index.html'));
    await page.screenshot();
    expect(await page.locator('.themes').isVisible()).toBe(false);
    expect(await page.locator('.contents ul ul a').first().isVisible()).toBe(true);
    await context.close();
  });
});
