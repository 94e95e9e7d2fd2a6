/**
 * Detectors, lamps, supplies, overrides, latches, sequences, unknown options and what is not stated, in random contents:
 * what is compiled is held case by case to the oracle, which reads the same files by itself.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { both, fitLike } from '../random/both.ts';
import { wrongForm } from '../random/judge-family.ts';
import { seenBehaviour, shownLevels } from '../random/seen-behaviour.ts';
import { meanings } from './random-meaning.ts';

const samples = fc.sample(meanings, { seed: 20261125, numRuns: 8 }).map((files) => {
  const { compiled, found, oracle } = both(files);
  return { files, compiled, found, oracle: oracle() };
});
const sound = samples.flatMap((each) =>
  each.compiled && each.found.length === 0 ? [{ ...each, compiled: each.compiled }] : [],
);

describe('random contents with the whole meaning', () => {
  it('are varied enough to show something', () => {
    const terminals = sound.flatMap(({ compiled }) =>
      compiled.behaviours.flatMap(({ forms }) =>
        forms.flatMap((form) => compiled.diagrams.terminals(form).map((each) => compiled.outcomes.meaning(each).kind)),
      ),
    );
    const count = (kind: string): number => terminals.filter((each) => each === kind).length;
    expect(sound.length).toBeGreaterThan(5);
    expect(count('either')).toBeGreaterThan(10);
    expect(count('not stated')).toBeGreaterThan(5);
    expect(count('depends')).toBeGreaterThan(3);
    const families = sound.flatMap(({ compiled }) => compiled.families.flat());
    expect(families.filter(({ resting }) => resting.size > 2).length).toBeGreaterThan(5);
    expect(sound.filter(({ files }) => 'overrides.yaml' in files).length).toBeGreaterThan(4);
    expect(sound.filter(({ files }) => files['conditions.yaml']?.includes('never')).length).toBeGreaterThan(4);
  });

  it('show in each case that can happen what the oracle says, and no other case', () => {
    const wrong: string[] = [];
    for (const { files, compiled, oracle } of sound) {
      for (const fit of oracle.fits) {
        for (const behaviour of compiled.behaviours) {
          const levels = shownLevels(compiled, behaviour, oracle, fit);
          const cases = seenBehaviour(compiled, oracle, behaviour, levels, fit);
          const form = behaviour.forms[fitLike(compiled, fit).index] as number;
          const complaint = wrongForm(compiled, form, levels, cases);
          if (complaint)
            wrong.push(
              `${behaviour.item.id} on ${fit.id}: ${complaint}\n${files['panels/p.yaml']}\n${files['conditions.yaml']}\n${files['overrides.yaml'] ?? ''}`,
            );
        }
      }
    }
    expect(wrong.length, wrong[0]).toBe(0);
  }, 240_000);

  it('have aircraft alike on an item exactly where the oracle finds them so', () => {
    for (const { compiled, oracle, files } of sound) {
      for (const { item, attribute, forms } of compiled.behaviours) {
        const [first, ...others] = oracle.fits;
        for (const other of others) {
          if (!first) throw new Error('a fit is missing');
          expect(
            forms[fitLike(compiled, first).index] === forms[fitLike(compiled, other).index],
            `${item.id}.${attribute.id} ${other.id}\n${files['panels/p.yaml']}`,
          ).toBe(oracle.alike(item.id, attribute.id, first, other));
        }
      }
    }
  });
});
