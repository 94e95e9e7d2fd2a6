import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { launchChromium } from '../helpers/chromium.ts';
import { startCommand, until } from '../helpers/command-process.ts';
import { edit, smallProject } from '../helpers/content.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser?.close());

/** Starts a preview of the content in `folder` on a free port; its address. */
async function preview(folder: string) {
  const command = startCommand(['preview', '--port', '0'], folder);
  const address = await until('the address', () => /http:\/\/localhost:\d+\//.exec(command.printed())?.[0]);
  return { command, address };
}

async function open(address: string): Promise<Page> {
  const page = await browser.newPage();
  // A page that is loading again can take its time to close; the browser ends it at the latest.
  onTestFinished(() => Promise.race([page.close(), new Promise<void>((done) => setTimeout(done, 10_000))]));
  await page.goto(address);
  return page;
}

/** The text of the errors over a page: empty if there are none. A page that is just being loaded anew has none to give. */
async function errorsOver(page: Page): Promise<string | undefined> {
  const read = () => {
    const overlay = document.querySelector<HTMLElement>('content-errors');
    return overlay === null ? undefined : overlay.hidden ? '' : (overlay.shadowRoot?.textContent ?? '');
  };
  return page.evaluate(read).catch(() => undefined);
}

const shows = (page: Page, text: string) =>
  until(`"${text}" on the page`, () =>
    page
      .locator('body')
      .innerText()
      .then(
        (all) => all.includes(text),
        () => false,
      ),
  );
const showsErrors = (page: Page, text: string) =>
  until(`"${text}" over the page`, async () => (await errorsOver(page))?.includes(text));
const isClear = (page: Page) => until('no errors over the page', async () => (await errorsOver(page)) === '');

test('an edit appears on every open page, of definitions and of notes', async () => {
  const folder = smallProject();
  const { address } = await preview(folder);
  const [home, control] = [await open(address), await open(`${address}controls/logo.html`)];
  await shows(home, 'Tarn 4 lighting reference');
  edit(join(folder, 'content/panels/strip.yaml'), 'title: Logo switch', 'title: Fin switch');
  await shows(home, 'Fin switch');
  await shows(control, 'Fin switch');
  edit(join(folder, 'content/notes/logo.md'), 'lights the fin', 'lights the whole fin');
  await shows(control, 'lights the whole fin');
});

describe('a mistake', () => {
  test('shows with its line over the last good page, in every tab, and goes when it is mended', async () => {
    const folder = smallProject();
    const { address, command } = await preview(folder);
    const early = await open(`${address}controls/logo.html`);
    const panel = join(folder, 'content/panels/strip.yaml');
    const good = readFileSync(panel, 'utf8');
    edit(panel, 'logo is ON, then', 'logo is ONN, then');
    await showsErrors(early, 'logo is ONN, then');
    await showsErrors(early, 'SL205 error');
    await shows(early, 'Logo switch');
    const late = await open(address);
    await showsErrors(late, 'SL205 error');
    await shows(late, 'Tarn 4 lighting reference');
    await until('the error on the terminal', () => command.printed().includes('The pages show the last good book.'));
    writeFileSync(panel, good);
    await isClear(early);
    await isClear(late);
  });

  test('can be folded away and shown again, with the keyboard', async () => {
    const folder = smallProject();
    const { address } = await preview(folder);
    const page = await open(address);
    edit(join(folder, 'content/claims.yaml'), 'bus-1', 'buss-1');
    await showsErrors(page, 'SL204');
    const alert = page.getByRole('alert', { name: 'Errors in the content' });
    await alert.focus();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Show the errors' }).waitFor();
    expect(await alert.locator('pre').first().isVisible()).toBe(false);
    await page.getByRole('button', { name: 'Show the errors' }).press('Enter');
    expect(await alert.locator('pre').first().isVisible()).toBe(true);
  });

  test('that is there from the start shows at once, and the page turns into the book when it is mended', async () => {
    const folder = smallProject();
    const sources = join(folder, 'content/book.yaml');
    renameSync(sources, `${sources}.away`);
    const { address } = await preview(folder);
    const page = await open(`${address}controls/logo.html`);
    await shows(page, 'There is no good book yet');
    await showsErrors(page, 'SL101 error');
    renameSync(`${sources}.away`, sources);
    await shows(page, 'Logo switch');
    await isClear(page);
  });

  test('in the whole folder, even its absence, ends nothing', async () => {
    const folder = smallProject();
    const { address } = await preview(folder);
    const page = await open(address);
    renameSync(join(folder, 'content'), join(folder, 'away'));
    await showsErrors(page, 'SL601 error');
    renameSync(join(folder, 'away'), join(folder, 'content'));
    await isClear(page);
  });
});

test('pages come and go with their definitions', async () => {
  const folder = smallProject();
  const { address } = await preview(folder);
  const page = await open(`${address}conditions/bus-2.html`);
  await shows(page, 'No such page');
  const values =
    '    values:\n      powered: { title: powered, says: with bus 2 powered }\n      lost: { title: lost, says: with bus 2 lost }\n';
  edit(join(folder, 'content/conditions.yaml'), '  airspeed:\n', `  bus-2:\n    title: Bus 2\n${values}  airspeed:\n`);
  await shows(page, 'Bus 2');
  edit(join(folder, 'content/conditions.yaml'), `  bus-2:\n    title: Bus 2\n${values}`, '');
  await shows(page, 'No such page');
});

test('Ctrl+C ends it with status 0', async () => {
  const { command } = await preview(smallProject());
  command.child.kill('SIGINT');
  expect(await command.ended).toBe(0);
});

test('a built book knows nothing of it', async () => {
  const folder = smallProject();
  const command = startCommand(['build'], folder);
  expect(await command.ended, command.printed()).toBe(0);
  const home = readFileSync(join(folder, 'dist/index.html'), 'utf8');
  expect(home).not.toMatch(/@vite|overlay|content-errors/);
  rmSync(join(folder, 'dist'), { recursive: true });
});
