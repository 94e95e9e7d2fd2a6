// Run as a process by out-folder.test.ts: swaps one small book after another into place until it is killed.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeStaging, putInPlace } from '../../src/cli/out-folder.ts';

const [out = '', says = ''] = process.argv.slice(2);
for (;;) {
  const staging = makeStaging(out);
  mkdirSync(join(staging, 'pages'));
  for (let i = 0; i < 40; i++) writeFileSync(join(staging, 'pages', `${i}.html`), says);
  putInPlace(staging, out, '1.0.0');
  process.stdout.write('.');
}
