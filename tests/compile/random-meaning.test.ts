/**
 * Detectors, lamps, supplies, overrides, latches, sequences, unknown options and what is not stated, in random contents:
 * what is compiled is held case by case to the oracle, which reads the same files by itself.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  absentValue,
  type Behaviour,
  type Compiled,
  compileFleet,
  type Fit,
  IMPOSSIBLE,
  type Meaning,
  valueIds,
} from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { writeFiles } from '../helpers/temporary-folder.ts';
import { type Case, loadOracle, type Oracle, type Fit as OracleFit } from '../oracle/index.ts';
import { type Files, meanings } from './random-meaning.ts';

interface Sample {
  readonly files: Files;
  readonly compiled: Compiled | undefined;
  readonly codes: readonly string[];
  readonly oracle: Oracle;
}

function sample(files: Files): Sample {
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    Object.entries(files).map(([path, text]) => ({ path, text })),
    diagnostics,
  );
  const compiled = fleet && compileFleet(fleet, diagnostics);
  const folder = mkdtempSync(join(tmpdir(), 'switchleaf-meaning-'));
  try {
    writeFiles(folder, files);
    return { files, compiled, codes: diagnostics.all.map(({ code }) => code), oracle: loadOracle(folder) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const samples = fc.sample(meanings, { seed: 20261125, numRuns: 8 }).map(sample);
const sound = samples.flatMap((each) =>
  each.compiled && each.codes.length === 0 ? [{ ...each, compiled: each.compiled }] : [],
);

/** Whether a value of a variable, as the case has it, is the diagram's value. Numbers go from 0 by 0.5. */
function isValue(meaning: Meaning, value: number, written: string | undefined): boolean {
  if ((meaning.kind === 'control' || meaning.kind === 'sequence') && value === absentValue(meaning)) {
    return written === undefined;
  }
  if (meaning.kind !== 'number') return valueIds(meaning)[value] === written;
  const step = BigInt(Math.round(Number(written) * 2));
  const cell = meaning.cells[value];
  return cell !== undefined && cell.first <= step && step <= cell.last;
}

/** The diagram's values of a case. Controls that share a variable give it the value of the one that is fitted. */
function levelsOf({ space }: Compiled, levels: readonly number[], given: Case): Map<number, number> {
  return new Map(
    levels.map((level) => {
      const meaning = space.meanings[level] as Meaning;
      if (meaning.kind === 'control') {
        const [fitted] = meaning.controls.filter(({ id }) => given[id] !== undefined);
        if (!fitted) return [level, absentValue(meaning)];
        const position = fitted.positions.findIndex(({ id }) => id === given[fitted.id]);
        return [level, meaning.values.findIndex((value) => value.get(fitted) === position)];
      }
      const size = space.variables[level]?.size ?? 0;
      const written = given[space.variables[level]?.id ?? ''];
      return [level, Array.from({ length: size }, (_, at) => at).findIndex((at) => isValue(meaning, at, written))];
    }),
  );
}

/** "dark", "dark/lit", "not stated Q-1", "depends dark/lit": sorted, so that both sides say it alike. */
function said({ outcomes }: Compiled, outcome: number): string {
  const meaning = outcomes.meaning(outcome);
  switch (meaning.kind) {
    case 'state':
      return meaning.state;
    case 'not stated':
      return `not stated ${meaning.query}`;
    case 'either':
      return meaning.of
        .map((each) => said({ outcomes } as Compiled, each))
        .sort()
        .join('/');
    case 'depends':
      return `depends ${[...new Set(meaning.of.filter((each) => each !== IMPOSSIBLE).flatMap((each) => said({ outcomes } as Compiled, each).split('/')))].sort().join('/')}`;
    default:
      return meaning.kind;
  }
}

type OracleOutcome = ReturnType<Oracle['byCandidate']>[number]['outcomes'][number];

function textOf(outcome: OracleOutcome): string {
  if (outcome === 'not-fitted') return 'not fitted';
  if (typeof outcome === 'string') return outcome;
  return 'notStated' in outcome ? `not stated ${outcome.notStated}` : JSON.stringify(outcome);
}

const fitOf = ({ fits }: Compiled, { id }: OracleFit): Fit | undefined =>
  fits.find(({ options }) => [...options.values()].join('/') === id);

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
      for (const oracleFit of oracle.fits) {
        const fit = fitOf(compiled, oracleFit);
        if (!fit) throw new Error(`no fit is ${oracleFit.id}`);
        for (const behaviour of compiled.behaviours) {
          const complaint = compare(compiled, oracle, behaviour, fit, oracleFit);
          if (complaint)
            wrong.push(
              `${complaint}\n${files['panels/p.yaml']}\n${files['conditions.yaml']}\n${files['overrides.yaml'] ?? ''}`,
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
          const [a, b] = [first, other].map((fit) => (fit ? fitOf(compiled, fit) : undefined));
          if (!first || !a || !b) throw new Error('a fit is missing');
          expect(
            forms[a.index] === forms[b.index],
            `${item.id}.${attribute.id} ${other.id}\n${files['panels/p.yaml']}`,
          ).toBe(oracle.alike(item.id, attribute.id, first, other));
        }
      }
    }
  });
});

/** What is wrong with one behaviour on one fit; undefined when nothing is. */
function compare(
  compiled: Compiled,
  oracle: Oracle,
  { item, attribute, own, forms }: Behaviour,
  fit: Fit,
  oracleFit: OracleFit,
): string | undefined {
  const { diagrams, space } = compiled;
  const form = forms[fit.index] as number;
  const levels = own.filter((level) => space.meanings[level]?.kind !== 'option');
  // Counterparts share a variable: a case says where each of them stands.
  const shared = levels.flatMap((level) => {
    const meaning = space.meanings[level];
    return meaning?.kind === 'control' ? meaning.controls.map(({ id }) => id) : [];
  });
  const variables = [...new Set([...oracle.variables(item.id, attribute.id), ...shared])];
  const byKey = new Map<string, { at: Map<number, number>; given: Case; candidates: Set<string>[] }>();
  for (const given of oracle.cases(oracleFit, variables)) {
    const at = levelsOf(compiled, levels, given);
    const key = [...at.values()].join(' ');
    const candidates = oracle.byCandidate(oracleFit, item.id, attribute.id, given);
    const entry = byKey.get(key) ?? { at, given, candidates: candidates.map(() => new Set<string>()) };
    byKey.set(key, entry);
    candidates.forEach(({ outcomes }, index) => {
      for (const outcome of outcomes) entry.candidates[index]?.add(textOf(outcome));
    });
  }
  for (const { at, given, candidates } of byKey.values()) {
    const outcome = diagrams.valueOf(diagrams.restrictAll(form, at));
    const found = outcome === undefined ? 'open' : said(compiled, outcome);
    const sets = new Set(candidates.map((each) => [...each].sort().join('/')));
    const all = [...new Set(candidates.flatMap((each) => [...each]))].sort().join('/');
    const expected = sets.size > 1 ? `depends ${all}` : all;
    if (found !== expected) {
      return `${item.id}.${attribute.id} on ${oracleFit.id}: ${found}, not ${expected}, in ${JSON.stringify(given)}`;
    }
  }
  const possible = diagrams.map('is possible', form, (outcome) => (outcome === IMPOSSIBLE ? 0 : 1));
  const count = diagrams.satCount(possible, levels);
  if (count !== BigInt(byKey.size)) {
    return `${item.id}.${attribute.id} on ${oracleFit.id}: ${count} cases, not ${byKey.size}`;
  }
  return undefined;
}
