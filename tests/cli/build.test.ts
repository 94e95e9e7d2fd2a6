import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { startCommand, until } from '../helpers/command-process.ts';
import { edit, projectFolder, smallProject } from '../helpers/content.ts';
import { writeFiles } from '../helpers/temporary-folder.ts';

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

async function build(folder: string, ...words: string[]): Promise<string> {
  const command = startCommand(['build', ...words], folder);
  expect(await command.ended, command.printed()).toBe(0);
  return command.printed();
}

test('a build says what it did in one line and writes whole pages', async () => {
  const folder = smallProject();
  const printed = await build(folder);
  const html = [...filesOf(join(folder, 'dist'))].filter(([name]) => name.endsWith('.html'));
  expect(printed).toMatch(new RegExp(`^Built ${html.length} pages into dist in \\d+\\.\\d s\\.\n$`));
  for (const [name, text] of html) expect(text.trimEnd().endsWith('</html>'), name).toBe(true);
  expect(readdirSync(folder).sort()).toEqual(['content', 'dist']);
});

test('a build is the same book whatever NODE_ENV says', async () => {
  const folder = smallProject();
  await build(folder, '--out', 'one');
  const command = startCommand(['build', '--out', 'two'], folder, [], { NODE_ENV: 'development' });
  expect(await command.ended, command.printed()).toBe(0);
  expect(filesOf(join(folder, 'two'))).toEqual(filesOf(join(folder, 'one')));
  expect(filesOf(join(folder, 'two')).get('index.html')).toContain('Content-Security-Policy');
});

test('two builds are the same byte for byte and name no folder of the machine', async () => {
  const folder = smallProject();
  await build(folder, '--out', 'first');
  await build(folder, '--out', 'elsewhere/second');
  const first = filesOf(join(folder, 'first'));
  expect(filesOf(join(folder, 'elsewhere/second'))).toEqual(first);
  for (const [name, text] of first) {
    expect(text.includes(folder), name).toBe(false);
    expect(text.includes(projectFolder), name).toBe(false);
  }
});

test("another operator's content builds from another folder into another folder", async () => {
  const folder = smallProject();
  for (const file of ['book.yaml']) edit(join(folder, 'content', file), 'Larkfell Air', 'Heronsway');
  await build(projectFolder, '--content', join(folder, 'content'), '--out', join(folder, 'books/heronsway'));
  const files = filesOf(join(folder, 'books/heronsway'));
  expect(files.get('index.html')).toContain('Heronsway');
  for (const [name, text] of files) expect(/Quillmere|Ostrel|QQ-OA/.test(text), name).toBe(false);
});

describe('the last good book', () => {
  test('stays, byte for byte, when the content has errors', async () => {
    const folder = smallProject();
    await build(folder);
    const good = filesOf(join(folder, 'dist'));
    edit(join(folder, 'content/panels/strip.yaml'), '      - otherwise: dark\n', '');
    const command = startCommand(['build'], folder);
    expect(await command.ended).toBe(1);
    expect(command.printed()).toContain('SL401 error: ');
    expect(command.printed()).toMatch(/Nothing was built; dist is as it was\.\n$/);
    expect(filesOf(join(folder, 'dist'))).toEqual(good);
  });

  test('stays or is replaced as a whole when a build is killed at any moment', async () => {
    const folder = smallProject();
    const dist = join(folder, 'dist');
    await build(folder);
    const old = filesOf(dist);
    edit(join(folder, 'content/book.yaml'), 'title: Tarn 4 lighting reference', 'title: Tarn 4 lamps');
    await build(folder, '--out', 'new');
    const fresh = filesOf(join(folder, 'new'));
    expect(fresh).not.toEqual(old);
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
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist', 'new']);
  });

  test('stays when a build is ended by Ctrl+C, which leaves nothing behind', async () => {
    const folder = smallProject();
    await build(folder);
    const good = filesOf(join(folder, 'dist'));
    const command = startCommand(['build'], folder);
    await until('the staging folder', () => readdirSync(folder).some((name) => name.includes('switchleaf-staging')));
    command.child.kill('SIGINT');
    expect(await command.ended).toBe(130);
    expect(filesOf(join(folder, 'dist'))).toEqual(good);
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist']);
  });

  test('stays when a build is ended while it is still busy with the content, which no listener could answer', async () => {
    const folder = smallProject();
    await build(folder);
    const good = filesOf(join(folder, 'dist'));
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
    expect(filesOf(join(folder, 'dist'))).toEqual(good);
    expect(readdirSync(folder).sort()).toEqual(['busy.mjs', 'content', 'dist']);
  });

  test('is one whole book when two builds of different content run at once', async () => {
    const folder = smallProject();
    const other = smallProject();
    edit(join(other, 'content/book.yaml'), 'title: Tarn 4 lighting reference', 'title: Tarn 4 lamps');
    await build(folder, '--out', 'one');
    await build(folder, '--content', join(other, 'content'), '--out', 'two');
    const whole = [filesOf(join(folder, 'one')), filesOf(join(folder, 'two'))];
    await Promise.all([build(folder), build(folder, '--content', join(other, 'content'))]);
    expect(whole).toContainEqual(filesOf(join(folder, 'dist')));
    expect(readdirSync(folder).sort()).toEqual(['content', 'dist', 'one', 'two']);
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
