/**
 * Writes, at the end of a build, the script that keeps the whole book on a reader's device (src/islands/worker/offline.ts),
 * with the digest of every file of this build in it.
 */
import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import type { Frame } from '../book/index.ts';
import { bundle } from './bundle.ts';
import { packageFolder } from './package-folder.ts';

export function offlineCopy({ revision, date }: Frame): AstroIntegration {
  return {
    name: 'switchleaf:offline-copy',
    hooks: {
      'astro:build:done': async ({ dir }) => {
        const root = fileURLToPath(dir);
        const [code = ''] = await bundle([join(packageFolder(), 'src', 'islands', 'worker', 'offline.ts')], {
          BOOK_FILES: JSON.stringify(await digests(root)),
          BOOK_EDITION: JSON.stringify({ revision, date }),
          'process.env.NODE_ENV': '"production"',
        });
        await writeFile(join(root, 'offline.js'), code);
      },
    },
  };
}

/** Every file of the folder by its address, sorted, with its digest as version and as what the browser must find. */
async function digests(root: string): Promise<{ url: string; revision: string; integrity: string }[]> {
  const entries = await readdir(root, { recursive: true, withFileTypes: true });
  const urls = entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
  return Promise.all(
    urls.map(async (url) => {
      const digest = createHash('sha256')
        .update(await readFile(join(root, url)))
        .digest('base64');
      return { url, revision: digest.slice(0, 16), integrity: `sha256-${digest}` };
    }),
  );
}
