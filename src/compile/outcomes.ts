/**
 * What the ends of a behaviour's diagram mean. Outcomes are interned as the terminals of the one diagram manager:
 * 0 a case that cannot happen, 1 the item is not fitted, from 2 on a state by its id (shared by all items), or what can be
 * said where it is not one state.
 */

/** A case that cannot happen on the fit (written ⊥ in the design). */
export const IMPOSSIBLE = 0;
/** The item is not fitted; decided before any rule. */
export const NOT_FITTED = 1;

export type OutcomeMeaning =
  | { readonly kind: 'impossible' | 'not fitted' }
  | { readonly kind: 'state'; readonly state: string }
  /** The documents don't say; a query asks. */
  | { readonly kind: 'not stated'; readonly query: string }
  /** One of several, by the tolerance of a detector. In the order of `compare`. */
  | { readonly kind: 'either'; readonly of: readonly number[] }
  /** One of several, by an option that nobody knows. In the order of `compare`; they may be impossible. */
  | { readonly kind: 'depends'; readonly options: readonly string[]; readonly of: readonly number[] }
  /** Two outcomes side by side, for the difference of two behaviours. */
  | { readonly kind: 'pair'; readonly pair: OutcomePair }
  /** One outcome for each settled fit, while they are being brought together. */
  | { readonly kind: 'tuple'; readonly of: readonly number[] };

export type OutcomePair = readonly [here: number, there: number];

export class Outcomes {
  readonly #terminals = new Map<string, number>();
  readonly #meanings: OutcomeMeaning[] = [{ kind: 'impossible' }, { kind: 'not fitted' }];

  ofState(state: string): number {
    return this.#intern(`state ${state}`, { kind: 'state', state });
  }

  ofQuery(query: string): number {
    return this.#intern(`query ${query}`, { kind: 'not stated', query });
  }

  ofPair(pair: OutcomePair): number {
    return this.#intern(`pair ${pair[0]} ${pair[1]}`, { kind: 'pair', pair });
  }

  ofTuple(of: readonly number[]): number {
    return this.#intern(`tuple ${of.join(' ')}`, { kind: 'tuple', of });
  }

  ofDepends(options: readonly string[], outcomes: readonly number[]): number {
    const of = [...new Set(outcomes)].sort((a, b) => this.compare(a, b));
    return this.#intern(`depends ${options.join(' ')} ${of.join(' ')}`, { kind: 'depends', options, of });
  }

  /** Either of two; what cannot happen adds nothing. */
  either(a: number, b: number): number {
    if (a === b || b === IMPOSSIBLE) return a;
    if (a === IMPOSSIBLE) return b;
    const members = (outcome: number): readonly number[] => {
      const meaning = this.meaning(outcome);
      return meaning.kind === 'either' ? meaning.of : [outcome];
    };
    const of = [...new Set([...members(a), ...members(b)])].sort((x, y) => this.compare(x, y));
    return this.#intern(`either ${of.join(' ')}`, { kind: 'either', of });
  }

  /** One outcome whatever the answer to a query, or else that query's "not stated". */
  unlessAsked(query: string, a: number, b: number): number {
    if (a === b || b === IMPOSSIBLE) return a;
    if (a === IMPOSSIBLE) return b;
    for (const outcome of [Math.min(a, b), Math.max(a, b)]) {
      if (this.meaning(outcome).kind === 'not stated') return outcome;
    }
    return this.ofQuery(query);
  }

  /** The state of a terminal; undefined where it is not one state. */
  state(terminal: number): string | undefined {
    const meaning = this.meaning(terminal);
    return meaning.kind === 'state' ? meaning.state : undefined;
  }

  /** The states that are possible in a case with this outcome: several where it may be either or depends. */
  statesIn(terminal: number): readonly string[] {
    const meaning = this.meaning(terminal);
    if (meaning.kind === 'state') return [meaning.state];
    return meaning.kind === 'either' || meaning.kind === 'depends'
      ? meaning.of.flatMap((each) => this.statesIn(each))
      : [];
  }

  /**
   * For sorting: states and queries as they were first met in the rules, then what is said of several, by its members. What
   * the terminals are numbered is not always an order to show: of several states it goes by the order of the diagrams.
   */
  compare(a: number, b: number): number {
    const [first, second] = [this.#members(a), this.#members(b)];
    if (first.length === 0 && second.length === 0) return a - b;
    if (first.length === 0 || second.length === 0) return first.length - second.length;
    for (const [at, member] of first.entries()) {
      const other = second[at];
      const order = other === undefined ? 1 : this.compare(member, other);
      if (order !== 0) return order;
    }
    const [one, two] = [this.#about(a), this.#about(b)];
    return first.length - second.length || (one < two ? -1 : one > two ? 1 : 0);
  }

  /** What tells terminals with the same members apart. */
  #about(terminal: number): string {
    const meaning = this.meaning(terminal);
    return meaning.kind === 'depends' ? `depends ${meaning.options.join(' ')}` : meaning.kind;
  }

  #members(terminal: number): readonly number[] {
    const meaning = this.meaning(terminal);
    if (meaning.kind === 'pair') return meaning.pair;
    return 'of' in meaning ? meaning.of : [];
  }

  /** The pair that a terminal stands for. */
  pair(terminal: number): OutcomePair {
    const meaning = this.meaning(terminal);
    if (meaning.kind !== 'pair') throw new Error(`terminal ${terminal} is not a pair`);
    return meaning.pair;
  }

  meaning(terminal: number): OutcomeMeaning {
    const meaning = this.#meanings[terminal];
    if (!meaning) throw new Error(`terminal ${terminal} has no meaning`);
    return meaning;
  }

  #intern(key: string, meaning: OutcomeMeaning): number {
    let terminal = this.#terminals.get(key);
    if (terminal === undefined) {
      terminal = this.#meanings.push(meaning) - 1;
      this.#terminals.set(key, terminal);
    }
    return terminal;
  }
}
