/** What a reader notes on a page, in the demo opened from a folder: lamps that are unserviceable today, and remarks. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';

const root = inject('demoSite');
const LIGHT = 'lights/position-lights-1.html';
const LAMP = 'position-lights-1-left';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

/** A reader with an aircraft, by the clock of the first day. */
async function reader(options: BrowserContextOptions = {}): Promise<BrowserContext> {
  return browser.newContext({ viewport: { width: 1280, height: 900 }, timezoneId: 'UTC', ...options });
}
async function open(context: BrowserContext, address: string, time: string): Promise<Page> {
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date(time));
  await page.goto(pathToFileURL(join(root, '.')).href + address);
  return page;
}
async function choose(page: Page, serial: string): Promise<void> {
  await page.click('button.own');
  await page.click(`dialog.fleet button[value="${serial}"]`);
}
describe('a lamp that is unserviceable today', () => {
  it('is marked on my aircraft alone, shown in list, tables and drawing, printed, and gone after a day', async () => {
    const context = await reader({ hasTouch: true });
    const page = await open(context, `/${LIGHT}`, '2026-11-02T09:00:00Z');
    expect(await page.locator('.out-mark').count()).toBe(0);
    await choose(page, '40112');
    await page.tap(`tr[data-lamp="${LAMP}"] .out-mark`);

    expect(await page.textContent('.out-today summary')).toBe('QQ-OAA: 1 lamp marked unserviceable today');
    expect(await page.textContent('.out-today')).toContain('minimum equipment list and maintenance decide');
    expect(await page.textContent(`tr[data-lamp="${LAMP}"]`)).toContain('unserviceable today');
    expect(await page.locator(`.views [data-unit="${LAMP}"] .out-cross`).count()).toBeGreaterThan(0);
    const drawn = page.locator(`.views [data-unit="${LAMP}"]`).first();
    expect(
      await drawn.evaluate((mark) => [getComputedStyle(mark).opacity, mark.getBoundingClientRect().width > 5]),
    ).toEqual(['1', true]);
    // Of its abnormal cases those with the lamp failed are pointed out, those that need it to work are set back.
    const rows = await page.$$eval(`#${LAMP} .mine table.states tr[id]`, (all) =>
      all.map((row) => ({
        failed: /(?:^|_)failed(?:_|$)/.test(row.id),
        working: /(?:^|_)serviceable(?:_|$)/.test(row.id),
        told: row.querySelector('.out-tag')?.textContent ?? '',
      })),
    );
    expect(rows.some(({ failed }) => failed)).toBe(true);
    for (const { failed, working, told } of rows)
      expect(told).toBe(failed ? 'today: lamp failed' : working ? 'not today' : '');
    expect(await page.textContent(`#${LAMP} .mine`)).toContain('Not so today');
    // The tables of other aircraft stay as they were.
    expect(await page.locator(`#${LAMP} details.others .out-tag`).count()).toBe(0);
    await page.emulateMedia({ media: 'print' });
    expect(await page.isVisible('.out-today p')).toBe(true);
    expect(await page.isVisible('.out-today button')).toBe(false);
    await page.close();

    const elsewhere = await open(context, '/controls/position.html', '2026-11-02T21:00:00Z');
    expect(await elsewhere.isVisible('.out-today')).toBe(true);
    expect(await elsewhere.textContent(`#${LAMP} h2`)).toContain('unserviceable today');
    await elsewhere.goto(pathToFileURL(join(root, 'procedures/line-flight.html')).href);
    expect(await elsewhere.locator('.lit .out-tag').first().textContent()).toBe('a lamp unserviceable today');
    expect(await elsewhere.locator(`.mine [data-unit="${LAMP}"] .out-cross`).count()).toBeGreaterThan(0);
    const linked = await open(context, '/controls/position.html?aircraft=40118', '2026-11-02T21:00:00Z');
    expect(await linked.isVisible('.out-today')).toBe(false);
    // The choice of the aircraft lapses with it; chosen anew, nothing is marked any more.
    const tomorrow = await open(context, `/${LIGHT}`, '2026-11-03T09:01:00Z');
    await tomorrow.click('.about-aircraft button:has-text("Still")');
    expect(await tomorrow.isVisible('.out-today')).toBe(false);
    expect(await tomorrow.evaluate(() => localStorage.getItem('switchleaf-unserviceable'))).toBeNull();
    await context.close();
  });

  it('is told wherever a light of my aircraft is, and of no other aircraft', async () => {
    const context = await reader();
    await context.addInitScript((lamp) => {
      const own = { serial: '40127', chosen: '2026-11-02T08:00:00Z' };
      const title = 'First set of position lights, left lamp';
      const mark = { serial: own.serial, lamp, title, to: 'lights/position-lights-1.html#lamps', marked: own.chosen };
      localStorage.setItem('switchleaf-aircraft', JSON.stringify(own));
      localStorage.setItem('switchleaf-unserviceable', JSON.stringify([mark]));
    }, LAMP);
    const page = await open(context, '/compare.html#40112/40127', '2026-11-02T09:00:00Z');
    const table = 'table[id$="differs-position-lights-1-left-table"]';
    const heads = `.difference:has(${table}) h4 .out-tag`;
    await page.waitForSelector(table);
    expect(await page.textContent(heads)).toBe('a lamp unserviceable today');
    expect(await page.locator('.out-tag').count()).toBeGreaterThan(4);
    const tags = await page.$$eval('.result table.states.two .out-tag', (all) =>
      all.map((tag) => [tag.closest('td')?.querySelector('span')?.textContent, tag.textContent]),
    );
    expect(tags).toContainEqual(['serviceable', 'not today for the failed lamp']);
    expect(tags).toContainEqual(['serviceable', 'not today']);
    expect(tags).toContainEqual(['failed', 'today']);
    // Tables of what the light does as such, and of the lamps that work, say nothing of it.
    expect(await page.locator('table[id$="differs-position-lights-1-lamp-table"] .out-tag').count()).toBe(0);
    expect(
      await page.locator('.difference:has(table[id$="differs-position-lights-1-spare-table"]) .out-tag').count(),
    ).toBe(0);
    await page.evaluate(() => {
      location.hash = '40112/40131';
    });
    await page.waitForSelector('.result h2:has-text("QQ-OAG")');
    expect(await page.locator('.result .out-tag').count()).toBe(0);

    const to = (address: string) => page.goto(pathToFileURL(join(root, address)).href);
    await to('supplies.html');
    expect(await page.locator('.loss .out-tag').count()).toBeGreaterThan(0);
    await to('aircraft/40112.html');
    expect(await page.locator('main .out-tag').count()).toBe(0);
    await to('sheets/differences-from-the-first.html');
    await page.waitForSelector('#sheet[data-composed="yes"]');
    // Rows that need the lamp to work are set back on the paper, those with it failed are pointed out.
    const marked = await page.$$eval('.papers td > .out-tag', (all) =>
      all.map((one) => [
        one.previousElementSibling?.textContent,
        one.textContent,
        ['not-out', 'is-out'].filter((name) => one.closest('tr')?.classList.contains(name)).join(),
      ]),
    );
    const kinds = [
      ['serviceable', 'not today', 'not-out'],
      ['failed', 'today', 'is-out'],
      ['serviceable', 'not today for the failed lamp', ''],
    ];
    for (const kind of kinds) expect(marked).toContainEqual(kind);
    expect(marked.filter((one) => !kinds.some((kind) => kind.join() === one.join()))).toEqual([]);
    await to('sheets/walk-round-at-night.html');
    await page.waitForSelector('#sheet[data-composed="yes"]');
    // The lamp's own row, on the paper; the others of the light are as they were. Who decides stands on each page.
    expect(
      await page.$$eval('.papers .out-tag', (all) => all.map((tag) => tag.closest('tr')?.cells[0]?.textContent)),
    ).toEqual(['Left wing tip']);
    for (const foot of await page.locator('.leaf-caution').allTextContents())
      expect(foot).toMatch(
        /^Unserviceable on 2026-11-02, .*left lamp\. The minimum equipment list and maintenance decide/,
      );
    expect(await page.textContent('.leaf-who')).toBe('QQ-OAF');
    await page.emulateMedia({ media: 'print' });
    expect(await page.isVisible('.papers .out-tag')).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    // Cleared, the sheet is made anew without it; for another aircraft it never had it.
    await page.click('.out-today summary');
    await page.click('.out-today li button');
    await page.waitForSelector('#sheet[data-composed="yes"]');
    expect(await page.locator('.out-tag').count()).toBe(0);
    expect(await page.textContent('.leaf-caution')).not.toContain('Unserviceable');
    await context.close();
  });

  it('is cleared from the line that every page has, with the keyboard', async () => {
    const context = await reader({ bypassCSP: true, viewport: { width: 390, height: 844 }, colorScheme: 'dark' });
    const page = await open(context, `/${LIGHT}`, '2026-11-02T09:00:00Z');
    await choose(page, '40112');
    await page.focus(`tr[data-lamp="${LAMP}"] .out-mark`);
    await page.keyboard.press('Enter');
    expect(await axeFaults(page, 'body')).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await page.focus('.out-today summary');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await page.isVisible('.out-today')).toBe(false);
    expect(await page.locator('.out-tag, .out-note, .out-cross, .is-out, .not-out').count()).toBe(0);
    await context.close();
  });
});

describe('a remark', () => {
  it('carries address and anchor, revision, aircraft and marks, and is copied or mailed', async () => {
    const context = await reader({ bypassCSP: true });
    const page = await open(context, `/${LIGHT}#${LAMP}`, '2026-11-02T09:00:00Z');
    await page.evaluate(() => {
      Object.defineProperty(navigator, 'clipboard', {
        value: { writeText: (text: string) => Promise.resolve(void Object.assign(globalThis, { copied: text })) },
      });
    });
    await choose(page, '40112');
    await page.click(`tr[data-lamp="${LAMP}"] .out-mark`);
    await page.click('.to-remark button');
    await page.fill('#remark-words', 'The tail lamp is not where it says.');
    const facts = await page.inputValue('.goes-with');
    expect(facts).toContain(`Address: ${LIGHT}`);
    expect(facts).toContain(`#${LAMP}`);
    expect(facts).toContain('revision 8, as of 2026-10-01');
    expect(facts).toContain('Aircraft: QQ-OAA (serial 40112), chosen 2026-11-02 09:00');
    expect(facts).toContain('Marked unserviceable: First set of position lights, left lamp');
    expect(facts).not.toContain('file:');
    await page.click('.copy-remark');
    await page.waitForFunction(() => document.querySelector('.remark [role="status"]')?.textContent !== '');
    const whole = `The tail lamp is not where it says.\n\n${facts}`;
    expect(await page.evaluate(() => (globalThis as unknown as { copied: string }).copied)).toBe(whole);
    const mail = new URL((await page.getAttribute('.send-remark', 'href')) ?? '');
    expect(mail.pathname).toBe('lighting-reference@quillmere.example');
    expect(mail.searchParams.get('body')).toBe(whole);
    expect(await axeFaults(page, 'dialog.remark')).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.isVisible('dialog.remark')).toBe(false);
    await context.close();
  });

  it('can be copied by hand where the browser does not let pages copy', async () => {
    const context = await reader();
    const page = await open(context, '/index.html', '2026-11-02T09:00:00Z');
    await page.evaluate(() => Object.defineProperty(navigator, 'clipboard', { value: undefined }));
    await page.click('.to-remark button');
    await page.click('.copy-remark');
    expect(await page.textContent('.remark [role="status"]')).toContain('The lines are selected');
    expect(await page.evaluate(() => getSelection()?.toString())).toContain('none chosen, every aircraft shown');
    await context.close();
  });
});
