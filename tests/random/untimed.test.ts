/** Random sequences without delays: the replay, and the modes that can be, against a general state-machine library. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Compiled, levelOf, valueIds } from '../../src/compile/index.ts';
import { decimalText } from '../../src/compile/time/index.ts';
import { changesOf, courseOf, tryTime } from '../compile/time-content.ts';
import { PATIENCE, UNTIMED } from '../helpers/trials.ts';
import { Endless, everyInput, type Inputs, runnerOf, type Stand, type Untimed, untimed, written } from './untimed.ts';

/** Told of modes that no run reaches, of transitions that are never taken and the like: random sequences have many. */
const TOLD = /^SL4(?:13|3[0-4])\b/;

function compiledOf(made: Untimed) {
  const { panel, timeline, conditions, controls } = written(made);
  const { compiled, reported } = tryTime(panel, timeline, { panel: controls, 'conditions.yaml': conditions });
  return { compiled, reported, text: `\n${conditions}\n${panel}\n${timeline}` };
}

test(
  'the replay moves as a state-machine library does, with stores that are set',
  () => {
    const judged = { courses: 0, endless: 0, moves: 0, chains: 0 };
    fc.assert(
      fc.property(fc.boolean().chain(untimed), (made) => {
        const { compiled, reported, text } = compiledOf(made);
        expect(
          reported.filter((each) => !TOLD.test(each)),
          text,
        ).toEqual([]);
        if (!compiled) return;
        const expected = movesOf(made);
        const course = courseOf(compiled, 'one');
        const fault = course.faults.find(({ kind }) => kind === 'endless');
        expect(fault && Number(decimalText(fault.at).text), text).toBe(expected.endless);
        expect(changesOf(course), text).toEqual(expected.moves);
        judged[fault ? 'endless' : 'courses'] += 1;
        judged.moves += expected.moves.length;
        judged.chains += expected.chains;
      }),
      { numRuns: UNTIMED, seed: 20_261_401 },
    );
    expect(judged.courses / UNTIMED).toBeGreaterThan(0.5);
    expect(judged.moves / UNTIMED).toBeGreaterThan(1.5);
    expect(judged.chains / UNTIMED).toBeGreaterThan(0.2);
  },
  PATIENCE,
);

test(
  'the modes in which sequences can stand are those that the library comes to by some inputs',
  () => {
    const judged = { families: 0, together: 0, unreached: 0, endless: 0 };
    fc.assert(
      fc.property(untimed(false), (made) => {
        const { compiled, text } = compiledOf(made);
        const stood = everyStand(made);
        expect(compiled === undefined, text).toBe(stood === 'endless');
        if (stood === 'endless') judged.endless += 1;
        if (!compiled || stood === 'endless') return;
        const [families = []] = compiled.families;
        for (const { sequences, resting, standing } of families) {
          const modesOf = (modes: Readonly<Record<string, string>>): string =>
            sequences.map(({ id }) => modes[id]).join(' ');
          const expected = new Set(stood.map(({ modes }) => modesOf(modes)));
          expect([...resting.values()].map((modes) => modes.join(' ')).sort(), text).toEqual([...expected].sort());
          // Not only which modes, but with which inputs.
          const cases = new Set(stood.map(({ inputs, modes }) => `${JSON.stringify(inputs)} ${modesOf(modes)}`));
          for (const inputs of everyInput(made)) {
            for (const modes of everyMode(made)) {
              const stands = standsIn(compiled, standing, { ...inputs, ...modes });
              expect(stands, `${JSON.stringify([inputs, modes])}${text}`).toBe(
                cases.has(`${JSON.stringify(inputs)} ${modesOf(modes)}`),
              );
            }
          }
          judged.families += 1;
          judged.together += sequences.length > 1 ? 1 : 0;
          judged.unreached += sequences.reduce((all, { modes }) => all * modes.length, 1) - expected.size;
        }
      }),
      { numRuns: UNTIMED, seed: 20_261_402 },
    );
    expect(judged.families / UNTIMED).toBeGreaterThan(0.4);
    expect(judged.together / UNTIMED).toBeGreaterThan(0.2);
    expect(judged.unreached / UNTIMED).toBeGreaterThan(0.5);
    expect(judged.endless / UNTIMED).toBeGreaterThan(0.02);
  },
  PATIENCE,
);

/** What moves when, until a time at which it goes on for ever. */
function movesOf(made: Untimed): { moves: string[]; chains: number; endless: number | undefined } {
  const { begin, next } = runnerOf(made);
  const moves: string[] = [];
  let [stand, chains]: [Stand | undefined, number] = [undefined, 0];
  for (const [at, inputs] of made.course.entries()) {
    try {
      stand = stand ? next(stand, inputs) : begin(inputs);
    } catch (error) {
      if (!(error instanceof Endless)) throw error;
      return { moves, chains, endless: at * 10 };
    }
    moves.push(...stand.moved.map((text) => `${at * 10} ${text}`));
    if (stand.moved.length > 1) chains += 1;
  }
  return { moves, chains, endless: undefined };
}

/** Everywhere that the library stands after some course of inputs; or that one never ends. */
function everyStand(made: Untimed): Stand[] | 'endless' {
  const { begin, next } = runnerOf(made);
  const inputs = everyInput(made);
  const keyOf = (stand: Stand): string => JSON.stringify([stand.modes, stand.inputs]);
  try {
    const found = new Map(inputs.map(begin).map((stand) => [keyOf(stand), stand]));
    for (const stand of found.values()) {
      for (const then of inputs.map((each) => next(stand, each)))
        if (!found.has(keyOf(then))) found.set(keyOf(then), then);
    }
    return [...found.values()];
  } catch (error) {
    if (error instanceof Endless) return 'endless';
    throw error;
  }
}

function everyMode({ sequences }: Untimed): Stand['modes'][] {
  const [ofA = [], ofB = []] = sequences.map(({ modes }) => modes);
  return ofA.flatMap((a) => ofB.map((b) => ({ a, b })));
}

function standsIn({ diagrams, space }: Compiled, standing: number, values: Inputs & Stand['modes']): boolean {
  const at = Object.entries(values).map(([name, value]): [number, number] => {
    const meaning = space.meanings[levelOf(space, name)];
    return [levelOf(space, name), meaning ? valueIds(meaning).indexOf(value) : -1];
  });
  return diagrams.restrictAll(standing, new Map(at)) === diagrams.yes;
}
