import { type Browser, chromium } from 'playwright-core';
import { findChromium } from '../../src/cli/print/find-chromium.ts';

/** The browser for tests is the one that the command prints with. */
export { findChromium };

/** Starts it; whoever does ends it. Throws where there is none. */
export async function launchChromium(): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error('No Chromium found; set CHROMIUM_PATH.');
  return chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
}
