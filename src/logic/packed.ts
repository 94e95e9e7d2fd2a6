/**
 * Diagrams as compact data: JSON whose long parts are texts that compress well (`digits.ts` says how numbers stand in
 * them). The same functions in the same order of variables always give the same data.
 *
 * The diagrams are written root by root, each from its root down, one child after the other. `nodes` has a number for each
 * node that is come to:
 * - 0 is a node that has not been met; its own level, its split and its children follow;
 * - t from 1 on is the terminal `terminals[t - 1]`;
 * - what goes beyond these by r (from 0) is a node met before, the r-th of those that could stand here: that test
 *   something below the parent and are no child of it already, the one used last first.
 *
 * `tests` has a number for each new node: what it tests, as a place in the list of all depths below the parent's, the one
 * tested last below that depth first, and at the start the nearest first. `levels` and `sizes` say which level stands at
 * each depth and how many values it has.
 *
 * `splits` says for each new node with more than two values which of them lead to the same child (of two, none do). The
 * values after the first have a digit each: c for the c-th (from 0) distinct child so far, and the count of these for
 * another one. A number stands for up to three digits, the first one counting least, each in the base of the digits that
 * it could be. Only distinct children are written.
 *
 * `check` is the CRC-32 of all the rest.
 */
import { crc32 } from './crc32.ts';
import type { Diagrams } from './diagrams.ts';
import { digitsOf } from './digits.ts';
import { ascending } from './inspect.ts';
import { Recent, RecentDepths } from './recent.ts';
import { splitNumbers } from './splits.ts';
import type { Node } from './unique-table.ts';

export interface PackedDiagrams {
  /** The levels that the nodes test, from the roots down. */
  readonly levels: readonly number[];
  /** Parallel to `levels`: the number of values. */
  readonly sizes: readonly number[];
  /** The values of the terminals, ascending. */
  readonly terminals: readonly number[];
  /** How many roots there are. */
  readonly roots: number;
  readonly nodes: string;
  readonly tests: string;
  readonly splits: string;
  /** Hexadecimal. */
  readonly check: string;
}

/** The most levels that packed diagrams test: they are read recursively. */
export const MOST_LEVELS = 2000;

/** The diagrams of these roots, each node once. Throws a RangeError where they test more than `MOST_LEVELS` levels. */
export function pack(diagrams: Diagrams, roots: readonly Node[]): PackedDiagrams {
  const tested = new Set(roots.flatMap((root) => diagrams.support(root)));
  const levels = diagrams.order.filter((level) => tested.has(level));
  if (levels.length > MOST_LEVELS) throw new RangeError(`more than ${MOST_LEVELS} levels are tested`);
  const terminals = ascending(roots.flatMap((root) => diagrams.terminals(root)));
  const writer = new Writer(diagrams, levels, terminals);
  for (const root of roots) writer.write(root, -1, []);
  const sizes = levels.map((level) => diagrams.variables[level]?.size as number);
  const { nodes, tests, splits } = writer;
  const rest = { levels, sizes, terminals, roots: roots.length, nodes, tests, splits };
  return { ...rest, check: checkOf(rest) };
}

/** The checksum of the other parts, joined by line ends, the numbers of a list by spaces. */
export function checkOf(data: Omit<PackedDiagrams, 'check'>): string {
  const { levels, sizes, terminals, roots, nodes, tests, splits } = data;
  const lists = [levels, sizes, terminals].map((list) => list.join(' '));
  return crc32([...lists, roots, nodes, tests, splits].join('\n')).toString(16);
}

class Writer {
  nodes = '';
  tests = '';
  splits = '';
  readonly #diagrams: Diagrams;
  readonly #depths: ReadonlyMap<number, number>;
  readonly #terminals: readonly number[];
  readonly #met = new Set<Node>();
  readonly #recent = new Recent();
  readonly #tested: RecentDepths;

  constructor(diagrams: Diagrams, levels: readonly number[], terminals: readonly number[]) {
    this.#diagrams = diagrams;
    this.#depths = new Map(levels.map((level, depth) => [level, depth]));
    this.#terminals = terminals;
    this.#tested = new RecentDepths(levels.length);
  }

  write(node: Node, above: number, siblings: readonly Node[]): void {
    const diagrams = this.#diagrams;
    const value = diagrams.valueOf(node);
    if (value !== undefined) {
      this.nodes += digitsOf(1 + this.#terminals.indexOf(value));
    } else if (this.#met.has(node)) {
      const rank = this.#recent.use(node, (other) => this.#depth(other) > above && !siblings.includes(other));
      this.nodes += digitsOf(1 + this.#terminals.length + rank);
    } else {
      const depth = this.#depth(node);
      const { size } = diagrams.variables[diagrams.level(node)] as { size: number };
      const children = Array.from({ length: size }, (_, each) => diagrams.child(node, each));
      const distinct = [...new Set(children)];
      this.nodes += digitsOf(0);
      this.tests += digitsOf(this.#tested.below(above).use(depth, () => true));
      if (size > 2) {
        const numbers = splitNumbers(children.map((child) => distinct.indexOf(child)));
        this.splits += numbers.map(digitsOf).join('');
      }
      distinct.forEach((child, at) => {
        this.write(child, depth, distinct.slice(0, at));
      });
      this.#met.add(node);
      this.#recent.add(node);
    }
  }

  #depth(node: Node): number {
    return this.#depths.get(this.#diagrams.level(node)) as number;
  }
}
