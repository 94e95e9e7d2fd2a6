/** "My aircraft" as a reader has it: what holds for it stands first, on the day of reading, and the choice does not mislead. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, inject, it } from 'vitest';
import type { EffectiveAircraft } from '../../src/book/index.ts';
import { everyKind } from '../book/every-kind.ts';
import { launchChromium } from '../helpers/chromium.ts';

const folder = inject('everyKindSite');
const { frame, pages } = everyKind;
let browser: Browser;
let context: BrowserContext;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(async () => {
  context = await browser.newContext({ viewport: { width: 820, height: 1180 }, timezoneId: 'UTC' });
});
afterEach(() => context.close());

async function open(address: string, time: string, query = ''): Promise<Page> {
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date(time));
  await page.goto(pathToFileURL(join(folder, address)).href + query);
  return page;
}
async function choose(page: Page, serial: string): Promise<void> {
  await page.click('button.own');
  await page.click(`dialog.fleet button[value="${serial}"]`);
}

/** The ids of the groups of tables that are seen without unfolding anything. */
const seenGroups = (page: Page) =>
  page.$$eval('.attribute > .group', (groups) => groups.filter((one) => one.checkVisibility()).map(({ id }) => id));

const holdsOn = (aircraft: readonly EffectiveAircraft[], registration: string, day: string): boolean =>
  aircraft.some(
    ({ registration: of, from = '', until = '9999' }) => of === registration && from <= day && day <= until,
  );

const items = pages.filter((page) => page.kind === 'item');
const later = items
  .flatMap(({ attributes }) =>
    attributes.flatMap(({ groups }) => groups.flatMap(({ effectivity }) => effectivity.aircraft)),
  )
  .find(({ from }) => from !== undefined && from > frame.date) as EffectiveAircraft & { from: string };

describe('my aircraft', () => {
  // The first of the fleet, and the last, which is the training device.
  it.each([frame.fleet.at(0), frame.fleet.at(-1)].filter((each) => each !== undefined))(
    '$registration has its own tables in sight on every page, and no others',
    async ({ serial, registration }) => {
      const page = await open('index.html', `${frame.date}T09:00:00Z`);
      await choose(page, serial);
      let folded = 0;
      for (const item of items) {
        await page.goto(pathToFileURL(join(folder, item.address)).href);
        const groups = item.attributes.flatMap(({ groups: all }) => all);
        const wanted = groups.filter(({ effectivity }) => holdsOn(effectivity.aircraft, registration, frame.date));
        expect(await seenGroups(page), item.title).toEqual(wanted.map(({ id }) => id));
        folded += groups.length - wanted.length;
      }
      expect(folded).toBeGreaterThan(0);
    },
  );

  it('is listed under the registration of the day of reading, with that of the book', async () => {
    const renamed = frame.fleet.find(({ later: names }) => names);
    const [from = '', name = ''] = renamed?.later?.[0] ?? [];
    const { serial = '', registration = '' } = renamed ?? {};
    const before = await open('index.html', `${frame.date}T09:00:00Z`);
    await before.click('button.own');
    expect(await before.textContent(`dialog.fleet button[value="${serial}"]`)).toBe(registration);
    const page = await open('index.html', `${from}T09:00:00Z`);
    await choose(page, serial);
    expect(await page.textContent(`dialog.fleet button[value="${serial}"]`)).toBe(`${name} was ${registration}`);
    expect(await page.textContent('button.own')).toBe(`${name} chosen 09:00`);
    expect(await page.textContent('.changed-since')).toContain(`${name} stands in this book as ${registration}.`);
    const option = page.locator(`#other-aircraft option[value="${serial}"]`);
    expect(await option.textContent()).toBe(`${name} (was ${registration})`);
    const sheet = await open('own-sheet.html', `${from}T09:00:00Z`);
    const listed = sheet.locator(`select[name="for"] option[value="${serial}"]`);
    expect(await listed.textContent()).toBe(`${name} (was ${registration})`);
  });

  it('says when it was chosen, and asks again after a day, until when every aircraft is shown', async () => {
    const page = await open('index.html', '2027-01-05T09:00:00Z');
    await choose(page, frame.fleet[0]?.serial ?? '');
    const name = frame.fleet[0]?.registration;
    expect(await page.textContent('button.own')).toBe(`${name} chosen 09:00`);
    const soon = await open('index.html', '2027-01-06T08:59:00Z');
    expect(await soon.textContent('button.own')).toBe(`${name} chosen 2027-01-05 09:00`);
    const late = await open(items[0]?.address ?? '', '2027-01-06T09:01:00Z');
    expect(await late.textContent('button.own')).toBe('My aircraft');
    expect(await late.textContent('.about-aircraft')).toContain(`You chose ${name} on 2027-01-05 09:00`);
    expect(await late.$$('details.others')).toEqual([]);
    await late.click(`text=Still ${name}`);
    expect(await late.textContent('button.own')).toBe(`${name} chosen 09:01`);
  });

  it('shows the fit of the day of reading where a change has come since the date of the book, and says so', async () => {
    const serial = later.to.replace(/^aircraft\/|\.html$/g, '');
    const item = items.find(({ attributes }) =>
      attributes.some(({ groups }) => groups.some(({ effectivity }) => effectivity.aircraft.includes(later))),
    );
    const before = await open(item?.address ?? '', `${frame.date}T09:00:00Z`, `?aircraft=${serial}`);
    expect(await before.isVisible('.changed-since')).toBe(false);
    const after = await open(item?.address ?? '', `${later.from}T09:00:00Z`, `?aircraft=${serial}`);
    expect(await after.textContent('.changed-since')).toContain(`is shown as it is since ${later.from}`);
    expect(await seenGroups(after)).not.toEqual(await seenGroups(before));
  });

  it('is named by a link without taking the place of the reader’s own choice', async () => {
    const [mine, other] = frame.fleet;
    const page = await open('index.html', '2027-01-05T09:00:00Z');
    await choose(page, mine?.serial ?? '');
    const linked = await open(items[0]?.address ?? '', '2027-01-05T10:00:00Z', `?aircraft=${other?.serial}`);
    expect(await linked.textContent('.about-aircraft')).toContain(
      `Shown for ${other?.registration}, as the link says.`,
    );
    expect(await linked.textContent('button.own')).toContain(mine?.registration);
    await linked.click(`text=Back to ${mine?.registration}`);
    expect(await linked.isVisible('.about-aircraft')).toBe(false);
  });

  it('leaves every page as it was when it is given up', async () => {
    for (const address of [items[0]?.address ?? '', 'controls/logo.html']) {
      const page = await open(address, '2027-01-05T09:00:00Z');
      const before = await page.innerHTML('main');
      await choose(page, frame.fleet.at(-1)?.serial ?? '');
      await page.click('button.own');
      await page.click('dialog.fleet .none');
      expect((await page.innerHTML('main')).replaceAll(' class="group "', ' class="group"')).toBe(before);
      await page.close();
    }
  });

  it('opens what a link leads to, folded or not', async () => {
    for (const { serial } of frame.fleet.slice(0, 1)) {
      const [item] = items.filter(({ attributes }) => attributes.some(({ groups }) => groups.length > 1));
      const groups = item?.attributes.find((each) => each.groups.length > 1)?.groups ?? [];
      for (const { id } of groups) {
        const page = await open(item?.address ?? '', '2027-01-05T09:00:00Z', `?aircraft=${serial}#${id}`);
        expect(await page.isVisible(`[id="${id}"]`)).toBe(true);
        await page.close();
      }
    }
  });

  it('is not offered without scripts: every aircraft is shown', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false });
    const page = await plain.newPage();
    await page.goto(pathToFileURL(join(folder, items[0]?.address ?? '')).href);
    expect(await page.isVisible('button.own')).toBe(false);
    expect(await page.isVisible('button.find')).toBe(false);
    const groups = items[0]?.attributes.flatMap(({ groups: all }) => all) ?? [];
    for (const { id } of groups) expect(await page.isVisible(`[id="${id}"]`)).toBe(true);
    await plain.close();
  });
});
