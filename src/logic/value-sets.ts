/** The value sets that stand in one column of a table, interned: equal sets have equal numbers. */
import { ascending } from './inspect.ts';

/** The set of all values: the cell reads "any". */
export const ANY = 0;

/** The answer for two sets that may not be joined. */
export const APART = -1;

/** Sets of values of one variable. Those of an ordered variable are intervals. */
export class ValueSets {
  readonly #ordered: boolean;
  readonly #occurring: readonly number[];
  readonly #sets: (readonly number[])[];
  readonly #numbers = new Map<string, number>();
  /** By the smaller number, then by the larger one. */
  readonly #unions: (number | undefined)[][] = [];

  /** `occurring` are the values with a possible case; a set that holds them all is `ANY`. */
  constructor(ordered: boolean, occurring: readonly number[]) {
    this.#ordered = ordered;
    this.#occurring = occurring;
    this.#sets = [occurring];
  }

  /** The number of a set of values in rising order. */
  intern(values: readonly number[]): number {
    const key = values.join(' ');
    const known = this.#numbers.get(key);
    if (known !== undefined) return known;
    const held = new Set(values);
    const isAny = this.#occurring.every((value) => held.has(value));
    const number = isAny ? ANY : this.#sets.push(values) - 1;
    this.#numbers.set(key, number);
    return number;
  }

  /** The values of a set; of `ANY`, those that occur. */
  values(number: number): readonly number[] {
    return this.#sets[number] as readonly number[];
  }

  /** The number of the union, or `APART` when an ordered variable leaves a hole between the two. */
  union(a: number, b: number): number {
    if (a > b) return this.union(b, a);
    this.#unions[a] ??= [];
    const unions = this.#unions[a];
    const known = unions[b];
    if (known !== undefined) return known;
    const values = ascending([...this.values(a), ...this.values(b)]);
    const number = this.#ordered && !isInterval(values) ? APART : this.intern(values);
    unions[b] = number;
    return number;
  }
}

/** Whether numbers in rising order have no gap. */
export function isInterval(values: readonly number[]): boolean {
  return values.every((value, index) => index === 0 || value === (values[index - 1] as number) + 1);
}
