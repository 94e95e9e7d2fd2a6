/**
 * What readers come for, each time from the start page of the demo: with a thumb on a phone, at most two taps to an answer and
 * three to a comparison, and with the keyboard alone. What is looked up is drawn from the book.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import type { SearchEntry } from '../../src/book/index.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { Keys, type Reader, Thumb } from '../helpers/readers.ts';
import { isLong } from '../helpers/trials.ts';

const root = inject('demoSite');
const start = pathToFileURL(join(root, 'index.html')).href;
const fileOf = (name: string): string => readFileSync(join(root, name), 'utf8');
const data = fileOf('search-data.js');
const entries: SearchEntry[] = JSON.parse(data.slice(data.indexOf('['), data.lastIndexOf(']') + 1));
const ofKind = (kind: RegExp): SearchEntry[] => entries.filter((entry) => kind.test(entry.kind));
/** The ids on a page that begin so. */
const idsOn = (name: string, lead: string): string[] =>
  [...fileOf(name).matchAll(new RegExp(` id="(${lead}[a-z0-9-]+)"`, 'g'))].map(([, id = '']) => id);
const losses = idsOn('supplies.html', 'with-').filter((id) => !id.endsWith('-sometimes'));
const legends = idsOn('legends.html', 'legend-');
const fleet = ofKind(/^(aircraft|training device)$/);
const pairs = fleet.flatMap((one) => fleet.filter((other) => other !== one).map((other) => [one, other] as const));

interface Task {
  readonly asks: string;
  readonly most: number;
  readonly does: (reader: Reader) => Promise<void>;
}

/** The first of what leads there that can be seen. */
const to = (page: Page, address: string): Locator =>
  page.locator(`main a[href="${address}"]:visible, main a[href$="/${address}"]:visible`).first();

/** Along the way of links, by the shortest that is in sight. */
async function follow(reader: Reader, ...way: readonly string[]): Promise<void> {
  const last = way.at(-1) ?? '';
  for (const address of way) {
    if ((await to(reader.page, last).count()) > 0) break;
    await arrive(reader, address);
  }
  if (!reader.page.url().endsWith(last)) await arrive(reader, last);
}
async function arrive(reader: Reader, address: string): Promise<void> {
  await reader.press(to(reader.page, address));
  await reader.page.waitForURL((url) => url.href.endsWith(address));
}

/** The page of the thing is there, and on it what answers, without anything to be opened. */
async function expectPage({ page }: Reader, title: string, answer: string): Promise<void> {
  await page.waitForFunction((wanted) => document.querySelector('h1')?.textContent === wanted, title);
  expect(await page.locator(`main ${answer}:visible`).count(), `${answer} of ${title}`).toBeGreaterThan(0);
}
/** The part is in sight, and its answer stands in it. */
async function expectPart({ page }: Reader, id: string, answer: string): Promise<void> {
  await page.waitForFunction((part) => {
    const { top = -1 } = document.getElementById(part)?.getBoundingClientRect() ?? {};
    return top >= 0 && top < innerHeight / 2;
  }, id);
  expect(await page.locator(`#${id} ${answer}:visible`).count(), `${answer} of ${id}`).toBeGreaterThan(0);
}

const choose = chooser(random(20261));
const drawn = <T>(from: readonly T[], count: number, task: (one: T) => Task): Task[] => {
  expect(from.length).toBeGreaterThan(count);
  return choose.some(from, count).map(task);
};
const panelOf = ({ place }: SearchEntry): string =>
  entries.find(({ kind, title }) => kind === 'panel' && title === place)?.to ?? '';
const anchorIn = ({ to: address }: SearchEntry, lead: string): string =>
  `${lead}${address.replace(/^.*\/|\.html$/g, '')}`;

function tasks(count: number): Task[] {
  const STATES = '.attribute :is(table, .constant, .state)';
  return [
    ...drawn(ofKind(/^control$/), count + 1, (entry) => ({
      asks: `what ${entry.title} does`,
      most: 2,
      does: async (reader) => {
        await follow(reader, panelOf(entry), entry.to);
        await expectPage(reader, entry.title, '.answer');
      },
    })),
    ...drawn(ofKind(/^(light|sign|annunciator)$/), count + 1, (entry) => ({
      asks: `what ${entry.title} does`,
      most: 2,
      does: async (reader) => {
        await follow(reader, panelOf(entry), entry.to);
        await expectPage(reader, entry.title, STATES);
      },
    })),
    ...drawn(ofKind(/ message$/), count, (entry) => ({
      asks: `what the message ${entry.title} means`,
      most: 2,
      does: async (reader) => {
        const id = anchorIn(entry, 'message-');
        await follow(reader, 'messages.html', `#${id}`);
        await expectPart(reader, id, '.occasions');
      },
    })),
    ...drawn(legends, count, (id) => ({
      asks: `what ${id} means`,
      most: 2,
      does: async (reader) => {
        await follow(reader, 'legends.html', `#${id}`);
        await expectPart(reader, id, '.what');
      },
    })),
    ...drawn(losses, count, (id) => ({
      asks: `what is lost ${id}`,
      most: 2,
      does: async (reader) => {
        await follow(reader, 'supplies.html', `#${id}`);
        await expectPart(reader, id, ':is(dl, table)');
      },
    })),
    ...drawn(ofKind(/^aircraft$/), count, (entry) => ({
      asks: `which options ${entry.title} has`,
      most: 2,
      does: async (reader) => {
        await follow(reader, entry.to);
        await expectPage(reader, entry.title, '#options td[data-column="Value"]');
      },
    })),
    ...drawn(ofKind(/^(condition|option|sequence|latch|sound|supply)$/), count, (entry) => ({
      asks: `what ${entry.title} is`,
      most: 2,
      does: async (reader) => {
        await follow(reader, 'index-of-terms.html', entry.to);
        await expectPage(reader, entry.title, 'section :is(table, dl, ul, p)');
      },
    })),
    ...drawn(entries, count, (entry) => ({
      asks: `where ${entry.title} is found`,
      most: 2,
      does: async (reader) => {
        await reader.press(reader.page.locator('button.find'));
        await reader.write(entry.title);
        const result = reader.page.locator(
          `[role="option"][data-to="${entry.to}${entry.anchor ? `#${entry.anchor}` : ''}"]`,
        );
        await result.waitFor();
        await (reader instanceof Thumb ? reader.press(result) : pickByArrows(reader.page, result));
        await reader.page.waitForURL((url) => url.pathname.endsWith(entry.to));
      },
    })),
    ...drawn(pairs, count, ([one, other]) => ({
      asks: `how ${one.title} differs from ${other.title}`,
      most: 3,
      does: async (reader) => {
        await follow(reader, 'compare.html');
        await reader.choose(reader.page.locator('#compare-here'), one.words?.[0] ?? '');
        await reader.choose(reader.page.locator('#compare-there'), other.words?.[0] ?? '');
        const names = `${one.title} and ${other.title}`;
        await reader.page.waitForFunction((both) => document.querySelector('.result h2')?.textContent === both, names);
        expect(await reader.page.isVisible('.result > :nth-child(2)')).toBe(true);
      },
    })),
    ...drawn(idsOn('seen.html', 'see-legend-'), 1, (id) => ({
      asks: `what is meant by what I see: ${id}`,
      most: 2,
      does: async (reader) => {
        await follow(reader, 'seen.html');
        await reader.press(reader.page.locator(`#${id} button`).first());
        await reader.page.waitForSelector('.what-i-see .answer > *');
      },
    })),
    ...drawn(idsOn('procedures/line-flight.html', 'stage-'), 1, (id) => ({
      asks: `what is lit in ${id}`,
      most: 2,
      does: async (reader) => {
        await follow(reader, 'procedures/line-flight.html', `#${id}`);
        await expectPart(reader, id, ':is(table, dl, ul)');
      },
    })),
    ...drawn(ofKind(/^aircraft$/), 1, (entry) => ({
      asks: `everything for ${entry.title}`,
      most: 2,
      does: async (reader) => {
        await reader.press(reader.page.locator('button.own'));
        await reader.press(reader.page.locator(`dialog.fleet button[value="${entry.words?.[0]}"]`));
        await reader.page.waitForFunction(
          (name) => document.querySelector('button.own.chosen')?.textContent?.startsWith(name),
          entry.title,
        );
      },
    })),
  ];
}

async function pickByArrows(page: Page, result: Locator): Promise<void> {
  const isChosen = async (): Promise<boolean> => (await result.getAttribute('aria-selected')) === 'true';
  for (let step = 0; step < 12 && !(await isChosen()); step += 1) await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

describe('with a thumb on a phone', () => {
  let page: Page;
  beforeAll(async () => {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
    page = await context.newPage();
  });
  afterAll(() => page?.context().close());

  it.each(tasks(isLong ? 2 : 1))('from the start page: $asks, in at most $most taps', async ({ most, does }) => {
    await page.goto(start);
    const thumb = new Thumb(page);
    await does(thumb);
    expect(thumb.taps).toBeGreaterThan(0);
    expect(thumb.taps).toBeLessThanOrEqual(most);
  });
});

describe('with the keyboard alone', () => {
  let page: Page;
  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  });
  afterAll(() => page?.close());

  /** The comparison, and of the others, which are all done with a thumb above, every third. */
  const some = tasks(1).filter(({ most }, at) => isLong || most === 3 || at % 3 === 1);

  it.each(some)('from the start page: $asks, with the focus always in sight', async ({ does }) => {
    await page.goto(start);
    const keys = new Keys(page);
    await keys.next();
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('skip');
    await page.keyboard.press('Enter');
    await does(keys);
    expect([...keys.unseen]).toEqual([]);
  });

  it('leads through a page to its end and out of it', async () => {
    await page.goto(start);
    const keys = new Keys(page);
    const all = await page.locator('a:visible, button:visible, summary:visible').count();
    let steps = 0;
    while (!(await keys.next()).left) steps += 1;
    // The link that leads past the contents can be seen while it has the focus only.
    expect(steps).toBeGreaterThanOrEqual(all);
    expect([...keys.unseen]).toEqual([]);
  });

  it.each(['button.find', 'button.own', '.to-remark button'])(
    '%s opens something, which gives the focus back',
    async (opener) => {
      await page.goto(start);
      await page.focus(opener);
      await page.keyboard.press('Enter');
      const isWithin = (): boolean => document.activeElement?.closest('dialog[open]') != null;
      await page.waitForFunction(isWithin);
      const keys = new Keys(page);
      for (let step = 0; step < 4; step += 1)
        expect(await keys.next().then(({ left }) => left || page.evaluate(isWithin))).toBe(true);
      expect([...keys.unseen]).toEqual([]);
      await page.keyboard.press('Escape');
      expect(await page.isVisible('dialog')).toBe(false);
      expect(await page.evaluate((button) => document.activeElement?.matches(button), opener)).toBe(true);
    },
  );
});
