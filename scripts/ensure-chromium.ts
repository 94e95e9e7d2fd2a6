/**
 * Sees to it that the browser tests find a Chromium: the one named by CHROMIUM_PATH, one on the PATH, or, where this user may
 * install packages with apt, a fresh one. Prints nothing when there is one already.
 */
import { spawnSync } from 'node:child_process';
import { findChromium } from '../tests/helpers/chromium.ts';

function apt(...args: string[]): boolean {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0;
}

if (findChromium() === undefined) {
  const root = process.getuid?.() === 0;
  if (root) console.log('Installing Chromium for the browser tests ...');
  const install = (name: string): boolean => apt('install', '-y', '-qq', '--no-install-recommends', name);
  // The one without windows is smaller and quicker; older systems do not have it.
  const installed = root && apt('update', '-qq') && (install('chromium-headless-shell') || install('chromium'));
  if (!installed || findChromium() === undefined) {
    console.error(
      'The browser tests need Chromium or Chrome, and none was found. Install one (Debian and Ubuntu: "apt-get install chromium" ' +
        'as root), or set CHROMIUM_PATH to its executable, and run "npm test" again.',
    );
    process.exitCode = 1;
  }
}
