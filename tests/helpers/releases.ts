/** Releases without files. */
import { type Release, releaseText } from '../../src/book/index.ts';
import type { Compiled } from '../../src/compile/index.ts';

/** A compiled book as a release of it is read back. */
export function releaseOf(compiled: Compiled): Release {
  const { revision, date, book } = JSON.parse(releaseText(compiled));
  return { name: 'before', revision, date, ...book };
}
