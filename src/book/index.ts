export { ABOUT, DIFFERENCES, HOME } from './addresses.ts';
export type * from './book.ts';
export type * from './book-reference.ts';
export type * from './book-supplies.ts';
export type * from './book-time.ts';
export type * from './book-tours.ts';
export { plain } from './cells.ts';
export { makeBook } from './make-book.ts';
export { plainLabel } from './mermaid.ts';
