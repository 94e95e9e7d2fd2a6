/** The demo as a reader has it, before axe-core: the largest page of each kind. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { isLong } from '../helpers/trials.ts';

const root = inject('demoSite');
const largest = new Map<string, { address: string; size: number }>();
for (const address of readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) =>
  path.endsWith('.html'),
)) {
  const html = readFileSync(join(root, address), 'utf8');
  const kind = /<main id="main" class="page-([a-z-]+)"/.exec(html)?.[1] ?? address;
  if (html.length > (largest.get(kind)?.size ?? 0)) largest.set(kind, { address, size: html.length });
}
// A page at a former address leads on at once.
largest.delete('moved');

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

it('has pages of many kinds', () => {
  expect(largest.size).toBeGreaterThan(25);
});

const VIEWS = [
  ['light', 1280],
  ['dark', 390],
] as const;

/** Each kind wide by day or narrow by night, in turns; both in the long run. Colours are held to each other in site/contrast. */
const looks = [...largest].flatMap(([kind, { address }], at) =>
  VIEWS.filter((_, view) => isLong || view === at % 2).map((view) => [kind, ...view, address] as const),
);

it.each(looks)('%s, %s, %d wide: no fault that axe-core finds', async (_kind, colorScheme, width, address) => {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme, bypassCSP: true });
  await page.goto(pathToFileURL(join(root, address)).href);
  expect(await axeFaults(page), address).toEqual([]);
  await page.close();
});
