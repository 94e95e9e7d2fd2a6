import { cpSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { launchChromium } from '../helpers/chromium.ts';
import { type CommandProcess, startCommand, until } from '../helpers/command-process.ts';
import { edit, smallContent, smallProject } from '../helpers/content.ts';

/** Starts a preview of the content in `folder` on a free port; its address. */
async function preview(folder: string, whenDone?: (end: () => void) => void) {
  const command = startCommand(['preview', '--port', '0'], folder, [], {}, whenDone);
  const address = await until('the address', () => /http:\/\/localhost:\d+\//.exec(command.printed())?.[0]);
  return { command, address };
}

let browser: Browser;
/** One preview that all edits are made under; each begins with the good content. */
const folder = smallProject(afterAll);
const content = join(folder, 'content');
let command: CommandProcess;
let address: string;
let endPreview = (): void => {};
beforeAll(async () => {
  browser = await launchChromium();
  ({ command, address } = await preview(folder, (end) => {
    endPreview = end;
  }));
});
afterAll(async () => {
  endPreview();
  await browser?.close();
});
afterEach(async () => {
  rmSync(content, { recursive: true, force: true });
  cpSync(smallContent, content, { recursive: true });
  // Until the preview has taken it up, its last good book is another one, or a mistake of the last test stands over it.
  await until('the good content', async () => {
    const read = async (path: string): Promise<string> => (await fetch(address + path)).text();
    const { problems } = JSON.parse(await read('@switchleaf/notice')) as { problems: readonly string[] };
    return problems.length === 0 && (await read('controls/logo.html')).includes('Logo switch');
  });
});

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
  const [home, control] = [await open(address), await open(`${address}controls/logo.html`)];
  await shows(home, 'Tarn 4 lighting reference');
  edit(join(content, 'panels/strip.yaml'), 'title: Logo switch', 'title: Fin switch');
  await shows(home, 'Fin switch');
  await shows(control, 'Fin switch');
  edit(join(content, 'notes/logo.md'), 'lights the fin', 'lights the whole fin');
  await shows(control, 'lights the whole fin');
});

describe('a mistake', () => {
  test('shows with its line over the last good page, in every tab, and goes when it is mended', async () => {
    const early = await open(`${address}controls/logo.html`);
    const panel = join(content, 'panels/strip.yaml');
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

  test('shows on a page that was being loaded when it was made', async () => {
    const page = await browser.newPage();
    onTestFinished(() => page.close());
    let connect = (): void => {};
    const late = new Promise<void>((done) => {
      connect = done;
    });
    await page.routeWebSocket(/./, async (socket) => {
      await late;
      socket.connectToServer();
    });
    await page.goto(address);
    await isClear(page);
    const before = command.printed().length;
    edit(join(content, 'claims.yaml'), 'bus-1', 'buss-1');
    await until('the error on the terminal', () => command.printed().slice(before).includes('SL204'));
    connect();
    await showsErrors(page, 'SL204');
  });

  test('can be folded away and shown again, with the keyboard', async () => {
    const page = await open(address);
    await isClear(page);
    edit(join(content, 'claims.yaml'), 'bus-1', 'buss-1');
    await showsErrors(page, 'SL204');
    const alert = page.getByRole('alert', { name: 'Errors in the content' });
    await alert.focus();
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Show the errors' }).waitFor();
    expect(await alert.locator('pre').first().isVisible()).toBe(false);
    await page.getByRole('button', { name: 'Show the errors' }).press('Enter');
    expect(await alert.locator('pre').first().isVisible()).toBe(true);
  });

  test('that is there from the start shows at once, and goes when it is mended; Ctrl+C ends the preview with status 0', async () => {
    const bad = smallProject();
    const sources = join(bad, 'content/book.yaml');
    renameSync(sources, `${sources}.away`);
    const other = await preview(bad);
    const page = await open(`${other.address}controls/logo.html`);
    await shows(page, 'There is no good book yet');
    await showsErrors(page, 'SL101 error');
    renameSync(`${sources}.away`, sources);
    await shows(page, 'Logo switch');
    await isClear(page);
    other.command.child.kill('SIGINT');
    expect(await other.command.ended).toBe(0);
  });

  test('in the whole folder, even its absence, ends nothing', async () => {
    const page = await open(address);
    await isClear(page);
    renameSync(content, join(folder, 'away'));
    await showsErrors(page, 'SL601 error');
    renameSync(join(folder, 'away'), content);
    await isClear(page);
  });
});

test('pages come and go with their definitions', async () => {
  const page = await open(`${address}conditions/bus-2.html`);
  await shows(page, 'No such page');
  const values =
    '    values:\n      powered: { title: powered, says: with bus 2 powered }\n      lost: { title: lost, says: with bus 2 lost }\n';
  edit(join(content, 'conditions.yaml'), '  airspeed:\n', `  bus-2:\n    title: Bus 2\n${values}  airspeed:\n`);
  await shows(page, 'Bus 2');
  edit(join(content, 'conditions.yaml'), `  bus-2:\n    title: Bus 2\n${values}`, '');
  await shows(page, 'No such page');
});
