/** One moment of a run as the diagrams see it: every variable has a value, and expressions and items can be asked. */
import type { Expression } from '../../language/index.ts';
import type { Node } from '../../logic/index.ts';
import type { Control, NumberRange } from '../../model/index.ts';
import { comparisonsIn } from '../cells.ts';
import type { SettledFit } from '../fits.ts';
import { queryAt } from '../groups.ts';
import { absentValue, idOf, levelOf, type Meaning, optionLevels, valueIds, valueOfPosition } from '../space.ts';
import { divide, ofDecimal, subtract } from './fraction.ts';
import type { Base, Inputs } from './inputs.ts';
import type { Levels, Phase } from './levels.ts';

/** What the run is in besides its inputs: the modes of the sequences that are fitted, by id, and the stores. */
export interface Standing {
  readonly modes: ReadonlyMap<string, string>;
  readonly levels: Levels;
  readonly phase: Phase;
}

/** The answer of an expression that hangs on what is not stated. */
export class NotStated extends Error {
  readonly expression: Expression;
  constructor(expression: Expression) {
    super('what the expression reads is not stated');
    this.expression = expression;
  }
}

/** What stays the same during a run. */
export class World {
  readonly ground: Base;
  readonly fit: SettledFit;
  /** The controls that are fitted, by the level of their variable. */
  readonly #controls: ReadonlyMap<number, Control>;
  readonly #options: ReadonlyMap<number, number>;
  #last: { readonly inputs: Inputs; readonly values: readonly number[] } | undefined;
  readonly #loud = new Map<Expression, Node>();
  readonly #quiet = new Map<Expression, Node>();

  constructor(ground: Base, fit: SettledFit) {
    const { fleet, space, diagrams, expressions } = ground;
    this.ground = ground;
    this.fit = fit;
    this.#options = optionLevels(space, fit);
    const fitted = fleet.controls.filter(
      (control) => diagrams.restrictAll(expressions.controlFitted(control), this.#options) === diagrams.yes,
    );
    this.#controls = new Map(fitted.map((control) => [levelOf(space, control.id), control]));
  }

  node(expression: Expression, quietly: boolean): Node {
    const known = quietly ? this.#quiet : this.#loud;
    const node = known.get(expression) ?? this.ground.expressions.compile(expression, quietly);
    known.set(expression, node);
    return node;
  }

  /** The value of each level. Stores and answers that nobody has given have none of their own, and stand at 0. */
  assignment(inputs: Inputs, modes: ReadonlyMap<string, string>): number[] {
    // Most moments differ from the one before by a mode only.
    if (this.#last?.inputs !== inputs) {
      const values = this.ground.space.meanings.map((meaning, level) => this.#value(meaning, level, inputs));
      this.#last = { inputs, values };
    }
    const assignment = [...this.#last.values];
    for (const [id, mode] of modes) {
      const level = levelOf(this.ground.space, id);
      assignment[level] = valueIds(this.ground.space.meanings[level] as Meaning).indexOf(mode);
    }
    return assignment;
  }

  /** The value without regard to modes: sequences count as absent. */
  #value(meaning: Meaning, level: number, inputs: Inputs): number {
    switch (meaning.kind) {
      case 'option':
        return this.#options.get(level) ?? 0;
      case 'control': {
        const control = this.#controls.get(level);
        if (!control) return absentValue(meaning);
        const position = control.positions.findIndex(({ id }) => id === inputs.get(control.id));
        return valueOfPosition(meaning, control, position);
      }
      case 'number': {
        const { number, id } = meaning.condition;
        if (!number) throw new Error(`${id} has no range`);
        const step = stepOf(number, inputs.get(id) ?? number.from);
        return meaning.cells.findIndex(({ first, last }) => first <= step && step <= last);
      }
      case 'sequence':
        return absentValue(meaning);
      case 'store':
      case 'unstated':
        return 0;
      default:
        return valueIds(meaning).indexOf(inputs.get(idOf(meaning)) ?? '');
    }
  }
}

export class Moment {
  readonly #world: World;
  readonly #standing: Standing;
  readonly #assignment: readonly number[];

  constructor(world: World, inputs: Inputs, standing: Standing) {
    this.#world = world;
    this.#standing = standing;
    this.#assignment = world.assignment(inputs, standing.modes);
  }

  /**
   * Whether an expression holds; `quietly`, as sequences read items. Throws `NotStated` where that hangs on what is not
   * stated.
   */
  holds(expression: Expression, quietly: boolean): boolean {
    if ([...comparisonsIn(expression)].some(({ op }) => op === 'level'))
      return this.#holdsWithLevels(expression, quietly);
    const outcome = this.#follow(this.#world.node(expression, quietly), (a, b) => (a === b ? a : -1));
    if (outcome < 0) throw new NotStated(expression);
    return outcome === 1;
  }

  #holdsWithLevels(expression: Expression, quietly: boolean): boolean {
    const inner = (each: Expression): boolean => this.holds(each, quietly);
    switch (expression.op) {
      case 'level':
        return this.#standing.levels.compares(expression.store, expression.by, expression.value, this.#standing.phase);
      case 'and':
        return expression.args.every(inner);
      case 'or':
        return expression.args.some(inner);
      case 'not':
        return !inner(expression.arg);
      case 'implies':
        return !inner(expression.premise) || inner(expression.conclusion);
      default:
        throw new Error(`stores stand inside of ${expression.op}`);
    }
  }

  /** The value of the variable at a level. */
  valueAt(level: number): number {
    return this.#assignment[level] ?? 0;
  }

  /** The outcome of a behaviour. */
  outcome(behaviour: Node): number {
    const { outcomes } = this.#world.ground;
    return this.#follow(behaviour, (a, b, query) => outcomes.unlessAsked(query, a, b));
  }

  /** Where a diagram leads; `join` brings together where the answers that nobody has given lead. */
  #follow(node: Node, join: (a: number, b: number, query: string) => number): number {
    const { diagrams, space } = this.#world.ground;
    const value = diagrams.valueOf(node);
    if (value !== undefined) return value;
    const level = diagrams.level(node);
    if (space.meanings[level]?.kind !== 'unstated') {
      return this.#follow(diagrams.child(node, this.#assignment[level] as number), join);
    }
    const size = space.variables[level]?.size ?? 0;
    return Array.from({ length: size }, (_, answer) => this.#follow(diagrams.child(node, answer), join)).reduce(
      (a, b) => join(a, b, queryAt(space, level)),
    );
  }
}

/** How many steps a number lies above the lowest one. */
function stepOf({ from, step }: NumberRange, value: string): bigint {
  const steps = divide(subtract(ofDecimal(value), ofDecimal(from)), ofDecimal(step));
  return steps.over / steps.under;
}
