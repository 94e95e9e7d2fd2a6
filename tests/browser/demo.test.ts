/** The demo as a reader has it, before axe-core: a page of middle size of each kind, and in the long run the largest. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { everyKind } from '../book/every-kind.ts';
import { inTimeBook } from '../book/in-time.ts';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { isLong } from '../helpers/trials.ts';
import { sampleBook } from '../site/sample-book.ts';

const root = inject('demoSite');
const pages = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.html'))
  .map((address) => {
    const html = readFileSync(join(root, address), 'utf8');
    return { address, size: html.length, kind: /<main id="main" class="page-([a-z-]+)"/.exec(html)?.[1] ?? address };
  })
  // A page at a former address leads on at once.
  .filter(({ kind }) => kind !== 'moved')
  .sort((a, b) => a.size - b.size || (a.address < b.address ? -1 : 1));
const looked = new Map(
  [...Map.groupBy(pages, ({ kind }) => kind)].map(([kind, some]) => [
    kind,
    some.at(isLong ? -1 : some.length >> 1)?.address ?? '',
  ]),
);

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

it('has pages of every kind', () => {
  const kinds = [sampleBook, everyKind, inTimeBook().book].flatMap((book) => book.pages.map(({ kind }) => kind));
  expect([...new Set(kinds)].filter((kind) => !looked.has(kind) && kind !== 'moved')).toEqual([]);
  expect(looked.size).toBeGreaterThan(25);
});

const VIEWS = [
  ['light', 1280],
  ['dark', 390],
  ['dark', 1280],
  ['light', 390],
] as const;

/** Takes longer than all else, and colours are held to each other in site/contrast. */
const CONTRAST = { 'color-contrast': { enabled: false }, 'color-contrast-enhanced': { enabled: false } } as const;

/** Each kind wide by day and narrow by night; every way in the long run. */
const looks = [...looked].flatMap(([kind, address]) =>
  VIEWS.filter((_, view) => isLong || view < 2).map((view) => [kind, ...view, address] as const),
);

describe.each(looks)('%s, %s, %d wide', (_kind, colorScheme, width, address) => {
  let page: Page;
  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme, bypassCSP: true });
    await page.goto(pathToFileURL(join(root, address)).href);
  });
  afterAll(() => page?.close());

  it('has no fault that axe-core finds, and nothing undecided', async () => {
    expect(await axeFaults(page, 'html', isLong ? {} : CONTRAST), address).toEqual([]);
  });

  it.runIf(isLong || width === 390)(
    'can be read at 400 %: nothing sideways, nothing that stays in the way, each row with what it is about',
    async () => {
      // A window of 1280 by 1024 (WCAG 2.2, 1.4.10).
      await page.setViewportSize({ width: 320, height: 256 });
      // Scripts hear of the new size when the next frame is drawn.
      await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
      const found = await page.evaluate(() => {
        const seen = [...document.querySelectorAll<HTMLElement>('body *')].filter((each) => each.checkVisibility());
        const boxes = '.wide, .drawings, svg';
        return {
          sideways: document.documentElement.scrollWidth - innerWidth,
          beyond: seen
            .filter((each) => each.getBoundingClientRect().right > innerWidth + 1 && each.closest(boxes) === null)
            .map(({ outerHTML }) => outerHTML.slice(0, 80)),
          inTheWay: seen
            .filter((each) => /sticky|fixed/.test(getComputedStyle(each).position))
            .filter((each) => each.getBoundingClientRect().height > innerHeight / 3)
            .map(({ outerHTML }) => outerHTML.slice(0, 80)),
          nameless: [...document.querySelectorAll<HTMLTableRowElement>('main tbody tr')]
            .filter((row) => row.checkVisibility())
            .filter(({ cells: [first] }) => !first?.checkVisibility() || first.innerText.trim() === '')
            .map((row) => row.outerHTML.slice(0, 80)),
        };
      });
      expect(found, address).toEqual({ sideways: 0, beyond: [], inTheWay: [], nameless: [] });
    },
  );
});

it('takes what axe-core leaves undecided for a fault, where no check clears it', async () => {
  const page = await browser.newPage();
  await page.setContent(`<!doctype html><html lang="en"><title>t</title><main><h1>t</h1>
    <p style="background: linear-gradient(#fff, #999)">on a picture</p>
    <svg width="200" height="60"><rect width="200" height="60" fill="#666"/><text x="9" y="30">on a shape</text></svg>
    <svg width="200" height="60"><rect width="200" height="60" fill="#eee"/><text x="9" y="30">on another</text></svg>
    <ul style="line-height: 4">${[
      ['One', 'lights/one.html'],
      ['One', 'glossary.html#term-one'],
      ['Two', 'lights/two.html'],
      ['Two', 'lights/other.html'],
    ]
      .map(([name, address]) => `<li><a href="https://book.invalid/${address}">${name}</a></li>`)
      .join('')}</ul></main>`);
  expect((await axeFaults(page)).map((fault) => fault.slice(0, 60))).toEqual([
    'color-contrast, not decided: 0.0: on a picture in <p style="',
    'color-contrast, not decided: 3.7: on a shape in <text x="9" ',
    'identical-links-same-purpose, not decided: Two: https://book',
  ]);
  await page.close();
});
