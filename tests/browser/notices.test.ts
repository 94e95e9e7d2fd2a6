/** Crew notices in a browser: what has expired by the day of reading says so, wherever it is said until when it holds. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launchChromium } from '../helpers/chromium.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

it('says of a notice on the day after its last that it has expired, in the list, on its page and where it is led to', async () => {
  const page = await browser.newPage({ timezoneId: 'UTC' });
  /** What is said of the notice that expires on 2027-03-31. */
  const until = async (address: string, day: string): Promise<string | null> => {
    await page.clock.setFixedTime(new Date(`${day}T12:00:00Z`));
    await page.goto(pathToFileURL(join(inject('demoSite'), address)).href);
    return page.textContent('.until[data-expires="2027-03-31"]');
  };
  expect(await until('notices.html', '2027-03-31')).toBe('expires on 2027-03-31');
  const over = 'expired on 2027-03-31, by the clock of this device';
  expect(await until('notices.html', '2027-04-01')).toBe(over);
  // A later one goes on, and one that was over on the date of the book stays as it was.
  expect(await page.locator('.until').allTextContents()).toEqual([
    over,
    'expires on 2027-10-31',
    'expired on 2026-09-15',
  ]);
  expect(await until('notices/engineering-order-57.html', '2027-04-01')).toBe(over);
  expect(await until('controls/smoking.html', '2027-04-01')).toBe(over);
  await page.close();
});
