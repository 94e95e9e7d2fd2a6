/**
 * Cases followed by hand, held step by step to the interpreter of the authors' words: the same settings can stand, the same goes on at
 * once and in time, and everything is the same then.
 */
import { afterAll, describe, expect, it } from 'vitest';
import { compiledFolder } from '../helpers/compiled-folder.ts';
import { demoFolder, smallFleet } from '../helpers/content.ts';
import { explorerWalks } from '../helpers/explorer-walks.ts';
import { PATIENCE, trials } from '../helpers/trials.ts';
import { loadOracle } from '../oracle/index.ts';

const STEPS = trials({ short: 40, long: 2_000 });

describe.each([
  [
    'the small fleet',
    smallFleet,
    {
      steps: 200,
      barred: 200,
      waits: 0,
      leaps: 0,
      either: 0,
      depends: 0,
      together: 100,
      several: 0,
      heard: 0,
      perhaps: 0,
    },
  ],
  [
    'the demo',
    demoFolder,
    {
      steps: 500,
      barred: 500,
      waits: 30,
      leaps: 50,
      either: 20,
      depends: 20,
      together: 500,
      several: 100,
      heard: 20,
      perhaps: 1,
    },
  ],
])('%s', (_, folder, LEAST) => {
  const compiled = compiledFolder(folder);
  const { seen, walk } = explorerWalks(compiled, loadOracle(folder));

  it.each(compiled.fits.map((fit) => [fit.index, fit] as const))(
    'fit %i',
    (index, fit) => walk(fit, 1000 + index, STEPS),
    PATIENCE,
  );

  afterAll(() => {
    for (const [key, least] of Object.entries(LEAST))
      expect(seen[key as keyof typeof seen], key).toBeGreaterThanOrEqual(least);
  });
});
