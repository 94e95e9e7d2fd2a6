/**
 * A change of one word in the definitions makes the built pages wrong, and the judges say so: the oracle reads the changed
 * content, the pages are those of the content as it was.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { loadOracle } from '../oracle/index.ts';
import { judgeDifferences } from './judges/differences.ts';
import { judgeFlows } from './judges/flows.ts';
import { pagesIn } from './judges/pages.ts';
import { judgeSentences } from './judges/sentences.ts';
import { faultsOfTables } from './judges/tables.ts';

const PANEL = 'panels/exterior-lights.yaml';
type Change = readonly [what: string, file: string, from: string, to: string];

const CHANGES: readonly Change[] = [
  ['the state of a rule', PANEL, '{ when: logo is OFF, then: dark }', '{ when: logo is OFF, then: lit }'],
  ['a condition of a rule', PANEL, 'logo is AUTO and (ambient is day or', 'logo is AUTO and (ambient is night or'],
  ['a threshold', PANEL, 'airspeed < 80 kt', 'airspeed < 81 kt'],
  ['the side of a threshold', PANEL, 'airspeed > 220 kt', 'airspeed >= 220 kt'],
  ['which positions are fitted', PANEL, 'AUTO: { fitted: logo-control is automatic }', 'AUTO: {}'],
  [
    'which items are fitted',
    PANEL,
    'fitted: position-sets is dual\n    about: Beside',
    'fitted: position-sets is single\n    about: Beside',
  ],
  ['the fit of one aircraft', 'aircraft.csv', '40127,QQ-OAE,2020-09-30,,automatic', '40127,QQ-OAE,2020-09-30,,manual'],
  ['a signal', 'signals.yaml', 'main-gear is compressed or (auto-logic', 'main-gear is extended or (auto-logic'],
  ['what never happens', 'conditions.yaml', '  - main-gear is extended and airspeed < 70 kt\n', ''],
  [
    'the normal value of a bus',
    'conditions.yaml',
    "title: AC bus 2\n    about: The right generator's bus, shed first when one source has to feed everything.\n    normal: powered",
    'title: AC bus 2\n    normal: lost',
  ],
];

/** Read once for all changes. */
const pages = pagesIn(inject('smallSite'));

describe('a change of the definitions that the pages do not follow is noticed', () => {
  it.each(CHANGES)('%s in %s', async (_what, file, from, to) => {
    const folder = mkdtempSync(join(tmpdir(), 'switchleaf-changed-'));
    try {
      cpSync(smallFleet, folder, { recursive: true });
      const before = readFileSync(join(folder, file), 'utf8');
      const after = before.replace(from, to);
      expect(after).not.toBe(before);
      writeFileSync(join(folder, file), after);
      const oracle = loadOracle(folder);
      // One fault is enough.
      const [first] = faultsOfTables(pages, oracle);
      const faults = first === undefined ? [] : [first];
      if (faults.length === 0) faults.push(...judgeSentences(pages, oracle), ...judgeDifferences(pages, oracle));
      if (faults.length === 0) faults.push(...(await judgeFlows(pages, oracle)));
      expect(faults).not.toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
