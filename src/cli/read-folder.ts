/** The edge where content comes in: a folder of the author's, read into source files. */
import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Diagnostics, SourceFile } from '../diagnostics/index.ts';
import { isContentPath } from '../model/index.ts';
import { failure } from './failure.ts';

/**
 * Reads every content file below `folder`, sorted by path. What can't be read is reported and left out; a file that is not
 * UTF-8 is reported at its first bad byte. `shown` is the name of the folder as the author wrote it.
 */
export function readFolder(folder: string, shown: string, diagnostics: Diagnostics): readonly SourceFile[] {
  const found = statSync(folder, { throwIfNoEntry: false });
  if (!found?.isDirectory()) {
    diagnostics.report(found === undefined ? 'SL601' : 'SL603', { folder: shown });
    return [];
  }
  return contentPaths(folder).flatMap((path) => readContentFile(folder, path, diagnostics) ?? []);
}

/**
 * Paths of the content files below `folder`, relative to it, with forward slashes, in the same order everywhere. Links are
 * followed; one that points to nothing is listed, so that somebody notices.
 */
export function contentPaths(folder: string): readonly string[] {
  const paths: string[] = [];
  const visit = (below: string, above: readonly string[]): void => {
    const real = realpathSync(join(folder, below));
    // A link that leads back up would go round for ever.
    if (above.includes(real)) return;
    for (const name of readdirSync(real)) {
      if (name.startsWith('.')) continue;
      const path = below === '' ? name : `${below}/${name}`;
      if (statSync(join(real, name), { throwIfNoEntry: false })?.isDirectory()) visit(path, [...above, real]);
      else if (isContentPath(path)) paths.push(path);
    }
  };
  visit('', []);
  return paths.sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}

function readContentFile(folder: string, path: string, diagnostics: Diagnostics): SourceFile | undefined {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(join(folder, path));
  } catch (error) {
    diagnostics.report('SL604', { path, reason: failure(error) });
    return undefined;
  }
  try {
    return { path, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    // Decoded again with replacement characters, to show the line. The first one marks the spot.
    const file = { path, text: new TextDecoder('utf-8').decode(bytes) };
    const start = Math.max(0, file.text.indexOf('\uFFFD'));
    diagnostics.report('SL605', { path }, { file, start, end: start + 1 });
    // What it defines is still known to the other files, which are judged too.
    return file;
  }
}
