/** Addresses as a reader passes them on: with a mouse, a thumb and the keyboard, in the demo opened from a folder. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launchChromium } from '../helpers/chromium.ts';

const root = inject('demoSite');
let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

async function open(address: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  await page.goto(pathToFileURL(join(root, '.')).href + address);
  return page;
}
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const hashOf = (page: Page): string => decodeURIComponent(new URL(page.url()).hash.slice(1));

describe('an address within a page', () => {
  it('is passed on from the row under the pointer, and marks it when it is opened', async () => {
    const page = await open('/controls/position.html');
    const row = page.locator('table.states tr[id]').nth(1);
    await row.hover();
    await page.click('.link-mark.of-row');
    expect(hashOf(page)).toBe(await row.getAttribute('id'));
    expect(await row.evaluate((found) => getComputedStyle(found.firstElementChild as Element).boxShadow)).not.toBe(
      'none',
    );
    await page.context().close();
  });

  it('is reached with the keyboard: from the mark of a table down its rows and back', async () => {
    const page = await open('/controls/position.html');
    await page.focus('table.states caption .link-mark');
    const focused = () => page.evaluate(() => document.activeElement?.closest('tr, caption')?.id ?? '');
    const rows = await page.$$eval('table.states', ([table]) =>
      [...(table?.querySelectorAll('tr[id]') ?? [])].map(({ id }) => id),
    );
    for (const id of rows) {
      await page.keyboard.press('ArrowDown');
      expect(await focused()).toBe(id);
    }
    await page.keyboard.press('Enter');
    expect(hashOf(page)).toBe(rows.at(-1));
    for (const _ of rows) await page.keyboard.press('ArrowUp');
    expect(await focused()).toBe('');
    await page.context().close();
  });

  it('is reached with a thumb: the row is tapped, then its mark of 44 px', async () => {
    const page = await open('/controls/position.html', PHONE);
    const row = page.locator('table.states tr[id]').first();
    await row.locator('td').first().tap();
    const marks = await page.$$eval('main .link-mark', (all) => all.map((mark) => mark.getBoundingClientRect().height));
    expect(marks.length).toBeGreaterThan(5);
    expect(Math.min(...marks)).toBeGreaterThanOrEqual(43.5);
    await page.tap('.link-mark.of-row');
    expect(hashOf(page)).toBe(await row.getAttribute('id'));
    await page.context().close();
  });

  it('leads to the table where its row is no longer in the book', async () => {
    const page = await open('/controls/position.html#position-lights-1-lamp-40112-normal_DIM_any_lost');
    await page.waitForURL(/normal$/);
    expect(await page.textContent('.said-briefly')).toContain('not in the book any more');
    await page.context().close();
  });
});

describe('a former address', () => {
  it('leads on to the present one, with the aircraft and the position', async () => {
    const page = await open('/controls/position-set.html?aircraft=40112#position-FIRST');
    await page.waitForURL(/set-transfer\.html\?aircraft=40112#position-FIRST$/);
    expect(await page.$eval(':target', (target) => (target.parentElement as HTMLElement).textContent)).toContain(
      'SET 1',
    );
    await page.context().close();
  });

  it('leads on without script', async () => {
    const page = await open('/options/light-logic.html', { javaScriptEnabled: false });
    await page.waitForURL(/options\/auto-logic\.html$/);
    await page.context().close();
  });
});
