/**
 * Makes the addresses of styles and fonts relative at the end of a build, so that the book works from a sub-folder of a
 * server and from a folder opened without one. Page links are relative from the start; only what Vite names is left.
 */
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';

const ASSETS = '_astro';

/** `text` of the file at `path` (forward slashes, from the book's root) with its asset addresses made relative. */
export function withRelativeAssets(path: string, text: string): string {
  const up = '../'.repeat(path.split('/').length - 1) || './';
  return path.endsWith('.css')
    ? text.replaceAll(`url(/${ASSETS}/`, `url(${up}${ASSETS}/`)
    : text.replaceAll(`"/${ASSETS}/`, `"${up}${ASSETS}/`);
}

export function relativeAddresses(): AstroIntegration {
  return {
    name: 'switchleaf:relative-addresses',
    hooks: {
      'astro:build:done': async ({ dir }) => {
        const root = fileURLToPath(dir);
        for (const entry of await readdir(root, { recursive: true, withFileTypes: true })) {
          if (!entry.isFile() || !/\.(?:html|css)$/.test(entry.name)) continue;
          const file = join(entry.parentPath, entry.name);
          const text = await readFile(file, 'utf8');
          const changed = withRelativeAssets(relative(root, file).split(sep).join('/'), text);
          if (changed !== text) await writeFile(file, changed);
        }
      },
    },
  };
}
