/**
 * Expressions become Boolean diagrams. Signals and the states of other items are composed in; the model has made sure
 * that they form no cycle.
 */
import { type Expression, type Reference, thresholdCut } from '../language/index.ts';
import type { Diagrams, Node } from '../logic/index.ts';
import type { Control, Fleet, Item } from '../model/index.ts';
import type { Fit } from './fits.ts';
import type { Outcomes } from './outcomes.ts';
import { absentValue, levelOf, optionLevels, type Space, valueIds } from './space.ts';

/** Gives the behaviour of an attribute of an item, composing it first where needed. */
export type BehaviourOf = (item: string, attribute: string) => Node;

export class Expressions {
  readonly #fleet: Fleet;
  readonly #space: Space;
  readonly #diagrams: Diagrams;
  readonly #outcomes: Outcomes;
  readonly #behaviourOf: BehaviourOf;
  readonly #signals = new Map<string, Node>();
  readonly #items: ReadonlyMap<string, Item>;
  readonly #controls: ReadonlyMap<string, Control>;

  constructor(fleet: Fleet, space: Space, diagrams: Diagrams, outcomes: Outcomes, behaviourOf: BehaviourOf) {
    this.#fleet = fleet;
    this.#space = space;
    this.#diagrams = diagrams;
    this.#outcomes = outcomes;
    this.#behaviourOf = behaviourOf;
    this.#items = new Map(fleet.items.map((item) => [item.id, item]));
    this.#controls = new Map(fleet.controls.map((control) => [control.id, control]));
  }

  /** The cases in which the expression holds, over all fits, as a Boolean diagram. */
  compile(expression: Expression): Node {
    const diagrams = this.#diagrams;
    switch (expression.op) {
      case 'constant':
        return expression.value ? diagrams.yes : diagrams.no;
      case 'and':
        return diagrams.and(...expression.args.map((arg) => this.compile(arg)));
      case 'or':
        return diagrams.or(...expression.args.map((arg) => this.compile(arg)));
      case 'not':
        return diagrams.not(this.compile(expression.arg));
      case 'implies':
        return diagrams.implies(this.compile(expression.premise), this.compile(expression.conclusion));
      case 'among':
        return this.#among(expression.of, expression.values);
      case 'compare':
        return this.#compare(expression);
      case 'fitted':
        return this.#fitted(expression.of, expression.position);
      case 'signal':
        return this.#signal(expression.id);
      case 'detector':
      case 'lamps':
      case 'level':
        throw new Error(`${expression.op} can't be compiled yet`);
    }
  }

  /** The fits on which a control, or one of its positions, exists: a diagram over options. */
  controlFitted(control: Control, position?: string): Node {
    const own = control.fitted ? this.compile(control.fitted) : this.#diagrams.yes;
    const at = control.positions.find(({ id }) => id === position);
    return at?.fitted ? this.#diagrams.and(own, this.compile(at.fitted)) : own;
  }

  /** The fits on which an item exists: a diagram over options. */
  itemFitted(item: Item): Node {
    return item.fitted ? this.compile(item.fitted) : this.#diagrams.yes;
  }

  #among(of: Reference, values: readonly string[]): Node {
    if (of.kind === 'item') {
      const item = this.#items.get(of.id);
      const attribute = of.attribute ?? item?.attributes[0]?.id;
      if (attribute === undefined) throw new Error(`${of.id} has no attribute`);
      const wanted = new Set(values.map((value) => this.#outcomes.ofState(value)));
      const behaviour = this.#behaviourOf(of.id, attribute);
      const key = `among ${[...wanted].join(' ')}`;
      return this.#diagrams.map(key, behaviour, (outcome) => (wanted.has(outcome) ? 1 : 0));
    }
    const level = levelOf(this.#space, of.id);
    const meaning = this.#space.meanings[level];
    if (!meaning) throw new Error(`no meaning at level ${level}`);
    const ids = valueIds(meaning);
    return this.#diagrams.literal(
      level,
      values.map((value) => ids.indexOf(value)).sort((a, b) => a - b),
    );
  }

  #compare({ condition, by, value }: Extract<Expression, { op: 'compare' }>): Node {
    const level = levelOf(this.#space, condition);
    const meaning = this.#space.meanings[level];
    if (meaning?.kind !== 'number' || !meaning.condition.number) throw new Error(`${condition} is not a number`);
    const holds = thresholdCut(meaning.condition.number, by, value);
    if (!holds) return this.#diagrams.no;
    const within = meaning.cells.flatMap((cell, index) =>
      holds[0] <= cell.first && cell.last <= holds[1] ? [index] : [],
    );
    return this.#diagrams.literal(level, within);
  }

  #fitted(of: Reference, position: string | undefined): Node {
    const control = this.#controls.get(of.id);
    if (control) return this.controlFitted(control, position);
    const item = this.#items.get(of.id);
    if (!item) throw new Error(`${of.id} is neither a control nor an item`);
    return this.itemFitted(item);
  }

  #signal(id: string): Node {
    const known = this.#signals.get(id);
    if (known !== undefined) return known;
    const signal = this.#fleet.signals.find((each) => each.id === id);
    if (!signal) throw new Error(`no signal is called ${id}`);
    const node = this.compile(signal.expression);
    this.#signals.set(id, node);
    return node;
  }
}

/** The positions that a control has on a fit, by index; none when it is not fitted. */
export function positionsOn(
  expressions: Expressions,
  diagrams: Diagrams,
  space: Space,
  control: Control,
  fit: Pick<Fit, 'options'>,
): number[] {
  const options = optionLevels(space, fit);
  const holds = (node: Node): boolean => diagrams.restrictAll(node, options) === diagrams.yes;
  if (!holds(expressions.controlFitted(control))) return [];
  return control.positions.flatMap(({ id }, index) => (holds(expressions.controlFitted(control, id)) ? [index] : []));
}

/** The values that a control's variable can have on a fit: its positions there, or that it is absent. */
export function settingsOn(
  expressions: Expressions,
  diagrams: Diagrams,
  space: Space,
  control: Control,
  fit: Pick<Fit, 'options'>,
): number[] {
  const isFitted = diagrams.restrictAll(expressions.controlFitted(control), optionLevels(space, fit)) === diagrams.yes;
  return isFitted ? positionsOn(expressions, diagrams, space, control, fit) : [absentValue(control)];
}

/** The cases that can happen on a fit, as far as controls and `never` decide: a Boolean diagram without options. */
export function careSet(fleet: Fleet, space: Space, diagrams: Diagrams, expressions: Expressions, fit: Fit): Node {
  const options = optionLevels(space, fit);
  const fitted = fleet.controls.map((control) =>
    diagrams.literal(levelOf(space, control.id), settingsOn(expressions, diagrams, space, control, fit)),
  );
  const never = fleet.never.map(({ expression }) =>
    diagrams.not(diagrams.restrictAll(expressions.compile(expression), options)),
  );
  return diagrams.and(...fitted, ...never);
}
