#!/usr/bin/env node
// The command as npm links it. Plain JavaScript that old versions of Node can read: where Node is too old for the rest, it
// hands over to the pinned one of the `node` package, and says what to do where that is missing.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import module, { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const needed = 24;

/** The executable of the `node` package, or undefined where its install script did not run. */
function pinnedNode() {
  try {
    const folder = dirname(createRequire(import.meta.url).resolve('node/package.json'));
    const file = join(folder, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
    return existsSync(file) ? file : undefined;
  } catch {
    return undefined;
  }
}

if (Number(process.versions.node.split('.')[0]) >= needed) {
  // Halves the time to start from the second time on; Node finds the compiled code of just these sources.
  module.enableCompileCache?.();
  // Node runs TypeScript as it is, but not inside node_modules: an installed package has compiled files.
  const installed = import.meta.url.includes('/node_modules/');
  await import(installed ? '../lib/cli/main.js' : '../src/cli/main.ts');
} else {
  const node = pinnedNode();
  if (node === undefined) {
    console.error(
      `Switchleaf needs Node ${needed}, and this is Node ${process.versions.node}. "npm ci" installs the right one into ` +
        'node_modules; if it did not, try "npm rebuild node".',
    );
    process.exitCode = 2;
  } else {
    const child = spawn(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], { stdio: 'inherit' });
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
    child.on('exit', (code, signal) => {
      process.exitCode = code ?? (signal === 'SIGINT' ? 130 : 143);
    });
  }
}
