/** The settings of the site, the same for a build, a preview and a test; only where the book comes from and goes differs. */
import { join } from 'node:path';
import type { AstroUserConfig } from 'astro';
import type { BookModule } from './book-module.ts';
import { islandScripts } from './islands.ts';
import { packageFolder } from './package-folder.ts';
import { relativeAddresses } from './relative-addresses.ts';
import { packagesFolder } from './work-folder.ts';

export interface SiteFolders {
  /** Where the built book goes. */
  readonly out: string;
  /** The work folder of this run, for whatever Astro and Vite write beside the book. */
  readonly cache: string;
}

export function siteConfig(book: BookModule, { out, cache }: SiteFolders): AstroUserConfig {
  const project = packageFolder();
  return {
    // Astro writes into its root. An installed package must stay as it is, and runs at the same time must not meet.
    root: cache,
    srcDir: join(project, 'src'),
    publicDir: join(project, 'public'),
    outDir: out,
    cacheDir: join(cache, 'astro'),
    output: 'static',
    devToolbar: { enabled: false },
    prefetch: false,
    build: { format: 'file', inlineStylesheets: 'never', assets: '_astro' },
    integrations: [book, islandScripts(), relativeAddresses()],
    vite: {
      cacheDir: join(cache, 'vite'),
      // What the preview may hand out: the project, and the packages, which may lie beside it.
      server: { fs: { allow: [cache, project, packagesFolder()] } },
      build: { assetsInlineLimit: 0, sourcemap: false, cssTarget: 'esnext' },
    },
  };
}
