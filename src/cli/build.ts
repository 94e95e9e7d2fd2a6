/** `build`: check, make the pages in a staging folder, swap them in. The last good book stays until then. */
import { mkdirSync, readdirSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { type Diagnostic, Diagnostics } from '../diagnostics/index.ts';
import type { Request } from './arguments.ts';
import { type ExitStatus, exitStatus } from './exit-status.ts';
import { failure, isRefusedByMachine } from './failure.ts';
import type { Io } from './io.ts';
import { loadBook } from './load-book.ts';
import { discard, makeStaging, putInPlace, recover, refuse } from './out-folder.ts';
import { packageVersion } from './package-folder.ts';
import { report } from './report.ts';

/** Builds the book of the content folder into the out folder, and reports what came of it. */
export async function build(request: Request & { command: 'build' }, io: Io): Promise<ExitStatus> {
  const began = performance.now();
  const content = resolve(io.cwd, request.content);
  const out = resolve(io.cwd, request.out);
  const shown = relative(io.cwd, out).startsWith('..') ? out : relative(io.cwd, out) || '.';
  const untouched = (diagnostics: readonly Diagnostic[]) =>
    report(io, request.format, diagnostics, `Nothing was built; ${shown} is as it was.`);

  const refused = checkFolders(request, out, content);
  if (refused !== undefined) return untouched([refused]);
  const { book, diagnostics } = loadBook(content, request.content);
  if (book === undefined) return untouched(diagnostics);

  // From here on there is something to tidy up.
  const { stop } = io;
  const unwritable = await tryWriting(shown, () => prepare(out));
  if (unwritable !== undefined) return untouched([unwritable]);
  const staging = makeStaging(out);
  try {
    const { buildSite } = await import('./build-site.ts');
    const stopped = new Promise<'stopped'>((done) => stop.addEventListener('abort', () => done('stopped')));
    if (stop.aborted || (await Promise.race([buildSite(book, staging), stopped])) === 'stopped') {
      return exitStatus.stopped;
    }
    const pages = readdirSync(staging, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.html'),
    ).length;
    const unplaced = await tryWriting(shown, () => putInPlace(staging, out, packageVersion()));
    if (unplaced !== undefined) return untouched([...diagnostics, unplaced]);
    const seconds = ((performance.now() - began) / 1000).toFixed(1);
    return report(io, request.format, diagnostics, `Built ${pages} pages into ${shown} in ${seconds} s.`);
  } finally {
    discard(staging, out);
  }
}

/** What is wrong with the folders asked for, before anything is touched. */
function checkFolders(request: Request & { command: 'build' }, out: string, content: string): Diagnostic | undefined {
  const diagnostics = new Diagnostics();
  switch (refuse(out, content)) {
    case 'not a folder':
      diagnostics.report('SL606', { out: request.out });
      break;
    case 'not ours':
      diagnostics.report('SL607', { out: request.out });
      break;
    case 'inside content':
      diagnostics.report('SL608', { out: request.out, content: request.content, how: 'inside content' });
      break;
    case 'around content':
      diagnostics.report('SL608', { out: request.out, content: request.content, how: 'around content' });
      break;
    case undefined:
  }
  return diagnostics.all[0];
}

/** Makes room beside `out` and clears what dead builds left there. */
async function prepare(out: string): Promise<void> {
  mkdirSync(dirname(out), { recursive: true });
  await recover(out);
  discard(makeStaging(out), out);
}

/** Does `action`; where the machine refuses it, says so instead. */
async function tryWriting(out: string, action: () => void | Promise<void>): Promise<Diagnostic | undefined> {
  try {
    await action();
    return undefined;
  } catch (error) {
    if (!isRefusedByMachine(error)) throw error;
    const diagnostics = new Diagnostics();
    diagnostics.report('SL609', { out, reason: failure(error) });
    return diagnostics.all[0];
  }
}
