/** The browser that prints: any Chromium or Chrome of the machine. */
import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Without windows it opens a page in half the time. */
const names = [
  'chromium-headless-shell',
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
];

function isExecutable(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}

/** The one named by CHROMIUM_PATH if that is set, else the first one on the PATH; undefined if there is none. */
export function findChromium(): string | undefined {
  const named = process.env['CHROMIUM_PATH'];
  if (named !== undefined && named !== '') return isExecutable(named) ? named : undefined;
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.flatMap((folder) => names.map((name) => join(folder, name))).find(isExecutable);
}
