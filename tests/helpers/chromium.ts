/** The browser for tests is the one that the command prints with. */
export { findChromium } from '../../src/cli/print/find-chromium.ts';
