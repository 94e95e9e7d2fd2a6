/**
 * What the ends of a behaviour's diagram mean. Outcomes are interned as the terminals of the one diagram manager:
 * 0 a case that cannot happen, 1 the item is not fitted, from 2 on a state by its id (shared by all items).
 */

/** A case that cannot happen on the fit (written ⊥ in the design). */
export const IMPOSSIBLE = 0;
/** The item is not fitted; decided before any rule. */
export const NOT_FITTED = 1;

/** A pair of outcomes, for the difference of two behaviours. */
export type OutcomePair = readonly [here: number, there: number];

export class Outcomes {
  readonly #terminals = new Map<string, number>();
  readonly #states: (string | OutcomePair)[] = [];

  /** The terminal of a state. */
  ofState(state: string): number {
    return this.#intern(`state ${state}`, state);
  }

  /** The terminal of a pair of outcomes. */
  ofPair(pair: OutcomePair): number {
    return this.#intern(`pair ${pair[0]} ${pair[1]}`, pair);
  }

  /** The state of a terminal; undefined for the two reserved ones. */
  state(terminal: number): string | undefined {
    const meaning = this.#states[terminal - 2];
    return typeof meaning === 'string' ? meaning : undefined;
  }

  /** The pair that a terminal stands for. */
  pair(terminal: number): OutcomePair {
    const meaning = this.#states[terminal - 2];
    if (meaning === undefined || typeof meaning === 'string') throw new Error(`terminal ${terminal} is not a pair`);
    return meaning;
  }

  #intern(key: string, meaning: string | OutcomePair): number {
    let terminal = this.#terminals.get(key);
    if (terminal === undefined) {
      terminal = this.#states.push(meaning) + 1;
      this.#terminals.set(key, terminal);
    }
    return terminal;
  }
}
