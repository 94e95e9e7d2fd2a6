/** What expressions and rules mean in one extended case: one in which every variable, detectors too, has its value. */
import type { AttributeText, ContentText, ItemText } from './content.ts';
import { compares } from './decimal.ts';
import { type Algebra, type LampCount, read } from './expression.ts';
import type { Fit } from './fits.ts';
import { asksForFailure, itemOf, lampsOf, lampVariable, overridesOf } from './reach.ts';

/**
 * Variable id to value: a position, a condition's value, or a number as a decimal; `failed` or `serviceable` for the lamp
 * `light.lamp`; a sequence's mode; `yes` or `no` for a detector. What isn't fitted is left out.
 */
export type Case = Readonly<Record<string, string>>;
/**
 * A state id, or why there is none. The numbers are the places of rules in the list, from 0. `depends` is only said of
 * aircraft with unknown options: what the ones that it may be are, where they are not the same.
 */
export type Outcome =
  | string
  | { readonly conflict: readonly number[] }
  | { readonly gap: true }
  | { readonly notStated: string }
  | { readonly depends: readonly (Outcome | 'not-fitted')[] };

/** Where something is judged. */
export interface Situation {
  readonly fit: Fit;
  readonly given: Case;
  /** Whether quiet overrides count as absent. */
  readonly quiet: boolean;
  /** Answers tried for what is not stated: attribute key to state. */
  readonly assumed: ReadonlyMap<string, string>;
  /** Compares a store with a level; absent where stores can't be read. */
  readonly store?: (id: string, by: string, level: string) => boolean;
}
type Truth = (at: Situation) => boolean;

/** Thrown where a judgement needs an answer that the documents don't give. */
class Unanswered {
  readonly key: string;
  readonly query: string;
  readonly answers: readonly string[];

  constructor(key: string, query: string, answers: readonly string[]) {
    this.key = key;
    this.query = query;
    this.answers = answers;
  }
}

export class Meaning {
  readonly content: ContentText;
  readonly #truths = new Map<string, Truth>();

  constructor(content: ContentText) {
    this.content = content;
  }

  /** A situation without assumptions. */
  at(fit: Fit, given: Case, quiet = false): Situation {
    return { fit, given, quiet, assumed: new Map() };
  }

  /** Whether a control, item, sequence or sound is fitted on a fit without unknown values. */
  isFitted(fit: Fit, id: string): boolean {
    const { controls, sequences, sounds } = this.content;
    const found = controls.get(id) ?? itemOf(this.content, id) ?? sequences.get(id) ?? sounds.get(id);
    if (!found) throw new Error(`neither a control nor an item: ${id}`);
    return this.#holds(found.fitted, this.at(fit, {}));
  }

  /** The positions of a control on a fit; none where it isn't fitted. */
  positionsOn(fit: Fit, id: string): readonly string[] {
    const control = this.content.controls.get(id);
    if (!control || !this.isFitted(fit, id)) return [];
    return [...control.positions]
      .filter(([, { fitted }]) => this.#holds(fitted, this.at(fit, {})))
      .map(([position]) => position);
  }

  /** What the expression may be: both, where it hangs on an answer that is not stated. */
  truths(text: string, at: Situation): ReadonlySet<boolean> {
    return new Set(this.#tried(at, (inner) => this.#holds(text, inner)).map(({ result }) => result));
  }

  /** What the item is in the case. A state that hangs on another item's open query is not stated either. */
  outcome(itemId: string, attributeId: string, at: Situation): Outcome {
    const tried = this.#tried(at, (inner) => this.#outcome(itemId, attributeId, inner));
    const [first] = tried;
    const same = tried.every(({ result }) => JSON.stringify(result) === JSON.stringify(first!.result));
    return same ? first!.result : { notStated: tried.find(({ query }) => query !== undefined)!.query! };
  }

  /** What its rules make of the case under each answer to another item's open query: they must cover all of them. */
  underEachAnswer(itemId: string, attributeId: string, at: Situation): Outcome[] {
    return this.#tried(at, (inner) => this.#outcome(itemId, attributeId, inner)).map(({ result }) => result);
  }

  /** Judges under every answer to what is not stated; `query` is the first that was needed. */
  #tried<T>(at: Situation, judge: (at: Situation) => T): { readonly result: T; readonly query: string | undefined }[] {
    try {
      return [{ result: judge(at), query: undefined }];
    } catch (error) {
      if (!(error instanceof Unanswered)) throw error;
      const { key, query, answers } = error;
      return answers.flatMap((answer) => {
        const assumed = new Map([...at.assumed, [key, answer]]);
        return this.#tried({ ...at, assumed }, judge).map(({ result }) => ({ result, query }));
      });
    }
  }

  /** Throws `Unanswered` where the state hangs on what is not stated of another item. */
  #outcome(itemId: string, attributeId: string, at: Situation): Outcome {
    const item = itemOf(this.content, itemId);
    const attribute = item?.attributes.get(attributeId);
    if (!item || !attribute) throw new Error(`no such attribute: ${itemId}.${attributeId}`);
    for (const override of overridesOf(this.content, item, attributeId)) {
      if (!(override.quiet && at.quiet) && this.#holds(override.when, at)) return override.state;
    }
    return this.#own(item, attribute, item.kind === 'message' ? { ...at, quiet: true } : at);
  }

  /** What stands below the overrides. */
  #own(item: ItemText, attribute: AttributeText, at: Situation): Outcome {
    const above = attribute.before.find(({ when }) => this.#holds(when, at));
    if (above) return above.state;
    if (attribute.drivenBy !== undefined) return this.#outcome(item.id, attribute.drivenBy, at);
    const hits = [...attribute.rules.entries()].filter(([, { when }]) => when !== undefined && this.#holds(when, at));
    const result = ({ state, query }: { state: string; query: string | undefined }): Outcome => {
      if (query === undefined) return state;
      return at.assumed.get(`${item.id}.${attribute.id}`) ?? { notStated: query };
    };
    const [first] = hits;
    if (!first) {
      const closing = attribute.rules.find((rule) => rule.when === undefined);
      return closing ? result(closing) : { gap: true };
    }
    const conflict = { conflict: hits.map(([place]) => place) };
    if (attribute.policy === 'unique' && hits.length > 1) return conflict;
    const says = ({ state, query }: { state: string; query: string | undefined }): string => `${state} ${query ?? ''}`;
    if (attribute.policy === 'any' && hits.some(([, rule]) => says(rule) !== says(first[1]))) return conflict;
    return result(first[1]);
  }

  #holds(text: string, at: Situation): boolean {
    let truth = this.#truths.get(text);
    if (!truth) {
      truth = read(text, this.#algebra);
      this.#truths.set(text, truth);
    }
    return truth(at);
  }

  readonly #among = (
    name: string,
    attribute: string | undefined,
    values: readonly string[],
    at: Situation,
  ): boolean => {
    const item = itemOf(this.content, name);
    if (asksForFailure(item, attribute, values))
      return this.isFitted(at.fit, name) && values.includes(valueIn(at.given, lampVariable(name, attribute!)));
    if (item) return this.#itemIs(item, attribute ?? [...item.attributes.keys()][0]!, values, at);
    if (this.content.options.has(name)) return values.includes(at.fit.options[name]!);
    const control = this.content.controls.get(name);
    if ((control || this.content.sequences.has(name)) && !this.isFitted(at.fit, name)) return false;
    const value = valueIn(at.given, name);
    if (values.includes(value)) return true;
    const position = control?.positions.get(value);
    if (!position) return false;
    return (
      (values.includes('held') && position.returns !== undefined) ||
      (values.includes('released') && position.returns === undefined)
    );
  };

  #itemIs(item: ItemText, attributeId: string, values: readonly string[], at: Situation): boolean {
    if (!this.isFitted(at.fit, item.id)) return false;
    const outcome = this.#outcome(item.id, attributeId, at);
    if (typeof outcome === 'string') {
      return values.includes(outcome) || (item.kind === 'supply' && values.includes('powered') && outcome !== 'lost');
    }
    if ('notStated' in outcome) {
      const { key, states } = this.#source(item, attributeId, at);
      throw new Unanswered(key, outcome.notStated, states);
    }
    return false;
  }

  /** The attribute whose own rule leaves the state open: the light's, where a lamp only follows it. */
  #source(item: ItemText, attributeId: string, at: Situation): { key: string; states: readonly string[] } {
    const attribute = item.attributes.get(attributeId)!;
    if (attribute.drivenBy !== undefined && !at.assumed.has(`${item.id}.${attributeId}`))
      return this.#source(item, attribute.drivenBy, at);
    return { key: `${item.id}.${attributeId}`, states: [...attribute.states.keys()] };
  }

  readonly #algebra: Algebra<Truth> = {
    constant: (value) => () => value,
    not: (a) => (at) => !a(at),
    and: (a, b) => (at) => a(at) && b(at),
    or: (a, b) => (at) => a(at) || b(at),
    implies: (a, b) => (at) => !a(at) || b(at),
    among: (name, attribute, values) => (at) => this.#among(name, attribute, values, at),
    compare: (name, by, limit) => (at) => {
      if (this.content.conditions.has(name)) return compares(valueIn(at.given, name), by, limit);
      if (!at.store) throw new Error(`not a number here: ${name}`);
      return at.store(name, by, limit);
    },
    fitted: (name, position) => (at) =>
      this.isFitted(at.fit, name) && (position === undefined || this.positionsOn(at.fit, name).includes(position)),
    signal: (name) => (at) => {
      if (this.content.detectors.has(name)) return valueIn(at.given, name) === 'yes';
      return this.#holds(this.content.signals.get(name)!, at);
    },
    lamps: (count, name, values, negated) => (at) => {
      const lamps = lampsOf(itemOf(this.content, name));
      const hits = lamps.filter((lamp) => this.#among(name, lamp, values, at) !== negated).length;
      return countHolds(count, hits, lamps.length);
    },
  };
}

function countHolds({ by, number }: LampCount, hits: number, all: number): boolean {
  if (by === 'any') return hits > 0;
  if (by === 'all') return hits === all;
  if (by === 'at least') return hits >= number;
  return by === 'at most' ? hits <= number : hits === number;
}

function valueIn(given: Case, name: string): string {
  const value = given[name];
  if (value === undefined) throw new Error(`the case says nothing of ${name}`);
  return value;
}
