/** Any two aircraft: what a reader's packed copy says of them is what the book's own functions say. */
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { compareAircraft, comparedFleet, packComparison, readComparison } from '../../src/book/index.ts';
import { compiledFolder } from '../helpers/compiled-folder.ts';
import { demoFolder, smallFleet } from '../helpers/content.ts';

/** The most that comparing may take, compressed; search and the script have the rest of the 120 KB that are loaded on demand. */
const MOST_BYTES = 40_000;

describe.each([
  ['the small fleet', smallFleet],
  ['the demo', demoFolder],
])('%s', (_, folder) => {
  const compiled = compiledFolder(folder);
  const built = comparedFleet(compiled);
  const packed = packComparison(compiled);
  const copy = JSON.parse(JSON.stringify(packed)) as typeof packed;
  const read = readComparison(copy);

  it('is compared by a packed copy in the very same words and tables, for every pair of fits, now and later', () => {
    const holders = compiled.fits.map((fit) => {
      const [first] = fit.holders;
      if (!first) throw new Error('a fit that no aircraft has');
      return first;
    });
    let tables = 0;
    for (const [at, { aircraft: here, from = '' }] of holders.entries()) {
      for (const { aircraft: there, from: later = '' } of holders.slice(0, at)) {
        if (here === there) continue;
        const day = [from, later, built.asOf].sort().at(-1) ?? '';
        const said = compareAircraft(built, [here.serial, there.serial], day);
        expect(JSON.stringify(compareAircraft(read, [here.serial, there.serial], day))).toBe(JSON.stringify(said));
        tables += said?.panels.flatMap(({ differences }) => differences).length ?? 0;
      }
    }
    expect(tables).toBeGreaterThan(holders.length);
  });

  it('is packed small enough to be loaded when it is asked for', () => {
    expect(gzipSync(JSON.stringify(packed)).length).toBeLessThan(MOST_BYTES);
  });
});
