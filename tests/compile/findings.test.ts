/** What findings say of one cause: it is told once. */
import { expect, it } from 'vitest';
import { reportFindings } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { CONDITIONS, compileSmall } from './small-fleet.ts';

/** The findings about a latched message and a latch of its own. */
function findings(when: string): string[] {
  const { compiled, codes } = compileSmall({
    'conditions.yaml': `${CONDITIONS}never:\n  - speed > 15 kt\n`,
    'panels/p.yaml': `panel: p
title: P
controls:
  check: { title: Check, form: push-button, positions: { OUT: {}, IN: { returns: OUT } } }
messages:
  quick: { title: Quick, text: QUICK, class: caution, when: ${when}, latched: { reset: check is held } }
latches:
  held: { title: Held, set: "${when}", reset: check is held, wins: reset }
`,
  });
  expect(codes).toEqual([]);
  const diagnostics = new Diagnostics();
  reportFindings(compiled, diagnostics);
  return diagnostics.all.flatMap(({ code, facts }) =>
    'item' in facts ? [`${code} ${facts.item}`] : 'sequence' in facts ? [`${code} ${facts.sequence}`] : [],
  );
}

it('say of a latched message that is never raised only that it is never shown', () => {
  expect(findings('speed > 15 kt')).toEqual(['SL450 Held', 'SL451 Held', 'SL457 Quick']);
});

it('say nothing of one that can be raised', () => {
  expect(findings('speed > 10 kt')).toEqual([]);
});

it('name in a run the number that trips a detector, and not the detector', () => {
  const { compiled, codes } = compileSmall({
    'conditions.yaml': `${CONDITIONS}detectors:
  fast: { title: Fast, trips: speed > 10 kt, tolerance: 2, says: when fast, says-not: when not fast }
`,
    'panels/p.yaml': `panel: p
title: P
sequences:
  unit:
    title: Unit
    initial: rest
    modes: { rest: { says: at rest }, slow: { says: when slow }, quick: { says: when quick } }
    transitions:
      - { from: rest, to: slow, when: fast }
      - { from: rest, to: quick, when: fast }
      - { from: [slow, quick], to: rest, when: not fast }
`,
  });
  expect(codes).toEqual([]);
  const diagnostics = new Diagnostics();
  reportFindings(compiled, diagnostics);
  const runs = diagnostics.all.flatMap(({ facts }) => ('first' in facts && 'run' in facts ? [facts.run] : []));
  expect(runs).toEqual(['at first Unit rest; then Speed: above 12 kt']);
});
