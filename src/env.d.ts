/// <reference types="astro/client" />

declare module 'virtual:switchleaf/book' {
  /** The book of this run; see src/cli/book-module.ts. */
  export const book: import('./book/index.ts').Book;
}
