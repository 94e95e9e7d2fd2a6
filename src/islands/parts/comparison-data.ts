/** What comparing any two aircraft needs, brought in when two are chosen. */
import { type ComparedFleet, type PackedComparison, readComparison } from '../../book/index.ts';
import { bring } from './book-files.ts';

declare global {
  /** Set by compare-data.js. */
  var switchleafComparison: PackedComparison | null | undefined;
}

export async function loadComparison(): Promise<ComparedFleet> {
  await bring('compare-data.js');
  if (!globalThis.switchleafComparison) throw new Error('there is nothing to compare');
  return readComparison(globalThis.switchleafComparison);
}

/** Browsers of before 2024 lack what the comparison is made with. */
export function canCompare(): boolean {
  return typeof Map.groupBy === 'function';
}
