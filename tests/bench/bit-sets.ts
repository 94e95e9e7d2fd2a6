/** Sets of the cases of some variables, a bit each, in words of 32: as fast as truth tables get. */
import type { Formula } from './problem.ts';

export type Bits = Int32Array;

export interface Column {
  readonly variable: number;
  readonly size: number;
  /** Which cell a value of the variable is in here, where several are one; each its own unless given. */
  readonly cellOf?: readonly number[];
}

export class BitSpace {
  readonly columns: readonly Column[];
  readonly words: number;
  /** How far apart two cases stand that differ by one in a column: the last moves fastest. */
  readonly strides: readonly number[];
  readonly #cases: number;
  readonly #at: ReadonlyMap<number, number>;
  readonly #literals = new Map<string, Bits>();

  constructor(columns: readonly Column[]) {
    this.columns = columns;
    let cases = 1;
    this.strides = columns
      .toReversed()
      .map(({ size }) => {
        cases *= size;
        return cases / size;
      })
      .toReversed();
    this.#cases = cases;
    this.words = Math.ceil(cases / 32);
    this.#at = new Map(columns.map(({ variable }, column) => [variable, column]));
  }

  none(): Bits {
    return new Int32Array(this.words);
  }

  all(): Bits {
    return this.none().fill(-1);
  }

  /** The cases in which a formula over the columns' variables holds (a set that nobody may change), and maybe bits beyond the last case. */
  where(formula: Formula): Bits {
    if (formula.op === 'in') return this.literal(formula.variable, formula.values);
    if (formula.op === 'not') return complement(this.where(formula.of));
    const [first, ...others] = formula.of;
    if (!first) return formula.op === 'all' ? this.all() : this.none();
    if (others.length === 0) return this.where(first);
    const result = this.where(first).slice();
    for (const other of others) {
      const bits = this.where(other);
      if (formula.op === 'all') for (let word = 0; word < result.length; word += 1) result[word]! &= bits[word]!;
      else for (let word = 0; word < result.length; word += 1) result[word]! |= bits[word]!;
    }
    return result;
  }

  literal(variable: number, values: readonly number[]): Bits {
    const column = this.#at.get(variable) as number;
    const { size, cellOf } = this.columns[column] as Column;
    const wanted = Array.from({ length: size }, () => false);
    for (const value of values) wanted[cellOf ? (cellOf[value] as number) : value] = true;
    const key = `${column} ${wanted.join(' ')}`;
    const known = this.#literals.get(key);
    if (known) return known;
    const bits = this.#pattern(size, this.strides[column] as number, wanted);
    this.#literals.set(key, bits);
    return bits;
  }

  /** Clears the bits beyond the last case. */
  clean(bits: Bits): Bits {
    if (this.#cases % 32 > 0) bits[this.words - 1]! &= (1 << (this.#cases % 32)) - 1;
    return bits;
  }

  /** As many words as the period has bits are made bit by bit, the others are copies. */
  #pattern(size: number, stride: number, wanted: readonly boolean[]): Bits {
    const bits = this.none();
    const made = Math.min(this.words, size * stride);
    for (let run = 0; run * stride < 32 * made; run += 1) {
      if (wanted[run % size]) setRange(bits, run * stride, Math.min((run + 1) * stride, 32 * made));
    }
    for (let done = made; done < this.words; done *= 2) bits.copyWithin(done, 0, Math.min(done, this.words - done));
    return bits;
  }
}

export function complement(bits: Bits): Bits {
  const result = new Int32Array(bits.length);
  for (let word = 0; word < bits.length; word += 1) result[word] = ~bits[word]!;
  return result;
}

export function areSame(a: Bits, b: Bits): boolean {
  for (let word = 0; word < a.length; word += 1) if (a[word] !== b[word]) return false;
  return true;
}

function setRange(bits: Bits, from: number, to: number): void {
  const [first, last] = [from >> 5, to >> 5];
  const low = -1 << (from & 31);
  const high = ~(-1 << (to & 31));
  if (first === last) bits[first]! |= low & high;
  else {
    bits[first]! |= low;
    bits.fill(-1, first + 1, last);
    if (high !== 0) bits[last]! |= high;
  }
}
