/** `release`: writes what this revision of the book says beside its content, for later ones to be compared with. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { releasePath, releaseText } from '../book/index.ts';
import type { Request } from './arguments.ts';
import type { ExitStatus } from './exit-status.ts';
import { failure, isRefusedByMachine } from './failure.ts';
import type { Io } from './io.ts';
import { compileFolder } from './load-book.ts';
import { report } from './report.ts';

/** Writes releases/REVISION.json, where the content is sound and that revision has not been released yet. */
export function release({ content, format }: Request & { command: 'release' }, io: Io): ExitStatus {
  const folder = resolve(io.cwd, content);
  const { compiled, releases, diagnostics } = compileFolder(folder, content);
  const unwritten = (): ExitStatus => report(io, format, diagnostics.all, 'Nothing was released.');
  if (compiled === undefined) return unwritten();
  const { revision, date, revisionPlace } = compiled.fleet.book;
  const path = releasePath(compiled);
  const own = releases.find((each) => each.revision === revision);
  if (own) {
    diagnostics.report('SL614', { revision, path: `releases/${own.name}.json` }, revisionPlace);
    return unwritten();
  }
  try {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    // What is there is never written over.
    writeFileSync(file, releaseText(compiled, releases[0]), { flag: 'wx' });
  } catch (error) {
    if (!isRefusedByMachine(error)) throw error;
    diagnostics.report('SL615', { path, reason: failure(error) });
    return unwritten();
  }
  const outcome = `Released revision ${revision} of ${date} as ${path}. Give the book a new revision before its content changes.`;
  return report(io, format, diagnostics.all, outcome);
}
