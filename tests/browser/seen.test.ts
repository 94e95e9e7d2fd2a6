/** "From what I see" as a reader uses it, in the demo opened from a folder: with a thumb, with the keyboard, without script. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { SeenData } from '../../src/book/index.ts';
import { narrow, readSeen } from '../../src/islands/parts/narrow.ts';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';

const root = inject('demoSite');
const script = readFileSync(join(root, 'seen-data.js'), 'utf8');
const data: SeenData = JSON.parse(script.slice(script.indexOf('{'), script.lastIndexOf('}') + 1));
const DAY = '2026-11-02';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

async function open(address: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, timezoneId: 'UTC', ...options });
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date(`${DAY}T09:00:00Z`));
  await page.goto(pathToFileURL(join(root, '.')).href + address);
  return page;
}
const answered = (page: Page, said: string) =>
  page.waitForFunction(
    (wanted) => document.querySelector<HTMLElement>('.what-i-see')?.dataset['said'] === wanted,
    said,
  );
const aircraft = (page: Page) =>
  page.$$eval('.what-i-see .count + ul.aircraft a', (all) => all.map((one) => one.textContent));
const expected = (said: string) => narrow(data, readSeen(said), DAY).periods.map(({ registration }) => registration);

describe('from what I see', () => {
  it('takes two taps from the first page to an answer, and one more for each thing that is seen besides', async () => {
    const page = await open('/index.html', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    await page.tap('main a:text-is("From what I see")');
    await page.tap('[data-sight="logo"] button:text-is("three positions")');
    await answered(page, 'logo:3');
    expect(await aircraft(page)).toEqual(expected('logo:3'));
    expect(await page.textContent('.what-i-see')).toContain('Three positions:');
    const heights = await page.$$eval('main button', (all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(43.5);
    await page.tap('[data-sight="legend-set-2"] button:text-is("lit")');
    await answered(page, 'logo:3,legend-set-2:lit');
    expect(await aircraft(page)).toEqual(expected('logo:3,legend-set-2:lit'));
    expect(expected('logo:3,legend-set-2:lit').length).toBeLessThan(expected('legend-set-2:lit').length);
    expect(await page.textContent('.what-i-see')).toContain('SET 2');
    // The browser's own way back takes back what was said last.
    await page.goBack();
    await answered(page, 'logo:3');
    await page.context().close();
  });

  it('is used with the keyboard alone, and says of dark what it can come from', async () => {
    const page = await open('/seen.html');
    await page.focus('.narrow-list input');
    await page.keyboard.type('taxi lights');
    for (let tabs = 0; tabs < 12; tabs += 1) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => /: dark$/.test(document.activeElement?.getAttribute('aria-label') ?? ''))) break;
    }
    await page.keyboard.press('Enter');
    await page.waitForSelector('.what-i-see:not([hidden]) .meaning');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('what-i-see');
    expect(await page.textContent('.what-i-see')).toMatch(/lamp may have failed|lamps fail one by one/);
    expect(await page.textContent('main')).toContain('its supply may be lost, or its lamp may have failed');
    await page.context().close();
  });

  it('tells when several things are seen at once, and offers nothing that would never be seen beside them', async () => {
    const page = await open('/seen.html#seen=legend-run:lit,legend-trip:lit');
    await answered(page, 'legend-run:lit,legend-trip:lit');
    const told = page.locator('.what-i-see .meaning').first();
    expect(await told.locator('h3').textContent()).toBe('All of it at once');
    // Both mean something else by themselves; together only a lamp check lights them.
    expect(await told.textContent()).toMatch(/Only in abnormal cases: with the lamp check push-button at PRESSED/);
    expect(await page.isDisabled('[data-sight="legend-ready"] button:text-is("dark")')).toBe(true);
    expect(await page.isDisabled('[data-sight="legend-ready"] button:text-is("lit")')).toBe(false);
    await page.click('.said li:has-text("TRIP: lit") button');
    await answered(page, 'legend-run:lit');
    expect(await page.textContent('.what-i-see')).not.toContain('All of it at once');
    await page.goto(
      `${pathToFileURL(join(root, 'seen.html')).href}#seen=legend-red-only:lit,white-anti-collision-lights:flashing`,
    );
    await answered(page, 'legend-red-only:lit,white-anti-collision-lights:flashing');
    expect(await page.locator('.what-i-see .meaning').first().textContent()).toContain('Only in abnormal cases');
    await page.context().close();
  });

  it('tells first of my aircraft, and says when it is not one of those', async () => {
    const [first] = expected('logo:2');
    const [other] = expected('logo:3');
    const serialOf = (name: string | undefined) =>
      data.periods.find(({ registration }) => registration === name)?.serial;
    const page = await open(`/seen.html?aircraft=${serialOf(first)}#seen=position-lights-1:dark`);
    await answered(page, 'position-lights-1:dark');
    const told = page.locator('.what-i-see .told-by-aircraft').first();
    expect(await told.locator(':scope > .mine .holds').count()).toBe(1);
    expect(await told.locator(':scope > details.others').count()).toBe(1);
    await page.goto(`${pathToFileURL(join(root, 'seen.html')).href}?aircraft=${serialOf(other)}#seen=logo:2`);
    await answered(page, 'logo:2');
    expect(await page.textContent('.not-mine')).toBe(`${other} is not one of them.`);
    await page.context().close();
  });

  it('lists everything without script, with the aircraft that can show it', async () => {
    const page = await open('/seen.html', { javaScriptEnabled: false });
    expect(await page.isVisible('.narrow-list')).toBe(false);
    expect(await page.isVisible('.what-i-see')).toBe(false);
    const choices = await page.locator('[data-choice]').count();
    expect(choices).toBe(Object.values(data.choices).reduce((sum, each) => sum + Object.keys(each).length, 0));
    expect(await page.textContent('#see-logo')).toMatch(/two positions on .*three positions on /);
    await page.context().close();
  });

  it.each([
    ['light', 390],
    ['dark', 1280],
  ] as const)('has no fault that axe-core finds with an answer open, %s, %d wide', async (colorScheme, width) => {
    const page = await open('/seen.html#seen=logo:3,legend-set-2:dark', {
      viewport: { width, height: 844 },
      bypassCSP: true,
      colorScheme,
    });
    await answered(page, 'logo:3,legend-set-2:dark');
    expect(await axeFaults(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await page.context().close();
  });
});
