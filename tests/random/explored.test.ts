/** Random walks through the cases of random families, as the explorer follows them and as the interpreter does. */
import { expect, it } from 'vitest';
import { explorerWalks, type Walked } from '../helpers/explorer-walks.ts';
import { PATIENCE, trials } from '../helpers/trials.ts';
import { both } from './both.ts';
import { written } from './family.ts';
import { randomFamily } from './random-family.ts';

const FAMILIES = trials({ short: 250, long: 4_000 });
const STEPS = 8;
const FIRST_SEED = 20_270_401;
/** By family. */
const LEAST: Partial<Record<keyof Walked | 'families', number>> = {
  families: 0.5,
  steps: 5,
  barred: 2,
  leaps: 2,
  either: 0.4,
  depends: 0.1,
  together: 3,
  several: 0.2,
};

it(
  `${FAMILIES} random families are followed as their authors' words say`,
  () => {
    const tally: Record<string, number> = { families: 0 };
    for (let at = 0; at < FAMILIES; at += 1) {
      const { compiled, found, oracle } = both(written(randomFamily(FIRST_SEED + at)));
      // What is not sound has rules that say nothing, or two things.
      if (!compiled || !found.every(({ code }) => code === 'SL406' || code === 'SL412')) continue;
      const { seen, walk } = explorerWalks(compiled, oracle());
      tally['families'] = (tally['families'] ?? 0) + 1;
      for (const fit of compiled.fits) {
        walk(fit, FIRST_SEED + at, STEPS);
      }
      for (const [key, count] of Object.entries(seen)) tally[key] = (tally[key] ?? 0) + count;
    }
    for (const [key, least] of Object.entries(LEAST)) expect(tally[key], key).toBeGreaterThan(least * FAMILIES);
  },
  PATIENCE,
);
