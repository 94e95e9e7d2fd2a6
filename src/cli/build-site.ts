/** Astro's part of a build: pages out of a book, into a folder. Imported only when there is something to build. */
import { join } from 'node:path';
import './astro-environment.ts';
import { build } from 'astro';
import type { Book } from '../book/index.ts';
import { bookModule } from './book-module.ts';
import { compiledPages } from './compiled-pages.ts';
import { offlineCopy } from './offline-copy.ts';
import { siteConfig } from './site-config.ts';
import { makeWorkFolder, removeWorkFolder } from './work-folder.ts';

/** Writes the pages of `book` into the empty folder `out`. Rejects when Astro fails. */
export async function buildSite(book: Book, out: string): Promise<void> {
  const cache = makeWorkFolder();
  // Whatever the shell or a test runner has set: a book is never built as a developer's draft.
  const { NODE_ENV: before } = process.env;
  process.env['NODE_ENV'] = 'production';
  try {
    const config = siteConfig(
      bookModule(async () => book),
      { out, cache },
    );
    // The offline copy last: it tells of every file as it is in the finished book.
    const integrations = [...(config.integrations ?? []), compiledPages(join(cache, 'pages')), offlineCopy(book.frame)];
    await build({ ...config, integrations, configFile: false, logLevel: 'error' });
  } finally {
    if (before === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = before;
    removeWorkFolder(cache);
  }
}
