/**
 * What sets a sound off: a change from one case to another, both of which can happen, in which one control, condition, lamp
 * or mode moves, and with it only what cannot stay as it is.
 */
import type { Node } from '../logic/index.ts';
import type { Sound, Trigger } from '../model/index.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import { isHidden, levelOf, optionLevels, valueIds } from './space.ts';
import { transitionGuard } from './transition-guard.ts';

/** One variable that goes from one value to another. */
export interface Movement {
  readonly level: number;
  readonly from: number;
  readonly to: number;
}

/** Movements after which the sound is heard in the same cases. */
export interface TriggerRow {
  readonly level: number;
  /** From and to, as many as have the same cases. */
  readonly moves: readonly (readonly [from: number, to: number])[];
  /** What must move with it, since otherwise the case could not happen. */
  readonly forced?: Movement;
  /** The cases of all other variables, before and after alike, in which the sound is heard: Boolean. */
  readonly when: Node;
  /** The cases in which the movement can happen. `when` lies within. */
  readonly possible: Node;
  /** The cases in which the tolerance of a detector decides whether it is heard. */
  readonly either: Node;
}

/** The trigger table of a sound on a fit: every movement after which it is heard in some case. */
export function triggerTable(compiled: Compiled, sound: Sound, fit: SettledFit): TriggerRow[] {
  const { space } = compiled;
  const cases = new Cases(compiled, sound, fit);
  return space.meanings.flatMap((meaning, level) => {
    if (meaning.kind === 'option' || isHidden(meaning)) return [];
    const values = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
    const rows = new Map<string, TriggerRow>();
    for (const from of values) {
      for (const to of values) {
        if (from === to) continue;
        for (const found of cases.of({ level, from, to })) {
          const forced = found.forced ? `${found.forced.level} ${found.forced.from} ${found.forced.to}` : '';
          const key = `${found.when} ${found.possible} ${found.either} ${forced}`;
          const row = rows.get(key);
          rows.set(key, row ? { ...row, moves: [...row.moves, [from, to]] } : { ...found, level, moves: [[from, to]] });
        }
      }
    }
    return [...rows.values()];
  });
}

type Found = Pick<TriggerRow, 'forced' | 'when' | 'possible' | 'either'>;

class Cases {
  readonly #compiled: Compiled;
  readonly #sound: Sound;
  readonly #care: Node;
  readonly #options: ReadonlyMap<number, number>;

  constructor(compiled: Compiled, sound: Sound, fit: SettledFit) {
    this.#compiled = compiled;
    this.#sound = sound;
    this.#care = compiled.care[fit.index] as Node;
    this.#options = optionLevels(compiled.space, fit);
  }

  /** The cases in which one movement is heard: alone, and with each thing that may be forced to move with it. */
  of(movement: Movement): Found[] {
    const { diagrams } = this.#compiled;
    const before = diagrams.and(this.#at(this.#care, [[movement.level, movement.from]]), this.#byTime(movement));
    const after = this.#at(this.#care, [[movement.level, movement.to]]);
    const alone = diagrams.and(before, after);
    const blocked = diagrams.and(before, diagrams.not(after));
    return [...this.#heard([movement], alone), ...(blocked === diagrams.no ? [] : this.#forced(movement, blocked))];
  }

  #forced(movement: Movement, blocked: Node): Found[] {
    const { space, diagrams } = this.#compiled;
    const isMode = (level: number): boolean => space.meanings[level]?.kind === 'sequence';
    const held = diagrams
      .support(blocked)
      // A mode that moves brings other modes with it, never an input.
      .filter((level) => !isHidden(space.meanings[level]) && (isMode(level) || !isMode(movement.level)));
    return held.flatMap((level) => {
      const values = Array.from({ length: space.variables[level]?.size ?? 0 }, (_, value) => value);
      return values.flatMap((from) =>
        values.flatMap((to) => {
          if (from === to) return [];
          const other = { level, from, to };
          const possible = diagrams.and(
            this.#at(blocked, [[level, from]]),
            this.#at(this.#care, [
              [movement.level, movement.to],
              [level, to],
            ]),
            this.#at(this.#transitions(other, 'at once'), [
              [movement.level, movement.to],
              [level, from],
            ]),
          );
          return this.#heard([movement, other], possible).map((found) => ({ ...found, forced: other }));
        }),
      );
    });
  }

  /** A mode moves by itself only when a delay elapses; anything else may move at any time. */
  #byTime(movement: Movement): Node {
    return this.#at(this.#transitions(movement, 'in time'), [[movement.level, movement.from]]);
  }

  /** Where a transition leads from one mode to another; `yes` for anything that is not a mode. */
  #transitions({ level, from, to }: Movement, taken: 'at once' | 'in time'): Node {
    const { space, diagrams, expressions } = this.#compiled;
    const meaning = space.meanings[level];
    if (meaning?.kind !== 'sequence') return diagrams.yes;
    const mode = (value: number): string => meaning.sequence.modes[value]?.id ?? '';
    const guards = meaning.sequence.transitions
      .filter((each) => each.from.includes(mode(from)) && each.to === mode(to))
      .map((each) => transitionGuard(each, space, diagrams, expressions, (node) => this.#here(node)))
      .map(({ now, later }) => (taken === 'in time' ? later : now));
    return diagrams.or(...guards);
  }

  #heard(movements: readonly Movement[], possible: Node): Found[] {
    const { diagrams, space } = this.#compiled;
    if (possible === diagrams.no) return [];
    const fires = diagrams.and(
      possible,
      diagrams.or(...this.#sound.triggers.map((trigger) => this.#fires(trigger, movements))),
    );
    if (fires === diagrams.no) return [];
    const hidden = [...new Set([...diagrams.support(fires), ...diagrams.support(possible)])].filter((level) =>
      isHidden(space.meanings[level]),
    );
    const silent = diagrams.exists(diagrams.and(possible, diagrams.not(fires)), hidden);
    const heard = diagrams.exists(fires, hidden);
    return [
      {
        possible: diagrams.exists(possible, hidden),
        when: diagrams.and(heard, diagrams.not(silent)),
        either: diagrams.and(heard, silent),
      },
    ];
  }

  #fires(trigger: Trigger, movements: readonly Movement[]): Node {
    const { diagrams, expressions } = this.#compiled;
    if (trigger.moves !== undefined && !movements.some((each) => this.#isMeant(trigger, each))) return diagrams.no;
    const before = movements.map(({ level, from }): [number, number] => [level, from]);
    const after = movements.map(({ level, to }): [number, number] => [level, to]);
    const compiledOf = (expression: Trigger['becomes']): Node =>
      expression ? this.#here(expressions.compile(expression, true)) : diagrams.yes;
    const becomes = trigger.becomes
      ? diagrams.and(
          diagrams.not(this.#at(compiledOf(trigger.becomes), before)),
          this.#at(compiledOf(trigger.becomes), after),
        )
      : diagrams.yes;
    return diagrams.and(becomes, this.#at(compiledOf(trigger.while), after));
  }

  #isMeant({ moves, from, to }: Trigger, movement: Movement): boolean {
    const { space } = this.#compiled;
    const meaning = space.meanings[movement.level];
    if (!meaning || moves === undefined || levelOf(space, moves) !== movement.level) return false;
    const ids = meaning.kind === 'control' ? this.#positionIds(moves, movement.level) : valueIds(meaning);
    const among = (values: readonly string[] | undefined, value: number): boolean =>
      values === undefined || values.includes(ids[value] ?? '');
    return among(from, movement.from) && among(to, movement.to);
  }

  /** The position ids of one control by the values of the variable that it may share. */
  #positionIds(control: string, level: number): string[] {
    const meaning = this.#compiled.space.meanings[level];
    if (meaning?.kind !== 'control') return [];
    const own = meaning.controls.find(({ id }) => id === control);
    return meaning.values.map((value) => (own ? (own.positions[value.get(own) ?? -1]?.id ?? '') : ''));
  }

  #here(node: Node): Node {
    return this.#compiled.diagrams.restrictAll(node, this.#options);
  }

  #at(node: Node, facts: readonly (readonly [number, number])[]): Node {
    return this.#compiled.diagrams.restrictAll(node, new Map(facts));
  }
}
