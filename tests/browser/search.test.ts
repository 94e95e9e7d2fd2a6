/** The search as a reader uses it, in the demo opened from a folder: with the keyboard, with a thumb, with typing errors. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { SearchEntry } from '../../src/book/index.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';

const root = inject('demoSite');
const data = readFileSync(join(root, 'search-data.js'), 'utf8');
const entries: SearchEntry[] = JSON.parse(data.slice(data.indexOf('['), data.lastIndexOf(']') + 1));

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

async function open(width: number, options: { hasTouch?: boolean; bypassCSP?: boolean } = {}) {
  const context = await browser.newContext({ viewport: { width, height: 844 }, ...options });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('console', (message) => troubles.push(message.text()));
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(pathToFileURL(root).href)) troubles.push(`elsewhere: ${request.url()}`);
  });
  await page.goto(pathToFileURL(join(root, 'controls/logo.html')).href);
  return { page, troubles };
}

/** Types the words and gives where the results lead, best first. */
async function found(page: Page, words: string): Promise<string[]> {
  await page.fill('dialog.search input', words);
  await page.waitForFunction(
    (typed) => document.querySelector<HTMLElement>('#search-results')?.dataset['words'] === typed,
    words,
  );
  return page.$$eval('dialog.search [role="option"]', (options) =>
    options.map((option) => (option as HTMLElement).dataset['to'] ?? ''),
  );
}

const leadingTo = ({ to, anchor }: SearchEntry): string => (anchor === undefined ? to : `${to}#${anchor}`);

const choose = chooser(random(86));
/** A title with one letter of its longest word left out, which no other title has. */
function mistyped({ title }: SearchEntry): string {
  const longest = title.split(/[ ,-]/).reduce((one, other) => (other.length > one.length ? other : one));
  const at = 1 + choose.below(Math.max(1, longest.length - 2));
  return title.replace(longest, longest.slice(0, at) + longest.slice(at + 1));
}

describe('the search', () => {
  it('finds whatever is drawn from the book by its title, among the first three', async () => {
    const { page, troubles } = await open(1280);
    await page.keyboard.press('/');
    for (const entry of choose.some(entries, 15)) {
      expect((await found(page, entry.title)).slice(0, 3), entry.title).toContain(leadingTo(entry));
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it('finds it with a letter left out, among those that are shown', async () => {
    const { page } = await open(1280);
    await page.keyboard.press('/');
    const long = entries.filter(({ title }) => title.split(/[ ,-]/).some((word) => word.length > 5));
    for (const entry of choose.some(long, 15)) {
      const words = mistyped(entry);
      expect(await found(page, words), words).toContain(leadingTo(entry));
    }
    await page.context().close();
  });

  it('finds what stands on a panel or a screen, before anything else', async () => {
    const { page } = await open(1280);
    await page.keyboard.press('/');
    const seen = entries.filter(({ kind, legends }) => legends && kind !== 'control');
    for (const entry of choose.some(seen, 10)) {
      const legend = entry.legends?.[0] ?? '';
      const [best = ''] = await found(page, legend);
      const bearers = seen.filter(({ legends }) => legends?.includes(legend)).map(({ to }) => to);
      expect(bearers, legend).toContain(best);
    }
    await page.context().close();
  });

  it('finds a light by the word that crews have for it', async () => {
    const { page } = await open(1280);
    await page.keyboard.press('/');
    expect(await found(page, 'strobes')).toContain('controls/anti-collision.html');
    expect(await found(page, 'nav lights')).toContain('controls/position.html');
    await page.context().close();
  });

  it('is used with the keyboard alone: slash, words, arrows, enter', async () => {
    const { page } = await open(1280);
    await page.keyboard.press('/');
    const [, second = ''] = await found(page, 'landing light');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.waitForURL((url) => url.pathname.endsWith(second));
    await page.context().close();
  });

  it('is used with a thumb: two taps to an answer, targets of 44 px', async () => {
    const { page } = await open(390, { hasTouch: true });
    await page.tap('button.find');
    const [first = ''] = await found(page, 'trip');
    const heights = await page.$$eval('dialog.search :is([role="option"], button, input)', (targets) =>
      targets.map((target) => target.getBoundingClientRect().height),
    );
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(43.5);
    await page.tap('dialog.search [role="option"]');
    await page.waitForURL((url) => url.pathname.endsWith(first));
    await page.context().close();
  });

  it('says so where nothing is called so, and closes with escape', async () => {
    const { page } = await open(390);
    await page.keyboard.press('/');
    expect(await found(page, 'zzzzqqq')).toEqual([]);
    expect(await page.textContent('dialog.search [role="status"]')).toContain('Nothing in this book');
    await page.keyboard.press('Escape');
    expect(await page.isVisible('dialog.search')).toBe(false);
    await page.context().close();
  });

  it('has no fault that axe-core finds while it is open, by day and by night', async () => {
    const { page } = await open(390, { bypassCSP: true });
    await page.keyboard.press('/');
    await found(page, 'emergency');
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await axeFaults(page, 'dialog.search')).toEqual([]);
    }
    await page.context().close();
  });
});
