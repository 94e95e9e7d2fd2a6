/** Reads what `pack` wrote. Nothing is taken on trust: a copy may be old or damaged. */
import { DigitReader } from './digits.ts';
import { checkOf, MOST_LEVELS, type PackedDiagrams } from './packed.ts';
import { Recent, RecentDepths } from './recent.ts';
import { readSplit } from './splits.ts';

/** Raised by data that no `pack` has written. */
export class PackedError extends Error {
  constructor(what: string) {
    super(`the packed diagrams can't be read: ${what}`);
    this.name = 'PackedError';
  }
}

/** A node by its number, or ~t for the t-th terminal. */
export type Reference = number;

export interface PackedNode {
  readonly depth: number;
  /** One for each value of the variable at that depth. */
  readonly children: readonly Reference[];
}

/** The parts of packed diagrams with their nodes in full, each after its children. */
export interface ReadDiagrams extends Pick<PackedDiagrams, 'levels' | 'sizes' | 'terminals'> {
  readonly nodes: readonly PackedNode[];
  readonly roots: readonly Reference[];
}

const LARGEST = 2 ** 31 - 1;

/**
 * The nodes of packed diagrams. Throws a `PackedError` unless the data is, to the letter, what `pack` writes; the work is
 * bounded by the length of the data.
 */
export function readPacked(data: unknown): ReadDiagrams {
  const packed = shapeOf(data);
  if (checkOf(packed) !== packed.check) throw new PackedError('the checksum is another');
  const { levels, sizes, terminals } = packed;
  const reader = new Reader(packed);
  const roots = Array.from({ length: packed.roots }, () => reader.read(-1, []));
  reader.finish();
  return { levels, sizes, terminals, nodes: reader.nodes, roots };
}

function shapeOf(data: unknown): PackedDiagrams {
  if (typeof data !== 'object' || data === null) throw new PackedError('it is no object');
  const given = data as Readonly<Record<string, unknown>>;
  for (const key of ['levels', 'sizes', 'terminals']) {
    const list = given[key];
    if (!Array.isArray(list) || !list.every((each) => isUpTo(LARGEST, each))) {
      throw new PackedError(`${key} is no list of numbers`);
    }
  }
  for (const key of ['nodes', 'tests', 'splits', 'check']) {
    if (typeof given[key] !== 'string') throw new PackedError(`${key} is no text`);
  }
  const packed = data as PackedDiagrams;
  const { levels, sizes, terminals, roots, nodes } = packed;
  if (levels.length > MOST_LEVELS) throw new PackedError('there are too many levels');
  if (new Set(levels).size < levels.length) throw new PackedError('a level stands twice');
  if (sizes.length !== levels.length || sizes.some((size) => size < 2)) throw new PackedError('the sizes are wrong');
  if (terminals.some((value, at) => value <= (terminals[at - 1] ?? -1))) {
    throw new PackedError('the terminals are out of order');
  }
  if (!isUpTo(nodes.length, roots)) throw new PackedError('the number of roots is wrong');
  return packed;
}

function isUpTo(most: number, value: unknown): boolean {
  return Number.isInteger(value) && (value as number) >= 0 && (value as number) <= most;
}

class Reader {
  readonly nodes: PackedNode[] = [];
  readonly #packed: PackedDiagrams;
  readonly #nodes: DigitReader;
  readonly #tests: DigitReader;
  readonly #splits: DigitReader;
  readonly #recent = new Recent();
  readonly #tested: RecentDepths;
  readonly #contents = new Set<string>();
  /** The terminals that were come to, by their numbers in `nodes`. */
  readonly #used = new Set<number>();

  constructor(packed: PackedDiagrams) {
    const { levels, nodes, tests, splits } = packed;
    this.#packed = packed;
    this.#nodes = digitReader('nodes', nodes);
    this.#tests = digitReader('tests', tests);
    this.#splits = digitReader('splits', splits);
    this.#tested = new RecentDepths(levels.length);
  }

  /** What stands next, as a child of a node at depth `above` that has `siblings` already. */
  read(above: number, siblings: readonly Reference[]): Reference {
    const number = this.#nodes.next();
    const terminals = this.#packed.terminals.length;
    if (number === 0) return this.#readNew(above);
    if (number <= terminals) {
      this.#used.add(number);
      return ~(number - 1);
    }
    const allowed = (node: Reference): boolean => this.#depth(node) > above && !siblings.includes(node);
    const found = this.#recent.find(number - terminals - 1, allowed);
    if (found === undefined) throw new PackedError('it names a node that is not there');
    return found;
  }

  /** After the last root. */
  finish(): void {
    if (!this.#nodes.done || !this.#tests.done || !this.#splits.done) throw new PackedError('something is left over');
    const depths = new Set(this.nodes.map(({ depth }) => depth));
    if (depths.size < this.#packed.levels.length) throw new PackedError('a level is never tested');
    if (this.#used.size < this.#packed.terminals.length) throw new PackedError('a terminal is never reached');
  }

  #readNew(above: number): Reference {
    const depth = this.#tested.below(above).find(this.#tests.next(), () => true);
    if (depth === undefined) throw new PackedError('it tests a level that is not there');
    const size = this.#packed.sizes[depth] as number;
    const split = size === 2 ? [0, 1] : readSplit(size, () => this.#splits.next());
    if (!split) throw new PackedError('a split is wrong');
    const distinct: Reference[] = [];
    for (let at = 0; at <= Math.max(...split); at += 1) {
      const child = this.read(depth, distinct);
      if (distinct.includes(child)) throw new PackedError('a child stands twice');
      distinct.push(child);
    }
    if (distinct.length < 2) throw new PackedError('a node tests nothing');
    const children = split.map((at) => distinct[at] as Reference);
    const content = `${depth} ${children.join(' ')}`;
    if (this.#contents.has(content)) throw new PackedError('a node stands twice');
    this.#contents.add(content);
    const node = this.nodes.push({ depth, children }) - 1;
    this.#recent.add(node);
    return node;
  }

  #depth(node: Reference): number {
    return (this.nodes[node] as PackedNode).depth;
  }
}

function digitReader(part: string, text: string): DigitReader {
  return new DigitReader(text, (what) => new PackedError(`${part} ${what}`));
}
