/**
 * What changed between two revisions of random families: for every aircraft and every case that can happen in both, the table of
 * changes has one row with what two interpreters say, each of its own revision, and none where they say the same.
 */
import { describe, expect, it } from 'vitest';
import { compareReleases } from '../../src/book/releases/compared-releases.ts';
import {
  absentValue,
  type Behaviour,
  type Compiled,
  difference,
  type Fit,
  IMPOSSIBLE,
  valueIds,
} from '../../src/compile/index.ts';
import { releaseOf } from '../helpers/releases.ts';
import { PATIENCE, trials } from '../helpers/trials.ts';
import type { Case, Oracle, Fit as OracleFit } from '../oracle/index.ts';
import { both, fitLike, levelsOf, positionValue, said } from './both.ts';
import { EDITS, type Edit, edited } from './edited.ts';
import { type Family, written } from './family.ts';
import { randomFamily } from './random-family.ts';
import { keyOf, type SeenCases, seenBehaviour, shownLevels } from './seen-behaviour.ts';

const FAMILIES = trials({ short: 120, long: 3_000 });
const FIRST_SEED = 20_270_301;

interface Judged {
  readonly compiled: Compiled;
  readonly oracle: Oracle;
}

/** Undefined where the rules are not sound. */
function judged(family: Family): Judged | undefined {
  const { compiled, found, oracle } = both(written(family));
  const isSound = found.every(({ code }) => code === 'SL406' || code === 'SL412');
  return compiled && isSound ? { compiled, oracle: oracle() } : undefined;
}

/** What an attribute does on the fit of one aircraft, in one revision. */
interface Side extends Judged {
  readonly behaviour: Behaviour;
  readonly fit: OracleFit;
  readonly levels: readonly number[];
  readonly seen: SeenCases;
}

function sideOf({ compiled, oracle }: Judged, name: string, serial: string): Side | undefined {
  const behaviour = compiled.behaviours.find(({ item, attribute }) => `${item.id}.${attribute.id}` === name);
  const own = compiled.fits.find((fit) => fit.aircraft.some((one) => one.serial === serial));
  const fit = oracle.fits.find((one) => own && fitLike(compiled, one) === own);
  if (!behaviour || !fit) return undefined;
  const levels = shownLevels(compiled, behaviour, oracle, fit);
  return { compiled, oracle, behaviour, fit, levels, seen: seenBehaviour(compiled, oracle, behaviour, levels, fit) };
}

/** What is said of a case that may name more than the attribute depends on. */
const saidIn = ({ compiled, levels, seen }: Side, given: Case): string | undefined =>
  seen.get(keyOf(levelsOf(compiled, levels, given)))?.expected;

/** The cases that can happen in both, over all that either depends on. */
function commonCases(sides: readonly [Side, Side]): Case[] {
  const variables = sides.flatMap(({ compiled: { space }, oracle, behaviour, levels }) => [
    ...oracle.variables(behaviour.item.id, behaviour.attribute.id),
    ...levels.flatMap((level) => {
      const meaning = space.meanings[level];
      return meaning?.kind === 'control' ? meaning.controls.map(({ id }) => id) : [];
    }),
  ]);
  const names = [...new Set(variables)];
  const all = sides.flatMap(({ oracle, fit }) => [...oracle.cases(fit, names)]);
  return all.filter((given) => sides.every(({ oracle, fit }) => oracle.canHappen(fit, given)));
}

const fittedControls = ({ oracle, fit }: Side): string =>
  [...oracle.content.controls.keys()].filter((id) => oracle.valuesOn(fit, id).length > 0).join();

describe(`${FAMILIES} random families and their next revisions`, () => {
  const tally = { pairs: 0, differing: 0, cases: 0, differingCases: 0 };
  const edits = new Map<Edit, number>();

  it(
    'are told apart exactly where two interpreters say something else',
    () => {
      for (let at = 0; at < FAMILIES; at += 1) {
        const seed = FIRST_SEED + at;
        const edit = EDITS[at % EDITS.length] as Edit;
        const family = randomFamily(seed);
        const next = edited(family, edit, seed);
        const [then, now] = [judged(family), next && judged(next)];
        if (!then || !now) continue;
        edits.set(edit, (edits.get(edit) ?? 0) + 1);
        const compared = compareReleases(now.compiled, releaseOf(then.compiled));
        expect(compared.fleet.behaviours.length).toBe(now.compiled.behaviours.length);
        for (const { serial, before, now: today } of compared.aircraft) {
          for (const behaviour of compared.fleet.behaviours) {
            const name = `${behaviour.item.id}.${behaviour.attribute.id}`;
            const sides = [sideOf(then, name, serial), sideOf(now, name, serial)];
            const [old, young] = sides;
            if (!old || !young || fittedControls(old) !== fittedControls(young)) continue;
            const isMissing = (side: Side): boolean =>
              [...side.seen.values()].every(({ expected }) => expected === 'not fitted');
            if (isMissing(old) || isMissing(young)) continue;
            judge(
              `family ${seed}, ${edit}, ${serial} ${name}`,
              [old, young],
              [before, today],
              compared.fleet,
              behaviour,
            );
          }
        }
      }
    },
    PATIENCE,
  );

  it('are edited enough to show something', () => {
    expect([...edits.keys()].sort()).toEqual([...EDITS].sort());
    expect(Math.min(...edits.values())).toBeGreaterThan(FAMILIES / 60);
    expect(tally.differing).toBeGreaterThan(FAMILIES / 4);
    expect(tally.pairs - tally.differing).toBeGreaterThan(FAMILIES);
    expect(tally.differingCases).toBeGreaterThan(2 * FAMILIES);
    expect(tally.cases).toBeGreaterThan(20 * FAMILIES);
  });

  function judge(
    about: string,
    sides: readonly [Side, Side],
    [before, now]: readonly [Fit, Fit],
    fleet: Parameters<typeof difference>[0],
    behaviour: Parameters<typeof difference>[1],
  ): void {
    const { table } = difference(fleet, behaviour, before, now);
    // Cases that only one revision knows are no difference.
    for (const { outcome } of table?.rows ?? []) expect(fleet.outcomes.pair(outcome), about).not.toContain(IMPOSSIBLE);
    tally.pairs += 1;
    if (table) tally.differing += 1;
    for (const given of commonCases(sides)) {
      const [then, today] = sides.map((side) => saidIn(side, given));
      const rows = (table?.rows ?? []).filter(({ cells }) =>
        (table?.columns ?? []).every((level, at) => cells[at]?.includes(valueIn(fleet, level, given)) ?? true),
      );
      const found = rows.map(({ outcome }) =>
        fleet.outcomes
          .pair(outcome)
          .map((each) => said(fleet, each))
          .join(' > '),
      );
      tally.cases += 1;
      if (then !== today) tally.differingCases += 1;
      expect(found, `${about}: ${JSON.stringify(given)}`).toEqual(then === today ? [] : [`${then} > ${today}`]);
    }
  }
});

/** The value of a variable of both revisions in a case. Numbers go by the limits that either cuts them at. */
function valueIn({ space }: Parameters<typeof difference>[0], level: number, given: Case): number {
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`nothing stands at ${level}`);
  if (meaning.kind === 'control') {
    const fitted = meaning.controls.find(({ id }) => given[id] !== undefined);
    return fitted ? positionValue(meaning, fitted.id, given[fitted.id] as string) : absentValue(meaning);
  }
  const written = given[space.variables[level]?.id ?? ''];
  if (meaning.kind === 'number') {
    const value = Number(written);
    return meaning.cells.filter(({ below }) => {
      if (!below) return false;
      return below.belongsTo === 'lower' ? value > Number(below.value) : value >= Number(below.value);
    }).length;
  }
  if (meaning.kind === 'sequence' && written === undefined) return absentValue(meaning);
  return valueIds(meaning).indexOf(written ?? '');
}
