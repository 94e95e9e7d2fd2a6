/**
 * The fewest movements of controls that bring an item into a wanted state, whatever the detectors answer. One movement puts
 * one control into any position that can happen next; conditions stay as they are; undelayed transitions are taken at once,
 * and where a delay has to elapse the wait is listed.
 */
import type { Node } from '../logic/index.ts';
import type { Control, Sequence } from '../model/index.ts';
import type { Facts } from './because.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import type { Behaviour } from './groups.ts';
import { type ModeStep, modeSteps, stepsBehind } from './mode-steps.ts';
import { settingsOn } from './positions.ts';
import type { Possible } from './possible.ts';
import { isHidden, optionLevels } from './space.ts';
import type { Movement } from './triggers.ts';

export type Step =
  /** `value` of the control's variable. */
  | { readonly kind: 'move'; readonly level: number; readonly control: Control; readonly value: number }
  | { readonly kind: 'wait'; readonly sequence: Sequence; readonly mode: string };

/** What a search is in: the positions and, for each answer that the hidden variables can give, the modes. */
interface Situation {
  readonly positions: Facts;
  readonly modes: readonly Facts[];
  readonly steps: readonly Step[];
}

/** The most situations that one search looks at, unless it is told otherwise. */
const SITUATIONS_LIMIT = 50_000;

/**
 * The steps from a case to one in which the attribute is in one of `states`: none needed gives an empty list; undefined
 * when no movements lead there, or none were found within the limit of the search. Only the sequences that the attribute
 * reads, directly or through each other, are followed, and only the controls that matter to them or keep one another from
 * moving are tried.
 *
 * @param start a case of the fit that can happen: a value for every one of `levelsBehind`, at least.
 * @param limit the most situations that the search looks at.
 */
export function fewestMovements(
  compiled: Compiled,
  fit: SettledFit,
  behaviour: Behaviour,
  states: readonly string[],
  start: Facts,
  limit = SITUATIONS_LIMIT,
): readonly Step[] | undefined {
  const { diagrams, space, outcomes } = compiled;
  const kindAt = (level: number): string => space.meanings[level]?.kind ?? '';
  const conditions = pick(start, (level) => !['control', 'sequence'].includes(kindAt(level)));
  const fixed = new Map([...optionLevels(space, fit), ...conditions]);
  const node = diagrams.restrictAll(behaviour.node, fixed);
  const runs = new Runs(compiled, fixed, diagrams.support(node));
  const hidden = [...runs.read].filter((level) => isHidden(space.meanings[level]));
  const inputs = inputsAround(compiled, fit, runs.read, conditions);
  const answers = hiddenAnswers(compiled, fit, start, hidden);
  const wanted = new Set(states.map((state) => outcomes.ofState(state)));
  const matters = new Set([...runs.read, ...diagrams.support(inputs)]);
  const levels = [...matters].filter((level) => kindAt(level) === 'control').sort((a, b) => a - b);
  const settings = new Map(levels.map((level) => [level, settingsOn(space, level, fit)]));
  const whole = (at: Situation, answer: number): Map<number, number> =>
    new Map([...at.positions, ...(answers[answer] ?? []), ...(at.modes[answer] ?? [])]);
  const holds = (at: Situation): boolean =>
    answers.every((_, answer) => {
      const outcome = diagrams.valueOf(diagrams.restrictAll(node, whole(at, answer)));
      return outcome !== undefined && wanted.has(outcome);
    });
  const happens = (at: Situation): boolean =>
    answers.every((_, answer) => diagrams.restrictAll(inputs, whole(at, answer)) === diagrams.yes);
  const seen = new Set<string>();
  const first: Situation = {
    positions: pick(start, (level) => levels.includes(level)),
    modes: answers.map(() => pick(start, (level) => runs.follows(level))),
    steps: [],
  };
  // By the number of movements; waits cost nothing.
  let front: Situation[] = [first];
  while (front.length > 0) {
    const next: Situation[] = [];
    for (let at = front.shift(); at; at = front.shift()) {
      const key = JSON.stringify([[...at.positions.values()], at.modes.map((modes) => [...modes.values()])]);
      if (seen.has(key)) continue;
      if (seen.size >= limit) return undefined;
      seen.add(key);
      if (holds(at)) return at.steps;
      const here = at;
      for (const wait of runs.delayedFrom(answers.map((_, answer) => whole(here, answer)))) {
        const modes = answers.map((_, answer) => runs.afterWait(whole(here, answer), wait));
        front.push({ ...here, modes, steps: [...here.steps, waitFor(compiled, wait)] });
      }
      for (const [level, values] of settings) {
        for (const value of values) {
          if (value === here.positions.get(level)) continue;
          const positions = new Map(here.positions).set(level, value);
          const moved: Situation = { ...here, positions };
          const control = controlAt(compiled, fit, level, value);
          if (!control || !happens(moved)) continue;
          const modes = answers.map((_, answer) => runs.settle(whole(moved, answer)));
          next.push({ positions, modes, steps: [...here.steps, { kind: 'move', level, control, value }] });
        }
      }
    }
    front = next;
  }
  return undefined;
}

/**
 * The levels that what leads to an attribute's states can hang on, ascending, hidden ones left out: what it reads, what the
 * sequences behind it read, and what these inputs may not stand together with.
 */
export function levelsBehind(compiled: Compiled, fit: SettledFit, { node }: Behaviour): readonly number[] {
  const { diagrams, space } = compiled;
  const options = optionLevels(space, fit);
  const { read } = new Runs(compiled, options, diagrams.support(diagrams.restrictAll(node, options)));
  const inputs = inputsAround(compiled, fit, read, new Map());
  const levels = new Set([...read, ...diagrams.support(inputs)]);
  return [...levels].filter((level) => !isHidden(space.meanings[level])).sort((a, b) => a - b);
}

/** Which positions and answers can stand together, of those that hang on what is `read`; with the conditions given. */
function inputsAround(
  { diagrams, space, inputs }: Compiled,
  fit: SettledFit,
  read: ReadonlySet<number>,
  conditions: Facts,
): Node {
  const here = diagrams.restrictAll((inputs[fit.index] as Possible).about(read), conditions);
  const unread = diagrams.support(here).filter((level) => isHidden(space.meanings[level]) && !read.has(level));
  return diagrams.exists(here, unread);
}

function waitFor({ space }: Compiled, { level, to }: Omit<Movement, 'from'>): Step {
  const meaning = space.meanings[level];
  const mode = meaning?.kind === 'sequence' ? meaning.sequence.modes[to] : undefined;
  if (meaning?.kind !== 'sequence' || !mode) throw new Error(`level ${level} has no mode ${to}`);
  return { kind: 'wait', sequence: meaning.sequence, mode: mode.id };
}

/** The control that is fitted, of those that share the variable, where it has the position. */
function controlAt(
  { space, expressions, diagrams }: Compiled,
  fit: SettledFit,
  level: number,
  value: number,
): Control | undefined {
  const meaning = space.meanings[level];
  if (meaning?.kind !== 'control') return undefined;
  const options = optionLevels(space, fit);
  return [...(meaning.values[value]?.keys() ?? [])].find(
    (control) => diagrams.restrictAll(expressions.controlFitted(control), options) === diagrams.yes,
  );
}

function pick(facts: Facts, keep: (level: number) => boolean): Map<number, number> {
  return new Map([...facts].filter(([level]) => keep(level)));
}

/** Every combination of answers of hidden variables that can happen together with the case. Stores may stand anywhere. */
function hiddenAnswers(
  { space, diagrams, possible }: Compiled,
  fit: SettledFit,
  start: Facts,
  hidden: readonly number[],
): Map<number, number>[] {
  const levels = hidden.filter((level) => space.meanings[level]?.kind !== 'store');
  const here = (possible[fit.index] as Possible).only(levels, start);
  return levels.reduce<Map<number, number>[]>(
    (answers, level) =>
      answers.flatMap((answer) => {
        const size = space.variables[level]?.size ?? 0;
        return Array.from({ length: size }, (_, value) => new Map([...answer, [level, value]])).filter(
          (each) => diagrams.restrictAll(here, each) !== diagrams.no,
        );
      }),
    [new Map()],
  );
}

/** The transitions behind what is read, asked for one case at a time. */
class Runs {
  /** What was asked about and all that these transitions wait for. */
  readonly read: ReadonlySet<number>;
  readonly #diagrams: Compiled['diagrams'];
  readonly #steps: readonly ModeStep[];

  constructor(compiled: Compiled, fixed: Facts, asked: Iterable<number>) {
    const { diagrams } = compiled;
    const all = modeSteps(compiled, (node) => diagrams.restrictAll(node, fixed));
    const { read, steps } = stepsBehind(diagrams, asked, all);
    this.read = read;
    this.#diagrams = diagrams;
    this.#steps = steps;
  }

  /** Whether the sequence of a level is followed. */
  follows(level: number): boolean {
    return this.#steps.some((step) => step.level === level);
  }

  /** The modes after all undelayed transitions that the case allows. */
  settle(given: Facts): Map<number, number> {
    const modes = pick(given, (level) => this.follows(level));
    for (;;) {
      const step = this.#open(given, modes, 'now')[0];
      if (!step) return modes;
      modes.set(step.level, step.to);
    }
  }

  /** The waits that lead on in one of the cases at least. */
  delayedFrom(cases: readonly Facts[]): readonly Omit<Movement, 'from'>[] {
    const found = cases.flatMap((given) => this.#open(given, given, 'later'));
    return [...new Map(found.map(({ level, to }) => [`${level} ${to}`, { level, to }])).values()];
  }

  /** The modes after a wait for one transition, where the case allows it, and all that follows at once. */
  afterWait(given: Facts, { level, to }: Omit<Movement, 'from'>): Map<number, number> {
    const modes = pick(given, (each) => this.follows(each));
    const isOpen = this.#open(given, modes, 'later').some((step) => step.level === level && step.to === to);
    return isOpen ? this.settle(new Map([...given, [level, to]])) : modes;
  }

  /** The transitions that can be taken, the first in order first. Stores may stand at any level. */
  #open(given: Facts, modes: Facts, when: 'now' | 'later'): readonly ModeStep[] {
    const facts = new Map([...given, ...modes]);
    return this.#steps.filter(
      (step) =>
        modes.get(step.level) === step.from && this.#diagrams.restrictAll(step[when], facts) === this.#diagrams.yes,
    );
  }
}
