/** The settings of the site, the same for a build, a preview and a test; only where the book comes from and goes differs. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroUserConfig } from 'astro';
import type { BookModule } from './book-module.ts';
import { relativeAddresses } from './relative-addresses.ts';

export interface SiteFolders {
  /** Where the built book goes. */
  readonly out: string;
  /** Scratch space of Astro and Vite, never inside an installed package. */
  readonly cache: string;
}

export function siteConfig(book: BookModule, { out, cache }: SiteFolders): AstroUserConfig {
  return {
    root: fileURLToPath(new URL('../../', import.meta.url)),
    outDir: out,
    cacheDir: join(cache, 'astro'),
    output: 'static',
    devToolbar: { enabled: false },
    prefetch: false,
    build: { format: 'file', inlineStylesheets: 'never', assets: '_astro' },
    integrations: [book, relativeAddresses()],
    vite: {
      cacheDir: join(cache, 'vite'),
      build: { assetsInlineLimit: 0, sourcemap: false, cssTarget: 'esnext' },
    },
  };
}
