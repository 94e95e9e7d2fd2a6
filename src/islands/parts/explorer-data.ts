/** What following cases needs, brought in when an aircraft is chosen. */
import { type ExploredFleet, type PackedExplorer, readExplorer } from '../../book/index.ts';
import { bring } from './book-files.ts';

declare global {
  /** Set by explorer-data.js. */
  var switchleafExplorer: PackedExplorer | null | undefined;
}

export async function loadExplorer(): Promise<ExploredFleet> {
  await Promise.all([bring('compare-data.js'), bring('explorer-data.js')]);
  const { switchleafComparison: words, switchleafExplorer: packed } = globalThis;
  if (!words || !packed) throw new Error('there is nothing to follow');
  return readExplorer(words, packed);
}
