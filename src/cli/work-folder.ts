/** The folder in which Astro works for one run. */
import { mkdtempSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** Where Astro and the packages beside it are installed. */
export function packagesFolder(): string {
  return dirname(dirname(createRequire(import.meta.url).resolve('astro/package.json')));
}

/**
 * Makes an empty folder for Astro's root, but for a link to the packages: what Astro makes up while it runs imports them as if from
 * there. A link for folders needs no rights on Windows when it is a junction.
 */
export function makeWorkFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'switchleaf-')));
  symlinkSync(packagesFolder(), join(folder, 'node_modules'), 'junction');
  return folder;
}

/** Removes it with the link, not what this leads to. */
export function removeWorkFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}
