// Settings that change with the run come from the command line through the environment: SWITCHLEAF_CONTENT (the content
// folder), SWITCHLEAF_OUT (where the book goes), SWITCHLEAF_CACHE (scratch space). The rest: src/cli/site-config.ts.
import { resolve } from 'node:path';
import { defineConfig } from 'astro/config';
import { bookModule } from './src/cli/book-module.ts';
import { loadBook } from './src/cli/load-book.ts';
import { siteConfig } from './src/cli/site-config.ts';

const content = resolve(process.env.SWITCHLEAF_CONTENT ?? 'content');

async function load() {
  const { book } = await loadBook(content);
  if (book === undefined) throw new Error(`The content in ${content} has errors; \`npm run check\` lists them.`);
  return book;
}

export default defineConfig(
  siteConfig(bookModule(load), {
    out: resolve(process.env.SWITCHLEAF_OUT ?? 'dist'),
    cache: resolve(process.env.SWITCHLEAF_CACHE ?? 'node_modules/.cache/switchleaf'),
  }),
);
