/** Builds the sample book into a folder, for the tests of the pages. `npx node tests/site/build.ts FOLDER` for the eye. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { build } from 'astro';
import type { Book } from '../../src/book/book.ts';
import { bookModule } from '../../src/cli/book-module.ts';
import { siteConfig } from '../../src/cli/site-config.ts';
import { sampleBook } from './sample-book.ts';

/** Builds `book` into `out`; scratch space is made and removed. */
export async function buildBook(book: Book, out: string): Promise<void> {
  const cache = await mkdtemp(join(tmpdir(), 'switchleaf-site-'));
  try {
    const config = siteConfig(bookModule(async () => book), { out, cache });
    await build({ ...config, configFile: false, logLevel: 'error' });
  } finally {
    await rm(cache, { recursive: true, force: true });
  }
}

if (import.meta.main) await buildBook(sampleBook, resolve(process.argv[2] ?? 'dist'));
