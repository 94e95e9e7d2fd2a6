import { cpSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startCommand, until } from '../helpers/command-process.ts';
import { edit, projectFolder, smallProject } from '../helpers/content.ts';
import { temporaryFolder, writeFiles } from '../helpers/temporary-folder.ts';

/** Every file of a book with its bytes. */
function filesOf(book: string): Map<string, string> {
  const names = readdirSync(book, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    names
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [file.slice(book.length + 1), readFileSync(file, 'latin1')]),
  );
}

async function build(folder: string, words: readonly string[] = [], whenDone?: typeof afterAll): Promise<string> {
  const command = startCommand(['build', ...words], folder, [], {}, whenDone);
  expect(await command.ended, command.printed()).toBe(0);
  return command.printed();
}

const TITLE = 'title: Tarn 4 lighting reference';
const OTHER_TITLE = 'title: Tarn 4 lamps';

/** The book of the small content as it is, and with another title. */
const whole = smallProject(afterAll);
const changed = smallProject(afterAll);
let said = '';
let old = new Map<string, string>();
let fresh = new Map<string, string>();
beforeAll(async () => {
  edit(join(changed, 'content/book.yaml'), TITLE, OTHER_TITLE);
  said = await build(whole, [], afterAll);
  await build(changed, [], afterAll);
  old = filesOf(join(whole, 'dist'));
  fresh = filesOf(join(changed, 'dist'));
});

/** A project of the small content with its book. */
function builtProject(): string {
  const folder = smallProject();
  cpSync(join(whole, 'dist'), join(folder, 'dist'), { recursive: true });
  return folder;
}

test('a build says what it did in one line and writes whole pages', () => {
  const html = [...old].filter(([name]) => name.endsWith('.html'));
  expect(said).toMatch(new RegExp(`^Built ${html.length} pages into dist in \\d+\\.\\d s\\.\n$`));
  for (const [name, text] of html) expect(text.trimEnd().endsWith('</html>'), name).toBe(true);
  expect(readdirSync(whole).sort()).toEqual(['content', 'dist']);
  expect(fresh).not.toEqual(old);
});

test('a book is the same byte for byte, wherever it is put and whatever NODE_ENV says, and names no folder', async () => {
  const folder = smallProject();
  const out = join(temporaryFolder(), 'elsewhere/second');
  const command = startCommand(['build', '--out', out], folder, [], { NODE_ENV: 'development' });
  expect(await command.ended, command.printed()).toBe(0);
  // Nothing beside it where the command was started: builds that are started there at once would meet in it.
  expect(readdirSync(folder)).toEqual(['content']);
  const second = filesOf(out);
  expect(second).toEqual(old);
  expect(second.get('index.html')).toContain('Content-Security-Policy');
  // What the preview adds to every page.
  expect(second.get('index.html')).not.toMatch(/@vite|overlay|content-errors/);
  for (const [name, text] of second) {
    for (const place of [folder, whole, projectFolder]) expect(text.includes(place), name).toBe(false);
  }
});

test("another operator's content builds from another folder into another folder", async () => {
  const folder = smallProject();
  for (const file of ['book.yaml']) edit(join(folder, 'content', file), 'Larkfell Air', 'Heronsway');
  await build(projectFolder, ['--content', join(folder, 'content'), '--out', join(folder, 'books/heronsway')]);
  const files = filesOf(join(folder, 'books/heronsway'));
  expect(files.get('index.html')).toContain('Heronsway');
  for (const [name, text] of files) expect(/Quillmere|Ostrel|QQ-OA/.test(text), name).toBe(false);
});

describe('the last good book', () => {
  test('stays, byte for byte, when the content has errors', async () => {
    const folder = builtProject();
    edit(join(folder, 'content/panels/strip.yaml'), '      - otherwise: dark\n', '');
    const command = startCommand(['build'], folder);
    expect(await command.ended).toBe(1);
    expect(command.printed()).toContain('SL401 error: ');
    expect(command.printed()).toMatch(/Nothing was built; dist is as it was\.\n$/);
    expect(filesOf(join(folder, 'dist'))).toEqual(old);
  });

  test('stays or is replaced as a whole when a build is killed at any moment', async () => {
    const folder = builtProject();
    const dist = join(folder, 'dist');
    edit(join(folder, 'content/book.yaml'), TITLE, OTHER_TITLE);
    const hasStaging = () => readdirSync(folder).some((name) => name.includes('switchleaf-staging'));
    const hasPages = () =>
      readdirSync(folder).some(
        (name) => name.includes('switchleaf-staging') && existsSync(join(folder, name, 'index.html')),
      );
    for (const moment of [() => true, hasStaging, hasPages]) {
      const command = startCommand(['build'], folder);
      let ended = false;
      void command.ended.then(() => (ended = true));
      await until('the moment to kill', () => ended || moment());
      command.child.kill('SIGKILL');
      await command.ended;
      const left = filesOf(dist);
      expect([old, fresh]).toContainEqual(left);
    }
    await build(folder);
    expect(filesOf(dist)).toEqual(fresh);
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist']);
  });

  test('stays when a build is ended by Ctrl+C, which leaves nothing behind', async () => {
    const folder = builtProject();
    const command = startCommand(['build'], folder);
    await until('the staging folder', () => readdirSync(folder).some((name) => name.includes('switchleaf-staging')));
    command.child.kill('SIGINT');
    expect(await command.ended).toBe(130);
    expect(filesOf(join(folder, 'dist'))).toEqual(old);
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist']);
  });

  test('stays when a build is ended while it is still busy with the content, which no listener could answer', async () => {
    const folder = builtProject();
    const busy = join(folder, 'busy.mjs');
    writeFileSync(
      busy,
      `import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
const read = fs.readFileSync;
fs.readFileSync = (file, ...more) => {
  if (!String(file).endsWith('claims.yaml')) return read(file, ...more);
  fs.writeSync(1, 'busy');
  for (;;);
};
syncBuiltinESMExports();
`,
    );
    const command = startCommand(['build'], folder, ['--import', busy]);
    await until('the busy moment', () => command.printed().includes('busy'));
    command.child.kill('SIGTERM');
    expect(await command.ended).toBe('SIGTERM');
    expect(filesOf(join(folder, 'dist'))).toEqual(old);
    expect(readdirSync(folder).sort()).toEqual(['busy.mjs', 'content', 'dist']);
  });

  test('is one whole book when two builds of different content run at once', async () => {
    const folder = smallProject();
    await Promise.all([build(folder), build(folder, ['--content', join(changed, 'content')])]);
    expect([old, fresh]).toContainEqual(filesOf(join(folder, 'dist')));
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist']);
  });

  test('is refused where a folder holds somebody else’s files', async () => {
    const folder = smallProject();
    writeFiles(folder, { 'dist/letter.txt': 'Dear reader' });
    const command = startCommand(['build'], folder);
    expect(await command.ended).toBe(1);
    expect(command.printed()).toContain('SL607 error');
    expect(readdirSync(join(folder, 'dist'))).toEqual(['letter.txt']);
  });
});
