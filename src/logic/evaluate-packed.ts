/** Evaluates packed diagrams without a manager: what a page needs to say what everything does in one case. */
import { type Reference, readPacked } from './read-packed.ts';

export class PackedEvaluator {
  /** The levels that are read. */
  readonly levels: readonly number[];
  readonly #sizes: readonly number[];
  /** A node is the place of its level here, its children follow; a terminal with the value t is ~t. */
  readonly #code: Int32Array;
  readonly #roots: Int32Array;

  constructor(levels: readonly number[], sizes: readonly number[], code: Int32Array, roots: Int32Array) {
    this.levels = levels;
    this.#sizes = sizes;
    this.#code = code;
    this.#roots = roots;
  }

  /**
   * The terminal of every root in one case, given as the value of each level (those that are not read may have any).
   * Throws a RangeError where a level that is read has no such value.
   */
  evaluate(values: ArrayLike<number>): Int32Array {
    for (let at = 0; at < this.levels.length; at += 1) {
      const level = this.levels[at] as number;
      const value = values[level] as number;
      if (!(Number.isInteger(value) && value >= 0 && value < (this.#sizes[at] as number))) {
        throw new RangeError(`level ${level} has no value ${value}`);
      }
    }
    const code = this.#code;
    const terminals = new Int32Array(this.#roots.length);
    for (let root = 0; root < terminals.length; root += 1) {
      let node = this.#roots[root] as number;
      while (node >= 0) node = code[node + 1 + (values[code[node] as number] as number)] as number;
      terminals[root] = ~node;
    }
    return terminals;
  }
}

/** Throws a `PackedError` where the data is damaged. */
export function unpack(data: unknown): PackedEvaluator {
  const { levels, sizes, terminals, nodes, roots } = readPacked(data);
  const places: number[] = [];
  const code: number[] = [];
  const placeOf = (reference: Reference): number =>
    reference < 0 ? ~(terminals[~reference] as number) : (places[reference] as number);
  for (const { depth, children } of nodes) {
    places.push(code.length);
    code.push(levels[depth] as number, ...children.map(placeOf));
  }
  return new PackedEvaluator(levels, sizes, Int32Array.from(code), Int32Array.from(roots, placeOf));
}
