/**
 * Random walks through the cases of a content, held step by step to the interpreter of the authors' words: the same settings can stand,
 * the same goes on at once and in time, everything is the same then, and the same is heard.
 */
import { expect } from 'vitest';
import {
  type Act,
  type Compiled,
  Explorer,
  explorable,
  type Fit,
  idOf,
  type Situation,
  valueIds,
} from '../../src/compile/index.ts';
import { chooser, random } from '../compile/random-numbers.ts';
import type { Case, Oracle, Fit as OracleFit } from '../oracle/index.ts';
import { type OpenWorld, Untimed } from './untimed.ts';

/** More worlds than these are not looked at by the interpreter. */
const MOST_WORLDS = 24;

/** How often what is of interest has come about. */
export type Walked = Record<
  'steps' | 'barred' | 'waits' | 'leaps' | 'either' | 'depends' | 'together' | 'several' | 'heard' | 'perhaps',
  number
>;

export interface Walks {
  readonly seen: Walked;
  /** So many steps on one fit, or on each that it may be. */
  readonly walk: (fit: Fit, seed: number, steps: number) => void;
}

export function explorerWalks(compiled: Compiled, oracle: Oracle): Walks {
  const explorer = new Explorer(explorable(compiled));
  const untimed = new Untimed(oracle);
  const { meanings } = compiled.space;
  /** What transitions wait for, and numbers: they move more often than other things. */
  const lively = new Set([
    ...explorer.fleet.on.flatMap(({ guards }) =>
      guards.flatMap(({ now, later, event }) => [now, later, event].flatMap((node) => compiled.diagrams.support(node))),
    ),
    ...meanings.flatMap(({ kind }, level) => (kind === 'number' ? [level] : [])),
  ]);
  const seen: Walked = {
    steps: 0,
    barred: 0,
    waits: 0,
    leaps: 0,
    either: 0,
    depends: 0,
    together: 0,
    several: 0,
    heard: 0,
    perhaps: 0,
  };

  /** A value as the interpreter writes it; undefined where it is absent. */
  const written = (level: number, value: number): string | undefined => {
    const meaning = meanings[level];
    if (!meaning) throw new Error(`no level ${level}`);
    if (meaning.kind !== 'number') return valueIds(meaning)[value];
    const { from, step } = meaning.condition.number as { from: string; step: string };
    const digits = Math.max(...[from, step].map((each) => each.split('.')[1]?.length ?? 0));
    return (Number(from) + Number(step) * Number(meaning.cells[value]?.first)).toFixed(digits);
  };
  /** By the names of the interpreter. A control that shares a variable is named itself. */
  const named = (facts: Iterable<readonly [number, number]>, fit: OracleFit): Case =>
    Object.fromEntries(
      [...facts].flatMap(([level, value]): [string, string][] => {
        const meaning = meanings[level];
        if (meaning?.kind === 'control') {
          const own = [...(meaning.values[value] ?? [])].find(([{ id }]) => oracle.isFitted(fit, id));
          return own ? [[own[0].id, own[0].positions[own[1]]?.id ?? '']] : [];
        }
        const word = meaning && written(level, value);
        return word === undefined || !meaning ? [] : [[idOf(meaning), word]];
      }),
    );
  const sorted = (given: Case): string => JSON.stringify(Object.entries(given).sort(([a], [b]) => (a < b ? -1 : 1)));

  /** Follows one fit, or each that it may be, and compares at every step. */
  function walk(fit: Fit, seed: number, steps: number): void {
    const choose = chooser(random(seed));
    const wanted = oracle.fits.find(
      (one) => fit.holders[0] && [...fit.options].every(([id, value]) => one.options[id] === value),
    );
    const candidates = oracle.candidates(wanted as OracleFit);
    const fitOf = (index: number): OracleFit => {
      const { options } = compiled.settled[index] as (typeof compiled.settled)[number];
      return candidates.find((one) => [...options].every(([id, value]) => one.options[id] === value)) as OracleFit;
    };
    let here = explorer.start(fit);
    // Where it starts is checked by itself; from there on the interpreter follows in its own way.
    let worlds: OpenWorld[] = here.worlds.map(({ fit: index, answers, modes }) => {
      const own = fitOf(index);
      return untimed.settle(
        { fit: own, answers: named(answers, own), modes: named(modes, own), happened: new Set() },
        named(here.inputs, own),
      );
    });
    const keys = (situation: Situation): string[] =>
      situation.worlds.map((world) => {
        const own = fitOf(world.fit);
        return `${own.id} ${sorted({ ...named(world.answers, own), ...named(world.modes, own) })}`;
      });
    const compare = (told: string): void => {
      const mine = [...new Set(keys(here))].sort();
      const theirs = [
        ...new Set(worlds.map(({ fit: own, answers, modes }) => `${own.id} ${sorted({ ...answers, ...modes })}`)),
      ].sort();
      expect(mine, told).toEqual(theirs);
      // Which modes can be is held to the interpreter elsewhere (tests/compile/time-slowly.test.ts and the families).
      for (const { fit: index, answers, modes } of here.worlds) {
        const facts = [...here.inputs, ...answers, ...modes].filter(([level]) => !explorer.lacks(index, level));
        expect(compiled.possible[index]?.only([], new Map(facts)), told).toBe(compiled.diagrams.yes);
      }
      const outcomes = explorer.outcomes(here, fit);
      compiled.behaviours.forEach(({ item, attribute }, at) => {
        const byFit = [...Map.groupBy(worlds, (world) => world.fit)].map(([own, some]) =>
          [
            ...new Set(
              some.map(({ answers, modes }) => {
                const given = { ...untimed.inputsOn(own, named(here.inputs, own)), ...answers, ...modes };
                const state = oracle.state(own, item.id, attribute.id, given);
                return typeof state === 'string' ? state : JSON.stringify(state);
              }),
            ),
          ].sort(),
        );
        const [first, ...others] = byFit.map((states) => states.join(' or '));
        const isOpen = others.some((each) => each !== first);
        const meant = compiled.outcomes.meaning(outcomes[at] as number);
        expect(meant.kind === 'depends', `${told}: ${item.id}.${attribute.id}`).toBe(isOpen);
        expect([...new Set(saidOf(outcomes[at] as number))].sort(), `${told}: ${item.id}.${attribute.id}`).toEqual(
          [...new Set(byFit.flat())].sort(),
        );
        if (meant.kind === 'either') seen.either += 1;
        if (isOpen) seen.depends += 1;
      });
    };
    const compareSounds = (
      before: Situation,
      act: Act,
      pairs: readonly (readonly [OpenWorld, OpenWorld])[],
      told: string,
    ): void => {
      const caseOf = (inputs: Situation['inputs'], { fit: own, answers, modes }: OpenWorld): Case => ({
        ...untimed.inputsOn(own, named(inputs, own)),
        ...answers,
        ...modes,
      });
      const heard = pairs.map(([was, is]) =>
        untimed.sounds(is.fit, caseOf(before.inputs, was), caseOf(here.inputs, is)),
      );
      const mine = explorer
        .heard(before, act)
        .map(({ at, certain }) => `${explorer.fleet.sounds[at]?.sound.id} ${certain}`);
      const theirs = [...new Set(heard.flat())].map((id) => `${id} ${heard.every((ids) => ids.includes(id))}`);
      expect(mine.sort(), told).toEqual(theirs.sort());
      seen.heard += mine.length;
      seen.perhaps += mine.filter((each) => each.endsWith('false')).length;
    };
    const saidOf = (outcome: number): string[] => {
      const meant = compiled.outcomes.meaning(outcome);
      if (meant.kind === 'state') return [meant.state];
      if (meant.kind === 'not stated') return [JSON.stringify({ notStated: meant.query })];
      return 'of' in meant ? meant.of.flatMap(saidOf) : [meant.kind === 'not fitted' ? 'not-fitted' : meant.kind];
    };
    compare('at the start');
    for (let step = 0; step < steps; step += 1) {
      const open: { act: Act; told: string }[] = [];
      const forced: typeof open = [];
      for (const level of explorer.inputs) {
        for (const value of explorer.settings(here, level)) {
          if (here.inputs.get(level) === value) continue;
          const values = new Map([[level, value]]);
          const can = explorer.canSet(here, values);
          const inputs = new Map([...here.inputs, ...values]);
          const left = [...new Set(worlds.map((world) => world.fit))];
          const has = (own: OracleFit): boolean =>
            Object.keys(named(values, own)).length > 0 || meanings[level]?.kind !== 'control';
          const theirs = left.some(
            (own) => isWhole(own, inputs, level) && has(own) && untimed.canStand(own, named(inputs, own)),
          );
          const told = `${fit.index} ${seed} ${step}: ${compiled.space.variables[level]?.id} ${written(level, value)}`;
          expect(can, told).toBe(theirs);
          if (!can) {
            seen.barred += 1;
            const against = explorer.conflict(here, level, value);
            const own = left.find((each) => isWhole(each, inputs, level) && has(each)) as OracleFit;
            // Nothing stands in the way of what can never be.
            expect(against.length > 0, told).toBe(untimed.canStand(own, named(values, own)));
            if (against.length > 0 && choose.chance(0.1)) {
              const facts = against.map((each) => [each, here.inputs.get(each) ?? 0] as const);
              expect(untimed.canStand(own, named([...values, ...facts], own)), told).toBe(false);
              for (const without of facts)
                expect(
                  untimed.canStand(own, named([...values, ...facts.filter((each) => each !== without)], own)),
                  told,
                ).toBe(true);
            }
            const together = judgeTogether(here, level, value, told);
            if (together) forced.push({ act: { kind: 'set', values: together }, told: `${told} with what must move` });
          } else open.push({ act: { kind: 'set', values }, told });
        }
      }
      const waits = explorer.waits(here);
      const { leaps } = explorer.fleet;
      const mine = waits.map(({ leap }) => `${idOf(meanings[leaps[leap]?.level ?? 0] as never)} ${leaps[leap]?.to}`);
      const theirs = worlds.flatMap((world) =>
        untimed.waits(world, named(here.inputs, world.fit)).map(([id, to]) => {
          const modes = compiled.fleet.sequences.find((one) => one.id === id)?.modes ?? [];
          return `${id} ${modes.findIndex((mode) => mode.id === to)}`;
        }),
      );
      expect([...new Set(mine)].sort()).toEqual([...new Set(theirs)].sort());
      const wait = waits.length > 0 && choose.chance(0.35) ? choose.pick(waits) : undefined;
      const before = here;
      if (wait) {
        const { level, from, to } = leaps[wait.leap] as (typeof leaps)[number];
        const act = { kind: 'wait', level, from, to } as const;
        here = explorer.after(here, act) as Situation;
        const [id, fromId, toId] = [
          idOf(meanings[level] as never),
          written(level, from) ?? '',
          written(level, to) ?? '',
        ];
        const pairs = worlds.map(
          (world) => [world, untimed.wait(world, named(before.inputs, world.fit), id, fromId, toId)] as const,
        );
        compareSounds(before, act, pairs, `${fit.index} ${seed} ${step}: wait for ${id} ${toId}`);
        worlds = pairs.map(([, next]) => next);
        seen.waits += 1;
        compare(`${fit.index} ${seed} ${step}: wait for ${id} ${toId}`);
      } else {
        if (forced.length > 0 && (open.length === 0 || choose.chance(0.1))) open.splice(0, open.length, ...forced);
        if (open.length === 0) return;
        const near = open.filter(
          ({ act }) => act.kind === 'set' && [...act.values.keys()].some((level) => lively.has(level)),
        );
        const next = choose.pick(near.length > 0 && choose.chance(0.7) ? near : open);
        const after = explorer.after(here, next.act);
        // More is open than is followed, or than the interpreter can look at in a test.
        if (!after || after.worlds.length > MOST_WORLDS) continue;
        here = after;
        const pairs = worlds.flatMap((world) => {
          const inputs = named(here.inputs, world.fit);
          const next = isWhole(world.fit, here.inputs)
            ? untimed.set(world, named(before.inputs, world.fit), inputs)
            : [];
          return next.map((each) => [world, each] as const);
        });
        compareSounds(before, next.act, pairs, next.told);
        worlds = pairs.map(([, each]) => each);
        compare(next.told);
      }
      if (keys(before).join() !== keys(here).join()) seen.leaps += 1;
      seen.steps += 1;
    }
  }
  /** What must move with a setting is as few as can be: with one thing less it cannot stand, as far as that can be tried. */
  function judgeTogether(here: Situation, level: number, value: number, told: string): Situation['inputs'] | undefined {
    const found = explorer.together(here, level, value);
    if (!found) return undefined;
    expect(found.get(level), told).toBe(value);
    expect(explorer.canSet(here, found), told).toBe(true);
    seen.together += 1;
    if (found.size < 3) return found;
    seen.several += 1;
    for (const other of explorer.inputs.filter((each) => each !== level))
      for (const each of explorer.settings(here, other))
        expect(
          explorer.canSet(
            here,
            new Map([
              [level, value],
              [other, each],
            ]),
          ),
          told,
        ).toBe(false);
    return found;
  }
  /** Whether an aircraft has the positions in which its controls are said to stand. */
  function isWhole(fit: OracleFit, inputs: ReadonlyMap<number, number>, only?: number): boolean {
    return [...inputs].every(([level]) => {
      const meaning = meanings[level];
      if (meaning?.kind !== 'control' || (only !== undefined && only !== level)) return true;
      const own = meaning.controls.find(({ id }) => oracle.isFitted(fit, id));
      const position = named([[level, inputs.get(level) as number]], fit)[own?.id ?? ''];
      return own === undefined || (position !== undefined && oracle.valuesOn(fit, own.id).includes(position));
    });
  }

  return { seen, walk };
}
