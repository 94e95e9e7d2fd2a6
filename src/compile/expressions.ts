/**
 * Expressions become Boolean diagrams. Signals and the states of other items are composed in; the model has made sure
 * that they form no cycle.
 */
import { type Comparison, type Expression, type Reference, thresholdCut } from '../language/index.ts';
import type { Diagrams, Node } from '../logic/index.ts';
import type { Control, Fleet, Item, NumberRange, Sequence, Signal } from '../model/index.ts';
import type { NumberCell } from './cells.ts';
import type { Outcomes } from './outcomes.ts';
import { controlMeaning, levelOf, type Space, valueIds, valueOfPosition } from './space.ts';

/**
 * Gives the behaviour of an attribute of an item, composing it first where needed; `quietly`, as if the quiet overrides
 * did not exist, which is how messages, sounds and sequences read it.
 */
export type BehaviourOf = (item: string, attribute: string, quietly: boolean) => Node;

export class Expressions {
  readonly #space: Space;
  readonly #diagrams: Diagrams;
  readonly #outcomes: Outcomes;
  readonly #behaviourOf: BehaviourOf;
  readonly #signals = new Map<string, Node>();
  readonly #signalOf: ReadonlyMap<string, Signal>;
  readonly #items: ReadonlyMap<string, Item>;
  readonly #controls: ReadonlyMap<string, Control>;
  readonly #sequences: ReadonlyMap<string, Sequence>;

  constructor(fleet: Fleet, space: Space, diagrams: Diagrams, outcomes: Outcomes, behaviourOf: BehaviourOf) {
    this.#space = space;
    this.#diagrams = diagrams;
    this.#outcomes = outcomes;
    this.#behaviourOf = behaviourOf;
    this.#signalOf = new Map(fleet.signals.map((signal) => [signal.id, signal]));
    this.#items = new Map(fleet.items.map((item) => [item.id, item]));
    this.#controls = new Map(fleet.controls.map((control) => [control.id, control]));
    this.#sequences = new Map(fleet.sequences.map((sequence) => [sequence.id, sequence]));
  }

  /** The cases in which the expression holds, over all fits, as a Boolean diagram. `quietly`: see `BehaviourOf`. */
  compile(expression: Expression, quietly = false): Node {
    const diagrams = this.#diagrams;
    const inner = (each: Expression): Node => this.compile(each, quietly);
    switch (expression.op) {
      case 'constant':
        return expression.value ? diagrams.yes : diagrams.no;
      case 'and':
        return diagrams.and(...expression.args.map(inner));
      case 'or':
        return diagrams.or(...expression.args.map(inner));
      case 'not':
        return diagrams.not(inner(expression.arg));
      case 'implies':
        return diagrams.implies(inner(expression.premise), inner(expression.conclusion));
      case 'among':
        return this.#among(expression.of, expression.values, quietly);
      case 'compare':
        return this.#compare(expression.condition, expression.by, expression.value);
      case 'level':
        return this.#compare(expression.store, expression.by, expression.value);
      case 'fitted':
        return this.fitted(expression.of, expression.position);
      case 'signal':
        return this.#signal(expression.id, quietly);
      case 'detector':
        return diagrams.literal(levelOf(this.#space, expression.id), [1]);
      case 'lamps':
        return this.#lamps(expression.quantifier, expression.count ?? 0, expression.args.map(inner));
    }
  }

  /** The comparison of a number or a store with a value, in the cells that it is cut into. */
  comparison(id: string, by: Comparison, value: string): Node {
    return this.#compare(id, by, value);
  }

  /** The fits on which a control, or one of its positions, exists: a diagram over options. */
  controlFitted(control: Control, position?: string): Node {
    const own = control.fitted ? this.compile(control.fitted) : this.#diagrams.yes;
    const at = control.positions.find(({ id }) => id === position);
    return at?.fitted ? this.#diagrams.and(own, this.compile(at.fitted)) : own;
  }

  /** The fits on which an item exists: a diagram over options. The same for what else may be fitted or not. */
  itemFitted(item: Pick<Item, 'fitted'>): Node {
    return item.fitted ? this.compile(item.fitted) : this.#diagrams.yes;
  }

  /** The fits on which something that a reference names exists. */
  fitted(of: Reference, position?: string): Node {
    const control = this.#controls.get(of.id);
    if (control) return this.controlFitted(control, position);
    const other = this.#items.get(of.id) ?? this.#sequences.get(of.id);
    if (!other) throw new Error(`${of.id} is nothing that can be fitted`);
    return this.itemFitted(other);
  }

  /** What a signal stands for. */
  signal(id: string): Expression {
    const signal = this.#signalOf.get(id);
    if (!signal) throw new Error(`no signal is called ${id}`);
    return signal.expression;
  }

  #among(of: Reference, values: readonly string[], quietly: boolean): Node {
    if (of.kind === 'item') return this.#itemAmong(of, values, quietly);
    const diagrams = this.#diagrams;
    const level = levelOf(this.#space, of.kind === 'lamp' ? `${of.id}.${of.attribute}` : of.id);
    const control = of.kind === 'control' ? this.#controls.get(of.id) : undefined;
    if (control) {
      const meaning = controlMeaning(this.#space, control);
      const positions = values.map((value) => control.positions.findIndex(({ id }) => id === value));
      const literal = diagrams.literal(
        level,
        positions.map((position) => valueOfPosition(meaning, control, position)),
      );
      // Counterparts share the variable, so that the position alone does not say which of them is fitted.
      return meaning.controls.length > 1 ? diagrams.and(this.controlFitted(control), literal) : literal;
    }
    const meaning = this.#space.meanings[level];
    if (!meaning) throw new Error(`no meaning at level ${level}`);
    const ids = valueIds(meaning);
    return diagrams.literal(
      level,
      values.map((value) => ids.indexOf(value)),
    );
  }

  #itemAmong(of: Reference, values: readonly string[], quietly: boolean): Node {
    const diagrams = this.#diagrams;
    const item = this.#items.get(of.id);
    const attribute = item?.attributes.find(({ id }) => id === of.attribute) ?? item?.attributes[0];
    if (!attribute) throw new Error(`${of.id} has no attribute`);
    const wanted = new Set(values.map((value) => this.#outcomes.ofState(value)));
    const behaviour = this.#behaviourOf(of.id, attribute.id, quietly);
    const key = `among ${[...wanted].join(' ')}`;
    const stated = diagrams.map(key, behaviour, (outcome) => (wanted.has(outcome) ? 1 : 0));
    const unstated = this.#space.levelOf.get(`?${of.id}.${attribute.id}`);
    if (unstated === undefined) return stated;
    const asked = diagrams.map('is not stated', behaviour, (outcome) =>
      this.#outcomes.meaning(outcome).kind === 'not stated' ? 1 : 0,
    );
    const states = values.map((value) => attribute.states.findIndex(({ id }) => id === value));
    return diagrams.ite(asked, diagrams.literal(unstated, states), stated);
  }

  #compare(id: string, by: Comparison, value: string): Node {
    const level = levelOf(this.#space, id);
    const { range, cells } = this.#cellsAt(level);
    const holds = thresholdCut(range, by, value);
    if (!holds) return this.#diagrams.no;
    const within = cells.flatMap((cell, index) => (holds[0] <= cell.first && cell.last <= holds[1] ? [index] : []));
    return this.#diagrams.literal(level, within);
  }

  #cellsAt(level: number): { readonly range: NumberRange; readonly cells: readonly NumberCell[] } {
    const meaning = this.#space.meanings[level];
    if (meaning?.kind === 'store') return meaning;
    if (meaning?.kind === 'number' && meaning.condition.number) {
      return { range: meaning.condition.number, cells: meaning.cells };
    }
    throw new Error(`there is no number at level ${level}`);
  }

  /** How many of the statements hold, counted one after the other. */
  #lamps(quantifier: Extract<Expression, { op: 'lamps' }>['quantifier'], count: number, args: readonly Node[]): Node {
    const diagrams = this.#diagrams;
    if (quantifier === 'any') return diagrams.or(...args);
    if (quantifier === 'all') return diagrams.and(...args);
    // exactly[n]: n of the statements so far hold.
    let exactly = [diagrams.yes];
    for (const arg of args) {
      exactly = Array.from({ length: exactly.length + 1 }, (_, held) =>
        diagrams.ite(arg, exactly[held - 1] ?? diagrams.no, exactly[held] ?? diagrams.no),
      );
    }
    const wanted = exactly.filter((_, held) =>
      quantifier === 'at least' ? held >= count : quantifier === 'at most' ? held <= count : held === count,
    );
    return diagrams.or(...wanted);
  }

  #signal(id: string, quietly: boolean): Node {
    const key = quietly ? `${id} quietly` : id;
    const known = this.#signals.get(key);
    if (known !== undefined) return known;
    const node = this.compile(this.signal(id), quietly);
    this.#signals.set(key, node);
    return node;
  }
}
