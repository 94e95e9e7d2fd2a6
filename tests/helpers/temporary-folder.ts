import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

/** An empty folder that is removed when the running test ends; for a whole file `whenDone` is `afterAll`. */
export function temporaryFolder(whenDone: (clean: () => void) => void = onTestFinished): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'switchleaf-test-')));
  whenDone(() => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }));
  return folder;
}

/** Writes files, by path relative to `folder`, with the folders that they need. */
export function writeFiles(folder: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  for (const [path, content] of Object.entries(files)) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
  }
}
