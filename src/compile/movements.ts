/**
 * The fewest movements of controls that bring an item into a wanted state, whatever the detectors answer. One movement puts
 * one control into any position that can happen next; conditions stay as they are; undelayed transitions are taken at once,
 * and where a delay has to elapse the wait is listed.
 */
import type { Node } from '../logic/index.ts';
import type { Control, Sequence } from '../model/index.ts';
import type { Facts } from './because.ts';
import type { Compiled } from './compile.ts';
import { settingsOn } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import type { Behaviour } from './groups.ts';
import { isHidden, levelOf, optionLevels } from './space.ts';
import { transitionGuard } from './transition-guard.ts';

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
 * when no movements lead there, or none were found within the limit of the search.
 *
 * @param start a case of the fit that can happen: a value for every level other than options and hidden ones.
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
  const { diagrams, space, expressions, outcomes } = compiled;
  const options = optionLevels(space, fit);
  const care = compiled.care[fit.index] as Node;
  const node = diagrams.restrictAll(behaviour.node, options);
  const kindAt = (level: number): string => space.meanings[level]?.kind ?? '';
  const conditions = pick(start, (level) => !['control', 'sequence'].includes(kindAt(level)));
  const runs = new Runs(compiled, fit);
  const answers = hiddenAnswers(compiled, fit, start);
  const wanted = new Set(states.map((state) => outcomes.ofState(state)));
  const settings = (level: number): readonly number[] => settingsOn(expressions, diagrams, space, level, fit);
  // A control that neither the item nor any sequence reads, and that never keeps another from moving, leads nowhere.
  const possible = diagrams.restrictAll(care, conditions);
  const read = new Set([...diagrams.support(diagrams.restrictAll(node, conditions)), ...runs.reads()]);
  const hinders = (level: number): boolean =>
    new Set(settings(level).map((value) => diagrams.restrict(possible, level, value))).size > 1;
  const levels = space.meanings.flatMap(({ kind }, level) =>
    kind === 'control' && (read.has(level) || hinders(level)) ? [level] : [],
  );
  const whole = (at: Situation, answer: number): Map<number, number> =>
    new Map([...conditions, ...at.positions, ...(answers[answer] ?? []), ...(at.modes[answer] ?? [])]);
  const holds = (at: Situation): boolean =>
    answers.every((_, answer) => {
      const outcome = diagrams.valueOf(diagrams.restrictAll(node, whole(at, answer)));
      return outcome !== undefined && wanted.has(outcome);
    });
  const happens = (at: Situation): boolean =>
    answers.every((_, answer) => diagrams.restrictAll(care, whole(at, answer)) === diagrams.yes);
  const seen = new Set<string>();
  const first: Situation = {
    positions: pick(start, (level) => kindAt(level) === 'control'),
    modes: answers.map(() => pick(start, (level) => kindAt(level) === 'sequence')),
    steps: [],
  };
  // By the number of movements; waits cost nothing.
  let front: Situation[] = [first];
  while (front.length > 0) {
    const next: Situation[] = [];
    for (let at = front.shift(); at; at = front.shift()) {
      const key = JSON.stringify([[...at.positions], at.modes.map((modes) => [...modes])]);
      if (seen.has(key)) continue;
      if (seen.size >= limit) return undefined;
      seen.add(key);
      if (holds(at)) return at.steps;
      const here = at;
      for (const { sequence, mode } of runs.delayedFrom(answers.map((_, answer) => whole(here, answer)))) {
        const modes = answers.map((_, answer) => runs.afterWait(whole(here, answer), sequence, mode));
        const waited = { ...here, modes, steps: [...here.steps, { kind: 'wait', sequence, mode } as const] };
        if (happens(waited)) front.push(waited);
      }
      for (const level of levels) {
        for (const value of settings(level)) {
          if (value === here.positions.get(level)) continue;
          const positions = new Map([...here.positions, [level, value]]);
          const moved: Situation = { ...here, positions };
          const settled = { ...moved, modes: answers.map((_, answer) => runs.settle(whole(moved, answer))) };
          const control = controlAt(compiled, fit, level, value);
          if (control && happens(settled)) {
            next.push({ ...settled, steps: [...here.steps, { kind: 'move', level, control, value }] });
          }
        }
      }
    }
    front = next;
  }
  return undefined;
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

/** Every combination of answers of the hidden variables that can happen together with the case. */
function hiddenAnswers({ space, diagrams, care }: Compiled, fit: SettledFit, start: Facts): Map<number, number>[] {
  const here = diagrams.restrictAll(care[fit.index] as Node, start);
  const levels = space.meanings.flatMap((meaning, level) =>
    isHidden(meaning) && meaning.kind !== 'store' ? [level] : [],
  );
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

/** The transitions of a fit's sequences, asked for one case at a time. */
class Runs {
  readonly #compiled: Compiled;
  readonly #options: Facts;
  readonly #sequences: readonly Sequence[];

  constructor(compiled: Compiled, fit: SettledFit) {
    this.#compiled = compiled;
    this.#options = optionLevels(compiled.space, fit);
    this.#sequences = (compiled.families[fit.index] ?? []).flatMap(({ sequences }) => sequences);
  }

  /** The levels that some transition waits for. */
  reads(): number[] {
    const { diagrams, expressions, space } = this.#compiled;
    return this.#sequences.flatMap(({ transitions }) =>
      transitions.flatMap((transition) => {
        const here = (node: Node): Node => diagrams.restrictAll(node, this.#options);
        const { now, later, event } = transitionGuard(transition, space, diagrams, expressions, here);
        return [now, later, event].flatMap((node) => [...diagrams.support(node)]);
      }),
    );
  }

  /** The modes after all undelayed transitions that the case allows. */
  settle(given: Map<number, number>): Map<number, number> {
    const modes = this.#modesOf(given);
    for (;;) {
      const step = this.#open(given, modes, false)[0];
      if (!step) return modes;
      modes.set(levelOf(this.#compiled.space, step.sequence.id), indexOf(step.sequence, step.mode));
    }
  }

  /** The waits that lead on in one of the cases at least. */
  delayedFrom(cases: readonly Map<number, number>[]): readonly { sequence: Sequence; mode: string }[] {
    const found = cases.flatMap((given) => this.#open(given, this.#modesOf(given), true));
    return [...new Map(found.map((each) => [`${each.sequence.id} ${each.mode}`, each])).values()];
  }

  /** The modes after a wait for one transition, where the case allows it, and all that follows at once. */
  afterWait(given: Map<number, number>, sequence: Sequence, mode: string): Map<number, number> {
    const modes = this.#modesOf(given);
    const open = this.#open(given, modes, true).some((each) => each.sequence === sequence && each.mode === mode);
    if (!open) return modes;
    modes.set(levelOf(this.#compiled.space, sequence.id), indexOf(sequence, mode));
    return this.settle(new Map([...given, ...modes]));
  }

  #modesOf(given: Map<number, number>): Map<number, number> {
    const { space } = this.#compiled;
    return new Map([...given].filter(([level]) => space.meanings[level]?.kind === 'sequence'));
  }

  /** The transitions that can be taken, the first in order first. Stores may stand at any level. */
  #open(
    given: Map<number, number>,
    modes: Map<number, number>,
    delayed: boolean,
  ): { sequence: Sequence; mode: string }[] {
    const { diagrams, expressions, space } = this.#compiled;
    const facts = new Map([...this.#options, ...given, ...modes]);
    return this.#sequences.flatMap((sequence) => {
      const mode = sequence.modes[modes.get(levelOf(space, sequence.id)) ?? -1]?.id ?? '';
      return sequence.transitions.flatMap((transition) => {
        if (!transition.from.includes(mode)) return [];
        const at = (node: Node): Node => diagrams.restrictAll(node, facts);
        const guard = transitionGuard(transition, space, diagrams, expressions, at);
        const open = delayed ? guard.later : guard.now;
        return open === diagrams.yes ? [{ sequence, mode: transition.to }] : [];
      });
    });
  }
}

function indexOf(sequence: Sequence, mode: string): number {
  return sequence.modes.findIndex(({ id }) => id === mode);
}
