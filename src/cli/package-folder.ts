/** The folder that holds package.json, src/ and public/: the project, or the installed package. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

export function packageFolder(): string {
  let folder = import.meta.dirname;
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
}

/** The tool's own version. */
export function packageVersion(): string {
  return (JSON.parse(readFileSync(join(packageFolder(), 'package.json'), 'utf8')) as { version: string }).version;
}
