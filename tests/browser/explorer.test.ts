/** The explorer as a trainer uses it, in a folder without a server: what it says of each case is what the book's functions say. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runInNewContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, it } from 'vitest';
import { type CaseView, type FollowedCase, followedCase, readExplorer } from '../../src/book/index.ts';
import { caseHtml } from '../../src/components/case-html.ts';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';

const site = inject('demoSite');
const DAY = '2027-03-01';
const fileOf = (name: string): string => readFileSync(join(site, name), 'utf8');
const scope: {
  switchleafComparison?: Parameters<typeof readExplorer>[0];
  switchleafExplorer?: Parameters<typeof readExplorer>[1];
} = {};
runInNewContext(fileOf('compare-data.js'), scope);
runInNewContext(fileOf('explorer-data.js'), scope);
const fleet = readExplorer(
  ...(JSON.parse(JSON.stringify([scope.switchleafComparison, scope.switchleafExplorer])) as Parameters<
    typeof readExplorer
  >),
);
const SERIAL = fleet.aircraft[0]?.serial ?? '';
const viewOf = (steps: readonly string[], serial = SERIAL): CaseView =>
  (followedCase(fleet, serial, DAY, steps) as FollowedCase).view;

let browser: Browser;
let context: BrowserContext;
let troubles: string[];
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());
beforeEach(async () => {
  troubles = [];
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, timezoneId: 'UTC' });
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

/** The page shows the case of these steps: its words, and the settings that are chosen and that cannot be. */
async function expectCase(page: Page, steps: readonly string[], serial = SERIAL): Promise<void> {
  const view = viewOf(steps, serial);
  const html = caseHtml(view);
  await page.waitForFunction(
    (wanted) => {
      const text = (parts: string): string => {
        const made = document.createElement('div');
        made.innerHTML = parts;
        return made.textContent ?? '';
      };
      const found = document.querySelector('.case .now')?.textContent;
      return found === text(wanted.now) && document.querySelector('.rest')?.textContent === text(wanted.rest);
    },
    html,
    { timeout: 10_000 },
  );
  const radios = await page.$$eval<{ name: string; checked: boolean; disabled: boolean }[], HTMLInputElement>(
    '.movable input[type="radio"]',
    (all) => all.map(({ name, checked, disabled }) => ({ name, checked, disabled })),
  );
  const wanted = view.inputs.flatMap(({ id, settings }) =>
    settings.map(({ chosen, barred }) => ({ name: id, checked: chosen, disabled: barred })),
  );
  const order = (all: typeof radios): Map<string, typeof radios> => Map.groupBy(all, ({ name }) => name);
  expect(order(radios)).toEqual(order(wanted));
}

const radio = (step: string): string => {
  const [id = '', value = ''] = step.split('=');
  const input = viewOf([]).inputs.find((each) => each.id === `set-${id}`);
  const at = input?.settings.findIndex((setting) => setting.step === step) ?? -1;
  if (at < 0) throw new Error(`${id} has no ${value}`);
  return `#set-${id} label:nth-child(${at + 1})`;
};
const addressOf = (steps: readonly string[], serial = SERIAL): string =>
  `explorer.html#${[serial, ...steps].join('/')}`;
/** The demo's APU is started, and the rest follows by itself. */
const START = ['battery-switch=ON', 'apu-control=START'];

it('is two taps from the start page to an aircraft, and each movement says what it changed', async () => {
  const page = await open('index.html');
  await page.click('.look-up a:text-is("Explorer")');
  await page.selectOption('#explorer-aircraft', SERIAL);
  await expectCase(page, []);
  const steps: string[] = [];
  for (const step of START) {
    await page.click(radio(step));
    steps.push(step);
    await expectCase(page, steps);
  }
  const { changed, moved, brief } = viewOf(steps);
  expect(changed.length).toBeGreaterThan(0);
  expect(moved.length).toBeGreaterThan(1);
  expect(await page.textContent('.heard')).toContain(brief);
  expect(page.url()).toMatch(new RegExp(`#${[SERIAL, ...steps].join('/')}$`));
  expect(troubles).toEqual([]);
});

it('lets go of what is held, waits, and takes every step back', async () => {
  const page = await open(addressOf(START));
  await expectCase(page, START);
  await page.click('#set-apu-control .more button');
  const letGo = [...START, viewOf(START).inputs.find(({ id }) => id === 'set-apu-control')?.letGo?.step ?? ''];
  await expectCase(page, letGo);
  const [wait] = viewOf(letGo).waits;
  await page.click('.waits button');
  await expectCase(page, [...letGo, wait?.step ?? '']);
  // What was pressed is gone; the focus is at what came of it.
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('What changed last');
  await page.goBack();
  await expectCase(page, letGo);
  await page.click('.undo');
  await expectCase(page, START);
  await page.click('.again');
  await expectCase(page, []);
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('explorer-aircraft');
  expect(troubles).toEqual([]);
});

it('says why something cannot be, and moves what is in the way', async () => {
  const page = await open(addressOf([]));
  await expectCase(page, []);
  const { inputs } = viewOf([]);
  const barred = inputs.filter((input) => input.barred.some(({ along }) => along));
  expect(barred.length).toBeGreaterThan(1);
  const [input] = barred;
  const along = input?.barred.find((each) => each.along)?.along?.step ?? '';
  await page.$$eval<void, HTMLDetailsElement>('.movable details', (all) =>
    all.forEach((one) => {
      one.open = true;
    }),
  );
  expect(await page.textContent(`#${input?.id} .more`)).toContain('cannot be with');
  await page.click(`#${input?.id} .why button`);
  await expectCase(page, [along]);
});

it('shows what a tolerance leaves open, and what comes of either', async () => {
  const number = viewOf([])
    .inputs.flatMap(({ settings }) => settings.map(({ step }) => step))
    .find((step) => {
      const found = followedCase(fleet, SERIAL, DAY, [step]);
      return found?.followed === 1 && found.view.open.length > 0;
    });
  expect(number).toBeDefined();
  const page = await open(addressOf([number ?? '']));
  await expectCase(page, [number ?? '']);
  expect(await page.textContent('.open')).toContain('Within its tolerance');
  await page.click('.open .answers button');
  await expectCase(page, [number ?? '', viewOf([number ?? '']).open[0]?.answers[0]?.step ?? '']);
});

it('is done with the keyboard alone, and the focus stays where it is', async () => {
  const page = await open('explorer.html');
  await page.focus('#explorer-aircraft');
  await page.keyboard.press('ArrowDown');
  const serial = await page.inputValue('#explorer-aircraft');
  await expectCase(page, [], serial);
  await page.focus('#set-battery-switch input:checked');
  await page.keyboard.press('ArrowDown');
  const at = viewOf([], serial).inputs.find(({ id }) => id === 'set-battery-switch')?.settings ?? [];
  const next = at[(at.findIndex(({ chosen }) => chosen) + 1) % at.length]?.step ?? '';
  await expectCase(page, [next], serial);
  expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).name)).toBe('set-battery-switch');
  expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).checked)).toBe(true);
  await page.focus('details.everything summary');
  await page.keyboard.press('Enter');
  expect(await page.isVisible('.everything section')).toBe(true);
});

it('begins with my aircraft, and brings the control into view that a page led from', async () => {
  const mine = fleet.aircraft[3]?.serial ?? '';
  const page = await open('index.html');
  await page.click('button.own');
  await page.click(`dialog.fleet button[value="${mine}"]`);
  const control = await open('controls/dome.html');
  await control.click('.try a');
  await expectCase(control, [], mine);
  const top = await control.evaluate(() => document.getElementById('set-dome')?.getBoundingClientRect().top ?? -1);
  expect(top).toBeGreaterThanOrEqual(0);
  expect(top).toBeLessThan(450);
});

it('is led to from the page of an aircraft, with it chosen', async () => {
  const [, other] = fleet.aircraft;
  const page = await open(`aircraft/${other?.serial}.html`);
  await page.click('main a[href*="explorer.html#"]');
  await expectCase(page, [], other?.serial);
  await page.click(radio('battery-switch=ON'));
  await expectCase(page, ['battery-switch=ON'], other?.serial);
});

it('says what is heard', async () => {
  const steps = ['apu-control=START', 'apu-control=RUN', 'wait~apu~opening~tripped'];
  const [sound] = viewOf(steps).sounds;
  expect(sound?.words).toBeTruthy();
  const page = await open(addressOf(steps.slice(0, -1)));
  await expectCase(page, steps.slice(0, -1));
  await page.click('.waits button');
  await expectCase(page, steps);
  expect(await page.textContent('.sounding')).toContain(sound?.words);
  expect(await page.textContent('.heard')).toContain(sound?.what.title);
});

it('asks for an aircraft first where none is mine, and then brings the control into view', async () => {
  const page = await open('explorer.html#set-dome');
  expect(await page.textContent('.explorer .found')).toContain('Choose an aircraft');
  await page.waitForFunction(() => {
    const { top = -1 } = document.activeElement?.getBoundingClientRect() ?? {};
    return document.activeElement?.id === 'explorer-aircraft' && top >= 0 && top < innerHeight;
  });
  await page.selectOption('#explorer-aircraft', SERIAL);
  await expectCase(page, []);
  await page.waitForFunction(() => (document.getElementById('set-dome')?.getBoundingClientRect().top ?? -1) < 450);
});

it('says plainly what it does not know in an address', async () => {
  const page = await open(addressOf([], 'QQ-ZZZ'));
  expect(await page.textContent('.explorer .found')).toBe('This book has no aircraft “QQ-ZZZ”. Choose another one.');
  const named = await open(addressOf(['battery-switch=ON'], fleet.aircraft[0]?.registration.toLowerCase()));
  await expectCase(named, ['battery-switch=ON']);
  const damaged = await open(addressOf(['battery-switch=ON', 'battery-switch=%E0%A4%A', 'apu-control=START']));
  await expectCase(damaged, ['battery-switch=ON']);
  expect(await damaged.textContent('.explorer .found')).toContain('cannot be followed to its end');
  expect(troubles).toEqual([]);
});

it('keeps the answer in sight on a phone while something far down is moved', async () => {
  const page = await open(addressOf([]));
  await page.setViewportSize({ width: 390, height: 844 });
  await expectCase(page, []);
  await page.$$eval<void, HTMLDetailsElement>('.movable details', (all) =>
    all.forEach((one) => {
      one.open = true;
    }),
  );
  await page.click('#set-dome label:nth-child(2)');
  await page.waitForSelector('.case h2:text-is("What changed last")');
  const { top, bottom } = await page.$eval('.case .last', (last) => last.getBoundingClientRect().toJSON());
  expect(top).toBeGreaterThanOrEqual(-1);
  expect(bottom).toBeLessThan(844 / 2);
  const small = await page.$$eval(
    '.movable label, .movable a, .case .name a, .rest .name a, .case button, .explorer button:not([hidden]), .movable summary',
    (all) =>
      all.map((one) => one.getBoundingClientRect()).filter(({ width, height }) => width > 0 && height < 44).length,
  );
  expect(small).toBe(0);
});

it('has no fault that axe-core finds, by day and by night, fits every screen, and prints the case', async () => {
  await context.close();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 }, bypassCSP: true, timezoneId: 'UTC' });
  const page = await open(addressOf(START));
  await expectCase(page, START);
  await page.$$eval<void, HTMLDetailsElement>('main details', (all) =>
    all.forEach((one) => {
      one.open = true;
    }),
  );
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
  await page.emulateMedia({ media: 'print' });
  for (const part of ['.case .last', '.shows', '.set', '.everything section'])
    expect(await page.isVisible(part), part).toBe(true);
  for (const part of ['.movable', '#explorer-aircraft', '.waits button'])
    expect(await page.isVisible(part), part).toBe(false);
});

it('leads to the pages of controls where no script runs', async () => {
  await context.close();
  context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(pathToFileURL(join(site, 'explorer.html')).href);
  expect(await page.isVisible('.needs-script')).toBe(true);
  expect(await page.isVisible('#explorer-aircraft')).toBe(false);
  expect(await page.isVisible('#set-dome a[href="controls/dome.html"]')).toBe(true);
});

it('takes, with the words that it shares with comparing, at most 60 KB that are loaded on demand', () => {
  const sizes = ['explorer.js', 'explorer-data.js', 'compare-data.js'].map((name) => gzipSync(fileOf(name)).length);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(60_000);
  expect(fileOf('explorer.js')).not.toMatch(/SL\d{3}|ZodError/);
});
