export { bookModule } from './book-module.ts';
export { exitStatus, type ExitStatus } from './exit-status.ts';
export type { Io, Output } from './io.ts';
export { loadBook } from './load-book.ts';
export { run } from './run.ts';
export { siteConfig } from './site-config.ts';
