/** The preview's server: Astro's own, with the last good book in it and the errors of the content over every page. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join } from 'node:path';
import '../astro-environment.ts';
import { type AstroIntegration, dev } from 'astro';
import type { Book } from '../../book/index.ts';
import { bookModule } from '../book-module.ts';
import { siteConfig } from '../site-config.ts';
import { makeWorkFolder, removeWorkFolder } from '../work-folder.ts';
import type { Draft } from './draft.ts';
import { plainPage } from './plain-page.ts';

export interface PreviewServer {
  /** Where the start page is. */
  readonly address: string;
  /** Tells every open page how the draft stands; with `reload`, they are all drawn anew. */
  tell(reload: boolean): Promise<void>;
  stop(): Promise<void>;
}

/** Browser code beside this file, under the address that the dev server has for it; compiled in an installed package. */
const overlayScript = `/@fs/${join(
  import.meta.dirname,
  `overlay${import.meta.filename.endsWith('.ts') ? '.ts' : '.js'}`,
)
  .replaceAll('\\', '/')
  .replace(/^\//, '')}`;

/** What Astro gets while there is no good book, since it loads the pages at once. Nobody sees it: `answer` steps in. */
const emptyBook: Book = {
  frame: {
    operator: '',
    type: '',
    title: '',
    revision: '',
    date: '',
    language: 'en',
    paper: 'A4',
    cautions: [],
    fleet: [],
    contents: [],
  },
  pages: [],
  topics: new Map(),
  search: [],
  index: new Map(),
  tables: new Map(),
  quotes: new Map(),
  formerAnchors: new Map(),
  comparison: undefined,
  explorer: undefined,
  seen: { sets: [], periods: [], choices: {} },
};

type Hooks = AstroIntegration['hooks'];
type ViteServer = Parameters<NonNullable<Hooks['astro:server:setup']>>[0]['server'];

/** Starts serving `draft` on `port` (or the next free one), on this machine only. */
export async function servePreview(draft: Draft, port: number): Promise<PreviewServer> {
  const cache = makeWorkFolder();
  const book = bookModule(async () => draft.lastGood ?? emptyBook);
  let vite: ViteServer | undefined;
  const overlay: AstroIntegration = {
    name: 'switchleaf:overlay',
    hooks: {
      'astro:config:setup': ({ injectScript }) => injectScript('page', `import ${JSON.stringify(overlayScript)};`),
      'astro:server:setup': ({ server }) => {
        vite = server;
        server.middlewares.use((request, response, next) => {
          if (!answer(draft, request, response)) next();
        });
      },
    },
  };
  // Whatever the shell has set: only a draft is followed as it changes.
  process.env['NODE_ENV'] = 'development';
  const config = siteConfig(book, { out: join(cache, 'out'), cache });
  const server = await dev({
    ...config,
    configFile: false,
    logLevel: 'error',
    server: { port, host: 'localhost' },
    integrations: [...(config.integrations ?? []), overlay],
  });
  return {
    address: `http://localhost:${server.address.port}/`,
    async tell(reload) {
      if (reload) await book.refresh();
      vite?.environments.client.hot.send('switchleaf:notice', draft.notice);
    },
    async stop() {
      await server.stop();
      removeWorkFolder(cache);
    },
  };
}

/** Answers what is not the book's: the notice, and pages that the book doesn't have. False if the book is to answer. */
function answer(draft: Draft, request: IncomingMessage, response: ServerResponse): boolean {
  const { pathname } = new URL(request.url ?? '/', 'http://localhost');
  const send = (status: number, type: string, body: string): true => {
    response.writeHead(status, { 'Content-Type': `${type}; charset=utf-8`, 'Cache-Control': 'no-store' });
    response.end(body);
    return true;
  };
  if (pathname === '/@switchleaf/notice') return send(200, 'application/json', JSON.stringify(draft.notice));

  // A page, as opposed to a style, a script or something of the dev server's own.
  const isPage = !/^\/(@|node_modules\/)/.test(pathname) && /(^|\/)[^/.]*(\.html)?$/.test(pathname);
  if (!isPage) return false;
  if (draft.lastGood === undefined) {
    const title = 'There is no good book yet';
    return send(
      503,
      'text/html',
      plainPage(title, 'This page turns into the book when the errors are mended.', overlayScript),
    );
  }
  const address = pathname
    .slice(1)
    .replace(/(^|\/)$/, '$1index')
    .replace(/\.html$/, '');
  const page = draft.lastGood.pages.find((each) => each.address === `${address}.html`);
  if (page !== undefined) {
    // Made here and now, so that what is in its way is told like any other error of the content.
    if (draft.make((book) => [page.title, book.tables, book.quotes])) return false;
    const words = 'What is in its way is told on this page.';
    return send(500, 'text/html', plainPage('This page cannot be made', words, overlayScript));
  }
  const words = 'The book has no such page. It may have been renamed or removed since the page was opened.';
  return send(404, 'text/html', plainPage('No such page', words, overlayScript));
}
