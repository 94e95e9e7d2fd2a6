import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { makeStaging, markerName, putInPlace, recover, refuse } from '../../src/cli/out-folder.ts';
import { temporaryFolder, writeFiles } from '../helpers/temporary-folder.ts';

const files = 40;

/** A book of many files that all say the same. */
function writeBook(folder: string, says: string): void {
  writeFiles(folder, Object.fromEntries(Array.from({ length: files }, (_, i) => [`pages/${i}.html`, says])));
}

/** What a book says, if it is whole. */
function read(folder: string): string {
  const says = readdirSync(join(folder, 'pages')).map((name) => readFileSync(join(folder, 'pages', name), 'utf8'));
  expect(says.length).toBe(files);
  expect(new Set(says).size).toBe(1);
  expect(existsSync(join(folder, markerName))).toBe(true);
  return says[0]!;
}

function build(out: string, says: string): void {
  const staging = makeStaging(out);
  writeBook(staging, says);
  putInPlace(staging, out, '1.0.0');
}

/** The id of a process that has ended. */
function deadPid(): number {
  return spawnSync(process.execPath, ['-e', '']).pid;
}

describe('which folders a book may go to', () => {
  test('one that does not exist, an empty one, and one that holds a book', () => {
    const folder = temporaryFolder();
    const content = join(folder, 'content');
    mkdirSync(content);
    expect(refuse(join(folder, 'a/b/out'), content)).toBe(undefined);
    mkdirSync(join(folder, 'empty'));
    expect(refuse(join(folder, 'empty'), content)).toBe(undefined);
    build(join(folder, 'book'), 'one');
    expect(refuse(join(folder, 'book'), content)).toBe(undefined);
  });

  test('no folder with files of somebody else, and no file', () => {
    const folder = temporaryFolder();
    const content = join(folder, 'content');
    writeFiles(folder, { 'mine/letter.txt': 'Dear reader', 'content/book.yaml': '', [`fake/${markerName}`]: 'other' });
    expect(refuse(join(folder, 'mine'), content)).toBe('not ours');
    expect(refuse(join(folder, 'fake'), content)).toBe('not ours');
    expect(refuse(join(folder, 'mine/letter.txt'), content)).toBe('not a folder');
  });

  test('not the content folder, none inside it and none around it, also by way of links', () => {
    const folder = temporaryFolder();
    const content = join(folder, 'content');
    mkdirSync(content);
    symlinkSync(content, join(folder, 'link'));
    expect(refuse(content, content)).toBe('inside content');
    expect(refuse(join(content, 'out'), content)).toBe('inside content');
    expect(refuse(join(folder, 'link/out'), content)).toBe('inside content');
    expect(refuse(folder, content)).toBe('around content');
    expect(refuse(`${content}-2`, content)).toBe(undefined);
    expect(refuse(join(folder, '..content'), content)).toBe(undefined);
  });
});

describe('the swap', () => {
  test('replaces the last book as a whole and leaves nothing beside it', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'dist');
    build(out, 'one');
    writeFileSync(join(out, 'left-over.html'), 'of the old book');
    build(out, 'two');
    expect(read(out)).toBe('two');
    expect(existsSync(join(out, 'left-over.html'))).toBe(false);
    expect(readdirSync(folder)).toEqual(['dist']);
  });

  test('follows a link to where the book really stands', () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'real'));
    symlinkSync(join(folder, 'real'), join(folder, 'link'));
    build(join(folder, 'link'), 'one');
    expect(read(join(folder, 'real'))).toBe('one');
    expect(readdirSync(folder).sort()).toEqual(['link', 'real']);
  });

  test('by many processes at once, killed at any moment, leaves one whole book', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'dist');
    const script = join(import.meta.dirname, 'swap-for-ever.ts');
    build(out, 'first');
    for (let round = 0; round < 6; round++) {
      const swappers = ['a', 'b', 'c'].map((says) =>
        spawn(process.execPath, [script, out, says], { stdio: ['ignore', 'pipe', 'inherit'] }),
      );
      // Each has swapped at least once, so that the kill falls among swaps and not into the start.
      await Promise.all(swappers.map((child) => new Promise((done) => child.stdout.once('data', done))));
      const ended = swappers.map((child) => new Promise((done) => child.once('exit', done)));
      for (const child of swappers) child.kill('SIGKILL');
      await Promise.all(ended);
      await recover(out);
      expect(['first', 'a', 'b', 'c']).toContain(read(out));
      expect(readdirSync(folder)).toEqual(['dist']);
    }
  });
});

describe('what a dead build left behind', () => {
  test('its old book goes back into place if it died between the two renames', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'dist');
    const pid = deadPid();
    writeBook(join(folder, `.dist.switchleaf-previous-${pid}-00000000`), 'last good');
    writeFiles(folder, { [`.dist.switchleaf-previous-${pid}-00000000/${markerName}`]: 'Made by Switchleaf 1.0.0.\n' });
    writeBook(join(folder, `.dist.switchleaf-staging-${pid}-00000000`), 'new');
    await recover(out);
    expect(read(out)).toBe('last good');
    expect(readdirSync(folder)).toEqual(['dist']);
  });

  test('its staging folder goes, the one of a living build stays', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'dist');
    build(out, 'one');
    writeBook(join(folder, `.dist.switchleaf-staging-${deadPid()}-00000000`), 'half');
    const living = makeStaging(out);
    await recover(out);
    expect(read(out)).toBe('one');
    expect(existsSync(living)).toBe(true);
    expect(readdirSync(folder).length).toBe(2);
  });

  test('a half removed old book is never put back', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'dist');
    writeFiles(folder, { [`.dist.switchleaf-trash-${deadPid()}-00000000/pages/3.html`]: 'rest' });
    await recover(out);
    expect(readdirSync(folder)).toEqual([]);
  });
});
