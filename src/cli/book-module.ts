/**
 * Brings the book into the pages: an Astro integration whose virtual module `virtual:switchleaf/book` exports it.
 *
 * Pages are rendered in the process that loads the book, so the module hands over the object itself. Nothing is
 * serialised: maps stay maps, and a large book costs no parsing.
 */
import type { AstroIntegration } from 'astro';
import type { Book } from '../book/index.ts';

const NAME = 'virtual:switchleaf/book';
/** Vite's convention: a NUL keeps other plugins away from the id. */
const RESOLVED = `\0${NAME}`;
const SHELF = Symbol.for('switchleaf.books');

type Shelf = { [SHELF]?: Map<number, Book | undefined> };

/** Every book of this process by number, where the virtual module's code finds it again. */
function shelf(): Map<number, Book | undefined> {
  const home = globalThis as Shelf;
  home[SHELF] ??= new Map();
  return home[SHELF];
}

export interface BookModule extends AstroIntegration {
  /** Preview: asks `load` again and reloads every open page. Does nothing before the dev server runs. */
  refresh(): Promise<void>;
}

type DevServer = Parameters<NonNullable<AstroIntegration['hooks']['astro:server:setup']>>[0]['server'];

/**
 * Makes the integration. `load` is asked once for a build and, in preview, once more for each `refresh`; it must give a
 * book (in preview the last good one, where the content has errors) or reject, which ends the build.
 */
export function bookModule(load: () => Promise<Book>): BookModule {
  const number = shelf().size;
  shelf().set(number, undefined);
  let dev: DevServer | undefined;
  return {
    name: 'switchleaf:book',
    hooks: {
      'astro:config:setup': ({ command, updateConfig }) => {
        updateConfig({
          vite: {
            plugins: [
              {
                name: 'switchleaf:book',
                resolveId: (id: string) => (id === NAME ? RESOLVED : undefined),
                load: async (id: string) => {
                  if (id !== RESOLVED) return undefined;
                  shelf().set(number, await load());
                  return code(number, command === 'dev');
                },
              },
            ],
          },
        });
      },
      'astro:server:setup': ({ server }) => {
        dev = server;
      },
    },
    async refresh() {
      if (dev === undefined) return;
      shelf().set(number, await load());
      for (const environment of Object.values(dev.environments)) {
        // Astro keeps the list of pages; this is its own event for dropping it.
        environment.hot.send('astro:content-changed', {});
      }
      dev.environments.client.hot.send({ type: 'full-reload' });
    },
  };
}

/** The module's code. It looks the book up anew at each use, so that a refresh needs no module to be loaded again. */
function code(number: number, preview: boolean): string {
  const current = `globalThis[Symbol.for('switchleaf.books')].get(${number})`;
  const getters = [
    'frame',
    'pages',
    'index',
    'tables',
    'topics',
    'quotes',
    'formerAnchors',
    'seen',
    'comparison',
    'explorer',
    'search',
  ].map((part) => `get ${part}() { return ${current}.${part}; }`);
  return `export const preview = ${preview};\nexport const book = { ${getters.join(', ')} };`;
}
