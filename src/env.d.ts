/// <reference types="astro/client" />

declare module 'virtual:switchleaf/islands' {
  /** The code of each script of the pages, by name; see src/cli/islands.ts. */
  export const islands: Readonly<Record<string, string>>;
}

declare module 'virtual:switchleaf/book' {
  /** Whether the pages are served while they are edited, and not built. No environment variable decides it. */
  export const preview: boolean;
  /** The book of this run; see src/cli/book-module.ts. */
  export const book: import('./book/index.ts').Book;
}
