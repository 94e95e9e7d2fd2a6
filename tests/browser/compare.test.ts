/** Any two aircraft of the demo as a reader compares them, in a folder without a server: what is said is what the book's functions say. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runInNewContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, it } from 'vitest';
import { COMPARE, compareAircraft, readComparison } from '../../src/book/index.ts';
import { registrationOn } from '../../src/book/registration.ts';
import type { Holder } from '../../src/compile/index.ts';
import { comparisonHtml } from '../../src/components/difference-html.ts';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';

const site = inject('demoSite');
/** Some of the aircraft have changed by then. */
const DAY = '2027-03-01';
const fileOf = (name: string): string => readFileSync(join(site, name), 'utf8');
const scope: { switchleafComparison?: Parameters<typeof readComparison>[0] } = {};
runInNewContext(fileOf('compare-data.js'), scope);
const packed = scope.switchleafComparison as Parameters<typeof readComparison>[0];
const fleet = readComparison(JSON.parse(JSON.stringify(packed)));
const { aircraft } = fleet;

let browser: Browser;
let context: BrowserContext;
let troubles: string[];
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());
beforeEach(async () => {
  troubles = [];
  context = await browser.newContext({ viewport: { width: 390, height: 844 }, timezoneId: 'UTC' });
});
afterEach(() => context.close());

async function open(address: string): Promise<Page> {
  const page = await context.newPage();
  page.on('console', (message) => troubles.push(message.text()));
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(pathToFileURL(site).href)) troubles.push(`elsewhere: ${request.url()}`);
  });
  await page.clock.setFixedTime(new Date(`${DAY}T09:00:00Z`));
  await page.goto(pathToFileURL(join(site, 'index.html')).href.replace(/index\.html$/, address));
  return page;
}

/** Two aircraft of unlike fits, by a fixed sequence of numbers (a linear congruential generator; common practice, no source). */
function drawn(seed: number): [here: string, there: string] {
  let state = seed;
  const next = (): string => {
    state = (state * 1103515245 + 12345) % 2 ** 31;
    return aircraft[state % aircraft.length]?.serial ?? '';
  };
  for (;;) {
    const [here, there] = [next(), next()];
    if ((compareAircraft(fleet, [here, there], DAY)?.panels.length ?? 0) > 0) return [here, there];
  }
}

/** The text of what a page says, and of what it must say. Marks of addresses, which come after it, are left out. */
async function texts(page: Page, serials: readonly [string, string]): Promise<[found: string, wanted: string]> {
  const view = compareAircraft(fleet, serials, DAY);
  if (!view) throw new Error('an aircraft is not there');
  await page.waitForFunction(
    (names) => document.querySelector('.result h2')?.textContent === names,
    view.names.join(' and '),
  );
  return page.evaluate(
    (html) => {
      const wanted = document.createElement('div');
      wanted.innerHTML = html;
      const found = document.querySelector('.result')?.cloneNode(true) as Element;
      for (const mark of found.querySelectorAll('.mark')) mark.remove();
      return [found.textContent ?? '', wanted.textContent ?? ''];
    },
    comparisonHtml(view, COMPARE),
  );
}

it('is three taps from the start page, and the address brings anybody to the same', async () => {
  const serials = drawn(6);
  const page = await open('index.html');
  await page.click('.look-up a:text-is("Any two aircraft")');
  await page.selectOption('#compare-here', serials[0]);
  await page.selectOption('#compare-there', serials[1]);
  const [found, wanted] = await texts(page, serials);
  expect(found).toBe(wanted);
  expect(new URL(page.url()).hash).toBe(`#${serials.join('/')}`);
  await page.goBack();
  await page.waitForSelector('.result h2', { state: 'detached' });
  for (const seed of [7, 8]) {
    const others = drawn(seed);
    const [said, meant] = await texts(await open(`compare.html#${others.join('/')}`), others);
    expect(said).toBe(meant);
  }
  expect(troubles).toEqual([]);
});

it('is chosen with the keyboard alone, and a part of it has an address', async () => {
  const page = await open('compare.html');
  // Not by letters, which count as one word only when they follow each other fast.
  for (const [id, keys] of [
    ['compare-here', ['ArrowDown', 'ArrowDown']],
    ['compare-there', ['End']],
  ] as const) {
    await page.focus(`#${id}`);
    for (const key of keys) await page.keyboard.press(key);
  }
  const lists = await page.$$eval<{ value: string; all: string[] }[], HTMLSelectElement>('.choices select', (selects) =>
    selects.map(({ value, options }) => ({ value, all: [...options].map((one) => one.value).filter(Boolean) })),
  );
  const serials = [lists[0]?.value ?? '', lists[1]?.value ?? ''] as const;
  expect(serials).toEqual([lists[0]?.all[1], lists[1]?.all.at(-1)]);
  const [found, wanted] = await texts(page, serials);
  expect(found).toBe(wanted);
  const ids = await page.$$eval('.result [id]', (parts) => parts.map(({ id }) => id));
  expect(ids.every((id) => id.startsWith(`${serials.join('/')}/`))).toBe(true);
  expect(new Set(ids).size).toBe(ids.length);
  const part = await open(`compare.html#${ids.at(-1)}`);
  await texts(part, serials);
  expect(
    await part.evaluate(
      (id) => (document.getElementById(id)?.getBoundingClientRect().top ?? -1) >= 0,
      ids.at(-1) ?? '',
    ),
  ).toBe(true);
  expect(await part.evaluate(() => scrollY)).toBeGreaterThan(0);
});

it('says plainly what it does not know, and understands registrations', async () => {
  const [one, two] = aircraft;
  const page = await open('compare.html#QQ-ZZZ/T-9');
  expect(await page.textContent('.found')).toBe(
    'This book has no aircraft “QQ-ZZZ” and no aircraft “T-9”. Choose another one.',
  );
  const same = await open(`compare.html#${one?.serial}/${one?.registration.toLowerCase()}`);
  expect(await same.textContent('.found')).toContain('the same aircraft twice');
  const named = await open(`compare.html#${one?.registration}/${two?.registration}`);
  const [found, wanted] = await texts(named, [one?.serial ?? '', two?.serial ?? '']);
  expect(found).toBe(wanted);
  const own = await open(`aircraft/${two?.serial}.html`);
  await own.click(`text=Compare ${two?.registration} with another`);
  // The other page comes, and its data.
  const chosen = (serial: string | undefined) =>
    (document.getElementById('compare-here') as HTMLSelectElement | null)?.value === serial;
  await own.waitForFunction(chosen, two?.serial);
  expect(await own.textContent('.found')).toBe('');
});

it('lists the aircraft as they are on the day of reading, those together that are fitted alike then', async () => {
  const on = (day: string) => (holder: Holder) => (holder.from ?? '') <= day && day <= (holder.until ?? '9999');
  const optionsOn = (day: string): Map<string, string> =>
    new Map(
      fleet.fits.flatMap(({ options, holders }) =>
        holders.filter(on(day)).map((holder) => [holder.aircraft.serial, JSON.stringify([...options])]),
      ),
    );
  const [now, then] = [optionsOn(packed.asOf), optionsOn(DAY)];
  expect([...then].filter(([serial, fit]) => now.get(serial) !== fit).length).toBeGreaterThan(2);
  const page = await open(`compare.html#with-${aircraft[3]?.serial}`);
  expect(await page.textContent('#compare-hint time')).toBe(DAY);
  expect(await page.inputValue('#compare-here')).toBe(aircraft[3]?.serial);
  for (const list of ['#compare-here', '#compare-there']) {
    const groups = await page.$$eval(`${list} optgroup`, (all) =>
      all.map((group) => [...group.querySelectorAll('option')].map(({ value, text }) => ({ value, text }))),
    );
    expect(
      groups
        .flat()
        .map(({ text }) => text)
        .sort(),
    ).toEqual(aircraft.map((one) => registrationOn(one, DAY)).sort());
    const several = groups.filter(
      (group) => group.length > 1 && new Set(group.map(({ value }) => then.get(value))).size === 1,
    );
    const alike = Map.groupBy(
      aircraft.filter(({ kind }) => kind === 'aircraft'),
      ({ serial }) => then.get(serial),
    );
    expect(several.length).toBe([...alike.values()].filter((each) => each.length > 1).length);
  }
});

it('shows an aircraft as it is on the day of reading, and says since when', async () => {
  const changed = fleet.fits.flatMap(({ holders }) => holders).find(({ from = '9999' }) => from <= DAY);
  const other = aircraft.find((one) => one !== changed?.aircraft);
  const page = await open(`compare.html#${changed?.aircraft.serial}/${other?.serial}`);
  await page.waitForSelector('.result h2');
  expect(await page.textContent('.result')).toContain('is compared as it is since');
  expect(await page.textContent('.found')).toBe(`As on ${DAY}, the day of reading.`);
});

it('has no fault that axe-core finds, by day and by night, fits every screen, and can be printed', async () => {
  await context.close();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP: true, timezoneId: 'UTC' });
  const serials = drawn(10);
  const page = await open(`compare.html#${serials.join('/')}`);
  await texts(page, serials);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await axeFaults(page)).toEqual([]);
  }
  for (const width of [320, 390, 820]) {
    await page.setViewportSize({ width, height: 900 });
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      String(width),
    ).toBeLessThanOrEqual(0);
  }
  const heights = await page.$$eval('.compare select', (all) => all.map((one) => one.getBoundingClientRect().height));
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  await page.emulateMedia({ media: 'print' });
  expect(await page.isVisible('.result h2')).toBe(true);
  expect(await page.isVisible('#compare-here')).toBe(false);
  expect(await page.isVisible('.compared')).toBe(false);
});

it('begins with my aircraft and the other one, of which every page says what is otherwise', async () => {
  const [here, there] = drawn(11);
  const page = await open('index.html');
  await page.click('button.own');
  await page.click(`dialog.fleet button[value="${here}"]`);
  await page.click('button.own');
  await page.selectOption('#other-aircraft', there);
  await page.click('dialog.fleet .other a');
  const [found, wanted] = await texts(page, [here, there]);
  expect(found).toBe(wanted);
  const name = aircraft.find(({ serial }) => serial === there)?.registration;
  const differing = compareAircraft(fleet, [here, there], DAY)?.panels.flatMap(({ differences }) => differences)[0];
  const item = await open(differing?.item.to ?? '');
  const lines = await item.$$eval('.beside', (all) => all.map(({ textContent }) => textContent));
  expect(lines).toContain(`Otherwise on ${name}:`);
  expect(lines.filter((line) => line !== `Otherwise on ${name}:` && line !== `The same on ${name}.`)).toEqual([]);
});

it('leads to pages that need no script where none runs', async () => {
  await context.close();
  context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(pathToFileURL(join(site, 'compare.html')).href);
  expect(await page.isVisible('.needs-script')).toBe(true);
  expect(await page.isVisible('#compare-here')).toBe(false);
  expect(await page.isVisible('.compared a[href="differences.html"]')).toBe(true);
});

it('takes, with the entries of the search, at most 120 KB that are loaded on demand', () => {
  const sizes = ['compare.js', 'compare-data.js', 'search-data.js'].map((name) => gzipSync(fileOf(name)).length);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(120_000);
  expect(fileOf('compare.js')).not.toMatch(/SL\d{3}|ZodError/);
});
