import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { temporaryFolder } from './temporary-folder.ts';

export const projectFolder = join(import.meta.dirname, '..', '..');

/** The content of the demo. */
export const demoFolder = join(projectFolder, 'content');

/** A fleet of twelve aircraft with exterior lights only: small enough for interpreters that walk every case. */
export const smallFleet = join(projectFolder, 'tests', 'book', 'small-fleet');

/** The small good content of the fixtures. */
export const smallContent = join(projectFolder, 'tests', 'fixtures', 'base');

/** A folder with a copy of the small good content of the fixtures in "content"; removed as `temporaryFolder` says. */
export function smallProject(...whenDone: Parameters<typeof temporaryFolder>): string {
  const folder = temporaryFolder(...whenDone);
  cpSync(smallContent, join(folder, 'content'), { recursive: true });
  return folder;
}

/** Replaces a text that stands exactly once in a file. */
export function edit(file: string, from: string, to: string): void {
  const text = readFileSync(file, 'utf8');
  if (text.split(from).length !== 2) throw new Error(`"${from}" does not stand exactly once in ${file}`);
  writeFileSync(
    file,
    text.replace(from, () => to),
  );
}
