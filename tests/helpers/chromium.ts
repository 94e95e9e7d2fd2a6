import type { Browser } from 'playwright-core';
import { findChromium } from '../../src/cli/print/find-chromium.ts';
import { startChromium } from '../../src/cli/print/start-chromium.ts';

/** The browser for tests is the one that the command prints with. */
export { findChromium };

/** Starts it; whoever does ends it. Throws where there is none. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error('No Chromium found; set CHROMIUM_PATH.');
  return startChromium(executablePath);
}
