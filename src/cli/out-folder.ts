/**
 * Puts a finished book in place of the last one, whole or not at all.
 *
 * A build writes into a staging folder beside the out folder (same file system), and two renames swap it in: the old book
 * aside, the new one into place. What holds, on one machine:
 * - A reader finds the whole old book or the whole new one, never a mixture. Between the two renames, for some
 *   microseconds, there is none.
 * - A build killed at any moment leaves the old book or the new one in place. If it is killed exactly between the two
 *   renames, the old book stands aside, and the next build puts it back before it does anything else.
 * - Builds that run at once each have their own staging folder; the last to finish wins, whole.
 * - What dead builds left behind is cleared by the next one.
 */
import { randomBytes } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, sep } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

/** A file in every book that says who made the folder: only such a folder is ever replaced. */
export const markerName = 'made-by-switchleaf.txt';

const markerStart = 'Made by Switchleaf';

/** Why a folder can't take the book. */
export type Refusal = 'not a folder' | 'not ours' | 'inside content' | 'around content';

/** The folders that stand beside the out folder: being written, moved aside, or waiting to be removed. */
type Kind = 'staging' | 'previous' | 'trash';

/** Says whether the book may go to `out`; both paths absolute, `out` need not exist. */
export function refuse(out: string, content: string): Refusal | undefined {
  const [realOut, realContent] = [realPath(out), realPath(content)];
  if (isInside(realOut, realContent)) return 'inside content';
  if (isInside(realContent, realOut)) return 'around content';
  const found = statSync(realOut, { throwIfNoEntry: false });
  if (!found) return undefined;
  if (!found.isDirectory()) return 'not a folder';
  let names: readonly string[] = [];
  attempt(() => {
    names = readdirSync(realOut);
  }, ['ENOENT']);
  return names.length === 0 || hasMarker(realOut) ? undefined : 'not ours';
}

/** Clears what dead builds left beside `out`, and puts the last good book back where one died in the middle of the swap. */
export async function recover(out: string): Promise<void> {
  const target = realPath(out);
  // A live build is between its two renames for microseconds. Whoever is there longer is dead or held, and loses nothing:
  // it finds the folder taken, and swaps again.
  const isHeld = () => !existsSync(target) && beside(target, 'previous').some(({ pid }) => isAlive(pid));
  for (let tries = 0; tries < 20 && isHeld(); tries++) await wait(50);
  if (!existsSync(target)) {
    const newest = beside(target, 'previous').sort((a, b) => madeAt(b.path) - madeAt(a.path))[0];
    if (newest !== undefined) attempt(() => renameSync(newest.path, target), ['ENOENT', 'ENOTEMPTY', 'EEXIST']);
  }
  for (const kind of ['staging', 'previous', 'trash'] as const) {
    for (const { path, pid } of beside(target, kind)) if (!isAlive(pid)) discard(path, target);
  }
}

/** Makes an empty folder beside `out` to write a book into. */
export function makeStaging(out: string): string {
  const target = realPath(out);
  const staging = newName(target, 'staging');
  mkdirSync(staging, { recursive: true });
  return staging;
}

/** Marks the book in `staging` as ours and puts it in place of whatever book stands at `out`. */
export function putInPlace(staging: string, out: string, version: string): void {
  writeFileSync(
    join(staging, markerName),
    `${markerStart} ${version}.\nEvery build replaces this folder as a whole. Keep nothing of your own in it.\n`,
  );
  const target = realPath(out);
  for (;;) {
    const previous = newName(target, 'previous');
    const moved = attempt(() => renameSync(target, previous), ['ENOENT']);
    try {
      // If another build put its book here since the line above, this one fails and moves that book aside too.
      const placed = attempt(() => renameSync(staging, target), ['ENOTEMPTY', 'EEXIST']);
      if (moved) discard(previous, target);
      if (placed) return;
    } catch (error) {
      if (moved) renameSync(previous, target);
      throw error;
    }
  }
}

/** Removes a folder beside `out`. Renamed first, so that one half removed is never taken for a book to put back. */
export function discard(folder: string, out: string): void {
  const trash = newName(realPath(out), 'trash');
  if (attempt(() => renameSync(folder, trash), ['ENOENT'])) rmSync(trash, { recursive: true, force: true });
}

/** Runs `action`; false if it failed in one of the ways that are expected. */
function attempt(action: () => void, expected: readonly string[]): boolean {
  try {
    action();
    return true;
  } catch (error) {
    if (expected.includes((error as NodeJS.ErrnoException).code ?? '')) return false;
    throw error;
  }
}

const prefixOf = (target: string, kind: Kind) => `.${basename(target)}.switchleaf-${kind}-`;

function newName(target: string, kind: Kind): string {
  return join(dirname(target), `${prefixOf(target, kind)}${process.pid}-${randomBytes(4).toString('hex')}`);
}

function beside(target: string, kind: Kind): { path: string; pid: number }[] {
  const prefix = prefixOf(target, kind);
  const parent = dirname(target);
  if (!existsSync(parent)) return [];
  return readdirSync(parent)
    .filter((name) => name.startsWith(prefix))
    .sort()
    .map((name) => ({ path: join(parent, name), pid: Number(name.slice(prefix.length).split('-')[0]) }));
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function hasMarker(folder: string): boolean {
  try {
    return readFileSync(join(folder, markerName), 'utf8').startsWith(markerStart);
  } catch {
    return false;
  }
}

function madeAt(book: string): number {
  return statSync(join(book, markerName), { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

/**
 * `path` with the links of its existing part followed, so that two names of one folder compare equal. Not asked first
 * whether it exists: another build may be swapping it at this moment.
 */
function realPath(path: string): string {
  let real: string | undefined;
  attempt(() => {
    real = realpathSync(path);
  }, ['ENOENT', 'ENOTDIR']);
  if (real !== undefined) return real;
  const parent = dirname(path);
  return parent === path ? path : join(realPath(parent), basename(path));
}

function isInside(inner: string, outer: string): boolean {
  const way = relative(outer, inner);
  return way === '' || !(way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way));
}
