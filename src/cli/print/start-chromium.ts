/** Starts the machine's browser, without windows and without a word to anybody. */
import { type Browser, chromium } from 'playwright-core';

const ARGUMENTS = [
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--no-first-run',
  // Letters as wide as the typeface has them, which drawings are measured with, not rounded to pixels.
  '--font-render-hinting=none',
];

/** Signals are left to whoever starts it, who also ends it. */
export function startChromium(executablePath: string): Promise<Browser> {
  // Chromium refuses its sandbox to root, as whom a build in a container runs. It opens files of the book alone.
  const args = process.getuid?.() === 0 ? [...ARGUMENTS, '--no-sandbox'] : ARGUMENTS;
  return chromium.launch({ executablePath, args, handleSIGINT: false, handleSIGTERM: false, handleSIGHUP: false });
}
