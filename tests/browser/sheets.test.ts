/**
 * Sheets as a browser composes them: every row there once and in order, nothing cut, the stated number of sheets filled, or a word on what would
 * help. Aircraft, sizes and variants meet pairwise; `--mode long` composes each sheet for every fit on every paper.
 */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { axeFaults } from '../helpers/axe.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { isLong } from '../helpers/trials.ts';

const root = inject('demoSite');

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
});
afterAll(() => browser?.close());

interface Choice {
  readonly for: string;
  readonly size: string;
  readonly orientation: string;
  readonly up: string;
  readonly variant: string;
  readonly sheets?: string;
}

/** Chooses, waits for the pages, and measures them. */
const composed = (choice: Choice) =>
  page.evaluate(async (wanted) => {
    const sheet = document.getElementById('sheet') as HTMLElement;
    const form = sheet.querySelector('form') as HTMLFormElement;
    for (const [key, value] of Object.entries(wanted))
      (form.elements.namedItem(key) as HTMLSelectElement).value = value;
    form.dispatchEvent(new Event('change'));
    while (sheet.dataset['composed'] === undefined) await new Promise((done) => requestAnimationFrame(done));
    const words = (some: Iterable<Element>): string[] => [...some].map((each) => each.textContent ?? '');
    const numberless = (row: Element): string => {
      const copy = row.cloneNode(true) as Element;
      for (const number of copy.querySelectorAll('.blank')) number.remove();
      return copy.textContent ?? '';
    };
    const papers = [...sheet.querySelectorAll<HTMLElement>('.papers > .paper')];
    const zoom = Number(sheet.querySelector<HTMLElement>('.papers')?.style.getPropertyValue('--shown') || 1);
    const isCut = (leaf: HTMLElement): boolean => {
      const foot = leaf.querySelector('footer')?.getBoundingClientRect();
      const whole = leaf.getBoundingClientRect();
      return [...leaf.querySelectorAll('.piece, .piece table, header :is(h2, p)')].some((piece) => {
        const { bottom, right, left } = piece.getBoundingClientRect();
        return bottom > (foot?.top ?? 0) + 0.5 || right > whole.right || left < whole.left;
      });
    };
    const millimetre = (96 / 25.4) * zoom;
    return {
      done: sheet.dataset['composed'] === 'yes',
      status: sheet.querySelector('.composed')?.textContent ?? '',
      rows: words(
        sheet.querySelectorAll('.sheet-topic:not([hidden]) .sheet-block:not([hidden]) tbody > tr:not([hidden])'),
      ),
      drawn: papers.flatMap((paper) => [...paper.querySelectorAll('tbody > tr')].map(numberless)),
      papers: papers.map((paper) => {
        const { width, height } = paper.getBoundingClientRect();
        return [Math.round(width / millimetre), Math.round(height / millimetre)];
      }),
      cut: papers.flatMap((paper) => [...paper.querySelectorAll<HTMLElement>('.leaf')]).filter(isCut).length,
      empty: papers.flatMap((paper) => [...paper.querySelectorAll('.leaf')]).filter((leaf) => !leaf.querySelector('tr'))
        .length,
      alone: papers
        .flatMap((paper) => [...paper.querySelectorAll('.column')])
        .filter((column) => column.lastElementChild && !column.lastElementChild.querySelector('tbody > tr')).length,
      blanks: sheet.querySelectorAll('.papers > .paper .blank').length,
      answers: sheet.querySelectorAll('.papers > .paper td.answer').length,
      keys: sheet.querySelectorAll('.key-papers .key').length,
      named: sheet.querySelector('.leaf-who')?.textContent ?? '',
    };
  }, choice);

const MILLIMETRES: Readonly<Record<string, readonly [number, number]>> = {
  A4: [210, 297],
  A5: [148, 210],
  Letter: [216, 279],
};

function judge(found: Awaited<ReturnType<typeof composed>>, choice: Choice, what: string): void {
  if (!found.done) {
    expect(found.status, what).toMatch(/choose|Choose/);
    expect(found.papers, what).toEqual([]);
    return;
  }
  const [across = 0, down = 0] = MILLIMETRES[choice.size] ?? [];
  const size = choice.orientation === 'portrait' ? [across, down] : [down, across];
  const [, count = ''] = /^Fills (one|\d+) sheet/.exec(found.status) ?? [];
  expect(found.papers, what).toEqual(Array.from({ length: count === 'one' ? 1 : Number(count) }, () => size));
  expect(found.drawn, what).toEqual(found.rows);
  // Fewer rows than pages cannot fill them all.
  const spare = Math.max(0, found.papers.length * Number(choice.up) - found.rows.length);
  expect([found.cut, found.empty, found.alone], `${what}: cut, empty, alone`).toEqual([0, spare, 0]);
  const isWorksheet = choice.variant === 'worksheet';
  expect([found.blanks, found.keys], what).toEqual(isWorksheet ? [found.answers, found.answers] : [0, 0]);
}

const sheets = [
  'differences-from-the-first',
  'emergency-lights-in-all-cases',
  'exterior-at-a-glance',
  'exterior-card',
  'fleet-matrix',
  'flight-by-stage',
  'legends-and-messages',
  'oldest-and-newest',
  'trainer-and-aircraft',
  'walk-round-at-night',
  'walk-round-in-boarding',
];
/** One aircraft of each group that the demo has, as far as they differ in options. */
const AIRCRAFT = ['40112', '40127', '40146', '40155', '40161', '40178', '40185', '40109', '40159', 'T-1'];
const SIZES = ['A4', 'A5', 'Letter'];
const ORIENTATIONS = ['portrait', 'landscape'];
const UPS = ['1', '2'];
const VARIANTS = ['filled', 'worksheet'];

const all: readonly Choice[] = AIRCRAFT.flatMap((serial) =>
  SIZES.flatMap((size) =>
    ORIENTATIONS.flatMap((orientation) =>
      UPS.flatMap((up) => VARIANTS.map((variant) => ({ for: serial, size, orientation, up, variant }))),
    ),
  ),
);

/** So few choices that every two values of different kinds meet in one of them: the next is always the one with most new pairs. */
function pairwise(choices: readonly Choice[]): Choice[] {
  const pairsOf = (choice: Choice): string[] => {
    const values = Object.entries(choice).map(([key, value]) => `${key}=${value}`);
    return values.flatMap((one, at) => values.slice(at + 1).map((other) => `${one} ${other}`));
  };
  const left = new Set(choices.flatMap(pairsOf));
  const chosen: Choice[] = [];
  while (left.size > 0) {
    const news = (choice: Choice): number => pairsOf(choice).filter((pair) => left.has(pair)).length;
    const best = choices.reduce((most, choice) => (news(choice) > news(most) ? choice : most));
    chosen.push(best);
    for (const pair of pairsOf(best)) left.delete(pair);
  }
  return chosen;
}

const pairs = pairwise(all);

describe.each(sheets)('the sheet %s', (name) => {
  it('is composed whole on every paper that is tried, or says what would help', async () => {
    await page.goto(pathToFileURL(join(root, `sheets/${name}.html`)).href);
    const tried = isLong ? all : pairs.filter((_, at) => at % sheets.length === sheets.indexOf(name));
    let composedOnce = false;
    for (const choice of tried) {
      const found = await composed(choice);
      const what = `${name} ${Object.values(choice).join(' ')}: ${found.status}`;
      judge(found, choice, what);
      composedOnce ||= found.done;
      // What is advised helps.
      const [, advised] = /It takes (\d) sheets/.exec(found.status) ?? [];
      if (!advised) continue;
      const helped = await composed({ ...choice, sheets: advised });
      expect(helped.status, what).toMatch(/^Fills/);
      judge(helped, choice, what);
      composedOnce = true;
      await page.selectOption('select[name="sheets"]', { index: 0 });
    }
    expect(composedOnce).toBe(true);
  });
});

describe('a sheet', () => {
  it('is for the aircraft that the address names, and says for which others it is right', async () => {
    await page.goto(`${pathToFileURL(join(root, 'sheets/exterior-card.html')).href}?aircraft=40113`);
    await page.waitForSelector('[data-composed]');
    expect(await page.textContent('.leaf-who')).toMatch(/^QQ-OAB the same on QQ-OAA/);
  });

  it('has no fault that axe-core finds, and tells below its pages what they show, with the links that paper has not', async () => {
    await page.goto(pathToFileURL(join(root, 'sheets/exterior-at-a-glance.html')).href);
    await page.waitForSelector('[data-composed="yes"]');
    expect(await axeFaults(page)).toEqual([]);
    expect(await page.locator('.papers a').count()).toBe(0);
    expect(await page.locator('.sheet-text a:visible').count()).toBeGreaterThan(0);
  });

  it('of the reader’s own brings in what is chosen, and keeps it in the address', async () => {
    await page.goto(`${pathToFileURL(join(root, 'own-sheet.html')).href}?topics=walk-round&sheets=1`);
    await page.waitForSelector('[data-composed="yes"]');
    const rows = await page.locator('.papers .paper tbody > tr').count();
    await page.check('input[value="fleet"]');
    await page.waitForFunction(
      (before) => document.querySelectorAll('.sheet-text tbody > tr:not([hidden])').length > before,
      rows,
    );
    expect(await page.locator('.sheet-text .sheet-topic').count()).toBe(2);
  });

  it('of the reader’s own tells what differs between any two aircraft, as the page of comparisons does', async () => {
    const [here, there] = ['40113', '40127'];
    await page.goto(`${pathToFileURL(join(root, 'compare.html')).href}#${here}/${there}`);
    const tables = '.result .difference:has(table.states)';
    await page.waitForSelector(tables);
    const compared = await page.$$eval(tables, (all) =>
      all.map((each) => [each.querySelector('h4 a')?.textContent, each.querySelectorAll('tbody tr').length]),
    );
    await page.goto(`${pathToFileURL(join(root, 'own-sheet.html')).href}?sheets=2&size=A4`);
    await page.selectOption('select[name="pair-here"]', here);
    await page.selectOption('select[name="pair-there"]', there);
    await page.waitForSelector('[data-composed="yes"] .papers tr');
    const text = page.locator('.sheet-text [data-topic="pair"]');
    expect(await text.locator('h2').textContent()).toBe('QQ-OAB and QQ-OAF');
    const told = await text
      .locator('.sheet-block')
      .evaluateAll((all) =>
        all.map((each) => [each.querySelector('h3 > a')?.textContent, each.querySelectorAll('tbody tr').length]),
      );
    expect(compared.length).toBeGreaterThan(2);
    expect(told).toEqual(expect.arrayContaining(compared));
    // The address keeps the two, and the code says the same address where the book is online.
    expect(new URL(page.url()).searchParams.get('pair')).toBe(`${here},${there}`);
    const code = (await page.getAttribute('.papers .code', 'aria-label')) ?? '';
    expect(code).toMatch(/^Code for https:\/\//);
    expect(new URL(code.replace('Code for ', '')).search).toBe('?sheets=2&pair=40113,40127');
    // Marked as compared with itself it cannot be.
    expect(await page.locator(`select[name="pair-there"] option[value="${here}"]`).isDisabled()).toBe(true);
  });

  it('of the reader’s own says where more is chosen than its code can carry, and where all of it is carried does not', async () => {
    const own = pathToFileURL(join(root, 'own-sheet.html')).href;
    const stages = ['preparation', 'boarding', 'push-back', 'taxi-out', 'line-up', 'take-off'];
    const topics = stages.map((stage) => `walk-round-line-flight-${stage}`);
    const told = async (chosen: readonly string[], sheets: number) => {
      await page.goto(`${own}?topics=${chosen.join(',')}&size=A4&sheets=${sheets}`);
      await page.waitForSelector('[data-composed]');
      const code = (await page.getAttribute('.papers .code', 'aria-label'))?.replace('Code for ', '') ?? '';
      return { code, status: (await page.textContent('.composed')) ?? '' };
    };
    const long = await told(topics, 5);
    expect(long.status).toMatch(/^Fills .* points\. More is chosen than its code can carry: .* without the choice\.$/);
    expect(long.code).toMatch(/\/own-sheet\.html$/);
    const short = await told(topics.slice(0, 1), 1);
    expect(short.status).not.toMatch(/carry/);
    expect(new URL(short.code).searchParams.get('topics')).toBe(topics[0]);
  });

  it('of a walk around the aircraft says what each lamp does in the stage that is chosen', async () => {
    await page.goto(`${pathToFileURL(join(root, 'own-sheet.html')).href}?topics=walk-round-line-flight-push-back`);
    await page.selectOption('select[name="sheets"]', '1');
    await page.waitForSelector('[data-composed="yes"]');
    const rows = await page.$$eval('.papers tbody tr', (all) =>
      all.map((row) => [...(row as HTMLTableRowElement).cells].map((cell) => cell.textContent)),
    );
    expect(rows).toContainEqual(['Left wing tip', 'First set of position lights', 'red', 'lit', '250° to 360°']);
    expect(rows).toContainEqual(['Top of the fuselage', 'Red anti-collision lights', 'red', 'flashing', '–']);
    expect(rows).toContainEqual(['Nose leg', 'Take-off light', 'white', 'dark', '355° to 5°']);
    await page.setViewportSize({ width: 390, height: 844 });
    const wide = await page.$$eval(
      '.sheet-text .wide',
      (all) => all.filter((each) => each.scrollWidth > each.clientWidth).length,
    );
    await page.setViewportSize({ width: 1280, height: 900 });
    expect(wide).toBe(0);
  });
});
