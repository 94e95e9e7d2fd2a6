/** What is compiled out of random contents, held case by case to the oracle, which reads the same files by itself. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  absentValue,
  type Behaviour,
  type Compiled,
  IMPOSSIBLE,
  levelOf,
  type Meaning,
  NOT_FITTED,
  partNormals,
  partTable,
  valueIds,
} from '../../src/compile/index.ts';
import { toJson } from '../../src/diagnostics/index.ts';
import type { StateTable } from '../../src/logic/index.ts';
import type { Case, Fit, Oracle } from '../oracle/index.ts';
import { both, fitLike, levelsOf } from '../random/both.ts';
import { contents, type Files } from './random-contents.ts';

const samples = fc.sample(contents, { seed: 20261001, numRuns: 240 }).map((files) => {
  const { compiled, found, oracle } = both(files);
  return { files, compiled, found: toJson(found), oracle: oracle() };
});
const sound = samples.filter(({ found }) => found.every(({ code }) => code === 'SL406'));
const ITEMS = ['lamp', 'horn'] as const;
const keyOf = (files: Files): string => `${files['aircraft.csv']}${files['conditions.yaml']}${files['panels/p.yaml']}`;

function behaviourOf(compiled: Compiled, item: string): Behaviour {
  const found = compiled.behaviours.find((each) => each.item.id === item);
  if (!found) throw new Error(`no item is called ${item}`);
  return found;
}

const soundCases = function* (): Iterable<
  (typeof samples)[number] & { compiled: Compiled; item: (typeof ITEMS)[number] }
> {
  for (const each of sound) {
    for (const item of ITEMS) if (each.compiled) yield { ...each, compiled: each.compiled, item };
  }
};

function stateIn(compiled: Compiled, outcome: number | undefined): string {
  if (outcome === undefined) return 'undecided';
  if (outcome === IMPOSSIBLE) return 'impossible';
  return outcome === NOT_FITTED ? 'not-fitted' : (compiled.outcomes.state(outcome) ?? 'unknown');
}

describe('random contents', () => {
  it('are varied enough to show something', () => {
    const rules = (files: Files): number => files['panels/p.yaml']?.match(/when:/g)?.length ?? 0;
    const restricted = sound.filter(({ files, oracle }) => {
      const [fit] = oracle.fits;
      const all = ['gear', 'bus', 'spare', 'sw', 'speed'];
      const every = all.reduce((product, name) => product * (fit ? oracle.valuesOn(fit, name).length : 0), 1);
      return files['conditions.yaml']?.includes('never') && fit && [...oracle.cases(fit, all)].length < every;
    });
    const lacking = sound.filter(
      ({ oracle }) => new Set(oracle.fits.map((fit) => oracle.isFitted(fit, 'kn'))).size > 1,
    );
    expect(sound.length).toBeGreaterThan(100);
    expect(restricted.length).toBeGreaterThan(30);
    expect(lacking.length).toBeGreaterThan(12);
    expect(sound.filter(({ files }) => rules(files) >= 3).length).toBeGreaterThan(80);
    expect(
      sound.filter(({ compiled }) => compiled?.behaviours.some(({ groups }) => groups.length > 1)).length,
    ).toBeGreaterThan(50);
    for (const code of ['SL401', 'SL402', 'SL403', 'SL406']) {
      expect(samples.filter(({ found }) => found.some((each) => each.code === code)).length, code).toBeGreaterThan(3);
    }
  });

  it('are refused for a gap, an overlap or an empty fit exactly where the oracle finds one', () => {
    for (const { files, found, oracle } of samples) {
      const codes = (about: RegExp): string[] => [
        ...new Set(found.flatMap(({ code, message }) => (code !== 'SL406' && about.test(message) ? [code] : []))),
      ];
      if (oracle.fits.some((fit) => [...oracle.cases(fit, [])].length === 0)) {
        expect(codes(/./), keyOf(files)).toEqual(['SL404']);
        continue;
      }
      const lamp = faultsOf(oracle, 'lamp', (fit, variables) => oracle.cases(fit, variables));
      expect(codes(/Lamp/).sort(), keyOf(files)).toEqual(lamp);
      // What the rules of the horn make of a lamp without a state is nobody's business.
      if (lamp.length > 0) continue;
      const horn = faultsOf(oracle, 'horn', (fit, variables) => oracle.cases(fit, variables));
      expect(codes(/Horn/).sort(), keyOf(files)).toEqual(horn);
    }
  });

  it('fail the claims that the oracle has a counterexample to', () => {
    for (const { files, found, oracle, compiled } of sound) {
      if (!compiled) continue;
      const failing = oracle.content.claims.filter(({ holds }) => !oracle.holds(holds));
      const told = found.map(({ message }) => /"(Claim \d\.)"/.exec(message)?.[1]);
      expect(told, keyOf(files)).toEqual(failing.map(({ sentence }) => sentence));
    }
  });

  it('have in every case that can happen the state of the oracle', () => {
    for (const { files, compiled, oracle, item } of soundCases()) {
      const behaviour = behaviourOf(compiled, item);
      const { diagrams } = compiled;
      for (const fit of oracle.fits) {
        const form = behaviour.forms[fitLike(compiled, fit).index] as number;
        for (const given of oracle.cases(fit, oracle.variables(item, 'lamp'))) {
          const outcome = diagrams.valueOf(
            diagrams.restrictAll(form, levelsOf(compiled, diagrams.support(form), given)),
          );
          const state = stateIn(compiled, outcome);
          if (state === oracle.state(fit, item, 'lamp', given)) continue;
          expect.fail(`${keyOf(files)}\n${fit.id} ${item} ${JSON.stringify(given)}: ${state}`);
        }
      }
    }
  });

  it('have no case that cannot happen', () => {
    for (const { files, compiled, oracle, item } of soundCases()) {
      const behaviour = behaviourOf(compiled, item);
      const { diagrams, space } = compiled;
      for (const fit of oracle.fits) {
        const form = behaviour.forms[fitLike(compiled, fit).index] as number;
        for (const given of everyCase(compiled, diagrams.support(form))) {
          const isImpossible = diagrams.valueOf(diagrams.restrictAll(form, given.levels)) === IMPOSSIBLE;
          const lacked = given.absent.some((id) => oracle.isFitted(fit, id));
          if (isImpossible === (lacked || !oracle.canHappen(fit, given.case))) continue;
          expect.fail(`${keyOf(files)}\n${fit.id} ${item} ${JSON.stringify(given.case)} ${space.variables.length}`);
        }
      }
    }
  });

  it('are alike on an item where the oracle finds no difference', () => {
    let compared = 0;
    for (const { files, compiled, oracle, item } of soundCases()) {
      const behaviour = behaviourOf(compiled, item);
      // Rules without an answer in cases that cannot happen say nothing of what an item depends on.
      if (ITEMS.some((each) => faultsOf(oracle, each, (fit, names) => everyCombination(oracle, fit, names)).length > 0))
        continue;
      compared++;
      for (const a of oracle.fits) {
        for (const b of oracle.fits) {
          const [here, there] = [a, b].map((fit) => behaviour.forms[fitLike(compiled, fit).index]);
          if ((here === there) === oracle.alike(item, 'lamp', a, b)) continue;
          expect.fail(`${keyOf(files)}\n${item}: ${a.id} and ${b.id}, ${here} ${there}`);
        }
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('have each case in one row of one table, among the normal ones only if it could be one', () => {
    let abnormal = 0;
    let projected = 0;
    for (const { files, compiled, oracle, item } of soundCases()) {
      const behaviour = behaviourOf(compiled, item);
      for (const group of behaviour.groups) {
        const [normal, other] = (['normal', 'abnormal'] as const).map((part) =>
          partTable(compiled, behaviour, group, part),
        );
        const normals = new Map(partNormals(compiled, group.form, 'normal'));
        for (const fit of oracle.fits.filter((each) => group.fits.includes(fitLike(compiled, each)))) {
          const own = oracle.ownVariables(item, 'lamp');
          const cases = [...oracle.cases(fit, oracle.variables(item, 'lamp'))];
          const states = new Map(
            cases.map((given) => [shown(given, own), oracle.state(fit, item, 'lamp', given)] as const),
          );
          for (const given of cases) {
            const where = `${keyOf(files)}\n${fit.id} ${item} ${JSON.stringify(given)}`;
            const state = oracle.state(fit, item, 'lamp', given);
            const isUsual = [...levelsOf(compiled, [...normals.keys()], given)].every(([level, value]) =>
              normals.get(level)?.includes(value),
            );
            expect(rowsOf(compiled, isUsual ? normal : other, given), where).toEqual([state]);
            const usual = { ...given, ...normalsAmong(oracle, Object.keys(given)) };
            if (oracle.isNormal(given)) expect(isUsual, where).toBe(true);
            // What stands among the normal cases can happen with everything normal, and is the same then.
            else if (isUsual) expect(states.get(shown(usual, own)), where).toBe(state);
            if (!isUsual) abnormal++;
            else if (!oracle.isNormal(given)) projected++;
          }
          for (const name of ['bus', 'spare'].filter((each) => own.includes(each))) {
            const isInert = cases.every(
              (given) =>
                states.get(shown({ ...given, ...normalsAmong(oracle, [name]) }, own)) === states.get(shown(given, own)),
            );
            if (isInert)
              expect([...normals.keys()], `${keyOf(files)}\n${fit.id} ${item} ${name}`).not.toContain(
                levelOf(compiled.space, name),
              );
          }
        }
      }
    }
    expect(abnormal).toBeGreaterThan(200);
    expect(projected).toBeGreaterThan(200);
  });
});

/** The codes of what the oracle finds wrong with the rules of an item in some cases of each fit, sorted. */
function faultsOf(
  oracle: Oracle,
  item: string,
  casesOf: (fit: Fit, variables: readonly string[]) => Iterable<Case>,
): string[] {
  const policy = oracle.content.items.get(item)?.attributes.get('lamp')?.policy;
  const codes = new Set<string>();
  for (const fit of oracle.fits) {
    for (const given of casesOf(fit, oracle.variables(item, 'lamp'))) {
      const state = oracle.state(fit, item, 'lamp', given);
      if (typeof state !== 'string') codes.add('gap' in state ? 'SL401' : policy === 'unique' ? 'SL403' : 'SL402');
    }
  }
  return [...codes].sort();
}

/** Every combination of what the variables can be on a fit, whether or not it can happen. */
function everyCombination(oracle: Oracle, fit: Fit, variables: readonly string[]): Case[] {
  return variables.reduce<Case[]>(
    (cases, name) => {
      const values = oracle.valuesOn(fit, name);
      if (values.length === 0) return cases;
      return cases.flatMap((given) => values.map((value) => ({ ...given, [name]: value })));
    },
    [{}],
  );
}

/** A case over some variables only, as a key. */
function shown(given: Case, variables: readonly string[]): string {
  return variables.map((name) => given[name] ?? 'absent').join(' ');
}

/** The normal values of those of the variables that have one. */
function normalsAmong({ content }: Oracle, variables: readonly string[]): Case {
  return Object.fromEntries(
    variables.flatMap((name) => {
      const normal = content.conditions.get(name)?.normal;
      return normal === undefined ? [] : [[name, normal]];
    }),
  );
}

/** The states in the rows of a table that hold the case. */
function rowsOf(compiled: Compiled, table: StateTable | undefined, given: Case): string[] {
  if (!table) return [];
  const levels = levelsOf(compiled, table.columns, given);
  return table.rows
    .filter(({ cells }) => table.columns.every((level, at) => cells[at]?.includes(levels.get(level) ?? -1) ?? true))
    .map(({ outcome }) => stateIn(compiled, outcome));
}

/** Every combination of values of some levels, with the case that it stands for and the controls that it leaves out. */
function everyCase(
  { space }: Compiled,
  levels: readonly number[],
): { levels: Map<number, number>; case: Case; absent: string[] }[] {
  return levels.reduce(
    (cases, level) => {
      const meaning = space.meanings[level] as Meaning;
      const { id, size } = space.variables[level] as { id: string; size: number };
      return cases.flatMap((before) =>
        Array.from({ length: size }, (_, value) => {
          const isAbsent = meaning.kind === 'control' && value === absentValue(meaning);
          const written =
            meaning.kind === 'number' ? String(Number(meaning.cells[value]?.first) / 2) : valueIds(meaning)[value];
          return {
            levels: new Map([...before.levels, [level, value]]),
            case: isAbsent ? before.case : { ...before.case, [id]: written ?? '' },
            absent: isAbsent ? [...before.absent, id] : before.absent,
          };
        }),
      );
    },
    [{ levels: new Map<number, number>(), case: {} as Case, absent: [] as string[] }],
  );
}
