// For `astro check` and editors only: the command makes its settings for each run by itself (src/cli/site-config.ts).
import { join } from 'node:path';
import { defineConfig } from 'astro/config';
import { bookModule } from './src/cli/book-module.ts';
import { siteConfig } from './src/cli/site-config.ts';

const noBook = bookModule(async () => {
  throw new Error('The book is built by "npm run build".');
});

export default defineConfig({
  ...siteConfig(noBook, {
    out: join(import.meta.dirname, 'dist'),
    cache: join(import.meta.dirname, 'node_modules', '.cache'),
  }),
  root: import.meta.dirname,
});
