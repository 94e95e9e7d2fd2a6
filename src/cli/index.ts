export { bookModule } from './book-module.ts';
export { type ExitStatus, exitStatus } from './exit-status.ts';
export type { Io, Output } from './io.ts';
export { loadBook } from './load-book.ts';
export { run } from './run.ts';
export { siteConfig } from './site-config.ts';
