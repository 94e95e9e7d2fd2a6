/**
 * The scripts of the pages, each one classic file. A virtual module, `virtual:switchleaf/islands`, hands their code to the pages that serve them.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { AstroIntegration } from 'astro';
import { bundle } from './bundle.ts';
import { packageFolder } from './package-folder.ts';

const NAME = 'virtual:switchleaf/islands';
/** Vite's convention: a NUL keeps other plugins away from the id. */
const RESOLVED = `\0${NAME}`;

export function islandScripts(): AstroIntegration {
  return {
    name: 'switchleaf:islands',
    hooks: {
      'astro:config:setup': ({ updateConfig }) => {
        updateConfig({
          vite: {
            plugins: [
              {
                name: 'switchleaf:islands',
                resolveId: (id: string) => (id === NAME ? RESOLVED : undefined),
                load: async (id: string) =>
                  id === RESOLVED ? `export const islands = ${JSON.stringify(await bundled())};` : undefined,
              },
            ],
          },
        });
      },
    },
  };
}

/** The code of every file of src/islands, by its name. */
async function bundled(): Promise<Record<string, string>> {
  const folder = join(packageFolder(), 'src', 'islands');
  const names = readdirSync(folder)
    .filter((file) => file.endsWith('.ts'))
    .sort();
  const codes = await bundle(names.map((name) => join(folder, name)));
  return Object.fromEntries(names.map((name, at) => [name.replace(/\.ts$/, ''), codes[at] ?? '']));
}
