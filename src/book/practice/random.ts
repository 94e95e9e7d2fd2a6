/** Draws that a seed decides, the same on every machine. */

/** One step of the generator: from one state to the next, which is also the number drawn. Both are whole, from 1 to 2^32 - 1. */
export function xorshift(state: number): number {
  let x = state;
  x ^= x << 13;
  x ^= x >>> 17;
  x ^= x << 5;
  return x >>> 0;
}

/**
 * Marsaglia's xorshift generator of 32 bits with the shifts 13, 17 and 5 (G. Marsaglia, "Xorshift RNGs", Journal of
 * Statistical Software 8(14), 2003). Good enough to choose questions by, and for nothing else.
 */
export class Random {
  #state: number;

  /** Any whole number from 0 to 2^32 - 1. */
  constructor(seed: number) {
    // Neighbouring seeds are to have little in common: they are spread first (multiplied by 2^32 over the golden ratio), and
    // the first numbers are thrown away. Zero is the one state that leads nowhere.
    this.#state = Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995 || 1;
    for (let at = 0; at < 16; at += 1) this.#next();
  }

  /** A whole number from 0 to `count` - 1. */
  below(count: number): number {
    return Math.floor((this.#next() / 2 ** 32) * count);
  }

  /** One of several; undefined where there is none. */
  pick<T>(list: readonly T[]): T | undefined {
    return list[this.below(list.length)];
  }

  /** All of them in another order (R. Durstenfeld, "Algorithm 235: Random permutation", Communications of the ACM 7(7), 1964). */
  shuffled<T>(list: readonly T[]): T[] {
    const result = [...list];
    for (let left = result.length - 1; left > 0; left -= 1) {
      const other = this.below(left + 1);
      [result[left], result[other]] = [result[other] as T, result[left] as T];
    }
    return result;
  }

  #next(): number {
    this.#state = xorshift(this.#state);
    return this.#state;
  }
}
