/** Multi-valued, multi-terminal decision diagrams: hash-consed, fully reduced, in one fixed variable order. */
import { applyBinary, CONFLICT, ifThenElse, type Kernel, mapTerminals, mergePossible, UNDECIDED } from './apply.ts';
import { restrictMany, restrictOne } from './cofactor.ts';
import { ComputedTable } from './computed-table.ts';
import { ascending, countSatisfying, reachable, supportOf, terminalsOf } from './inspect.ts';
import { type Limits, Meter, type Share } from './limits.ts';
import { quantify } from './quantify.ts';
import { type Node, TERMINAL_LEVEL, UniqueTable } from './unique-table.ts';

/** A variable with the values 0 to `size` - 1. In an ordered one they are neighbouring cells of a number's range. */
export interface Variable {
  readonly id: string;
  readonly size: number;
  /** Sets of values in tables must be intervals. */
  readonly ordered: boolean;
}

/** What goes beyond one of the limits is a `LimitError`. */
export interface DiagramsOptions extends Limits {
  /**
   * All levels, from the root of every diagram down; the declared order unless given. It decides how large diagrams get
   * and nothing that is said of them.
   */
  readonly order?: readonly number[];
}

/** What the manager has done so far: equal for equal histories, so that tests can pin it. */
export interface Work {
  readonly nodes: number;
  /** Steps of recursive operations that asked the cache, and those that it answered. */
  readonly applyCalls: number;
  readonly cacheHits: number;
}

/**
 * The manager of a family of diagrams over fixed variables. A variable is named by its level, its place in the declared
 * order; the nodes themselves may test the variables in another (`order`).
 * A diagram maps every case (an assignment of all variables) to a terminal, a non-negative integer; it is Boolean when
 * it has no other terminals than 0 and 1. Two diagrams of one manager are the same function exactly when they are the
 * same node (Bryant, "Graph-based algorithms for Boolean function manipulation", 1986, for two values).
 * Every operation that makes nodes may throw a `LimitError`.
 */
export class Diagrams {
  readonly variables: readonly Variable[];
  readonly no: Node;
  readonly yes: Node;
  readonly #kernel: Kernel;
  readonly #meter: Meter;
  /** The operations that are asked for most, and by key all others. */
  readonly #operations = { ite: 0, and: 1, or: 2, restrict: 3 };
  readonly #otherOperations = new Map<string, number>();
  readonly #decideAnd: (f: Node, g: Node) => Node;
  readonly #decideOr: (f: Node, g: Node) => Node;
  /** Supports are asked for over and over. */
  readonly #supports = new Map<Node, readonly number[]>();
  /** By depth, the level that nodes test there; and by level, its depth. */
  readonly #levels: readonly number[];
  readonly #depths: readonly number[];

  constructor(variables: readonly Variable[], options: DiagramsOptions = {}) {
    for (const { id, size } of variables) {
      if (!Number.isInteger(size) || size < 1) throw new RangeError(`variable ${id} has no values`);
    }
    this.variables = variables;
    this.#levels = options.order ?? variables.map((_, level) => level);
    this.#depths = variables.map((_, level) => this.#levels.indexOf(level));
    if (this.#levels.length !== variables.length || this.#depths.includes(-1)) {
      throw new RangeError('the order is not one of all levels');
    }
    const sizes = this.#levels.map((level) => (variables[level] as Variable).size);
    this.#meter = new Meter(options);
    const table = new UniqueTable(sizes, this.#meter);
    this.#kernel = { table, cache: new ComputedTable(this.#meter) };
    const no = table.terminal(0);
    const yes = table.terminal(1);
    const undecided = (a: Node, b: Node): Node =>
      table.isTerminal(a) || table.isTerminal(b) ? notBoolean() : UNDECIDED;
    this.#decideAnd = (a, b) => {
      if (a === no || b === no) return no;
      if (a === yes) return b;
      return b === yes || a === b ? a : undecided(a, b);
    };
    this.#decideOr = (a, b) => {
      if (a === yes || b === yes) return yes;
      if (a === no) return b;
      return b === no || a === b ? a : undecided(a, b);
    };
    this.no = no;
    this.yes = yes;
  }

  /** The diagram that is `value` in every case, an integer from 0 to 2^31 - 1. */
  terminal(value: number): Node {
    return this.#kernel.table.terminal(value);
  }

  /** The value of a terminal, undefined for any other node. */
  valueOf(node: Node): number | undefined {
    const { table } = this.#kernel;
    return table.isTerminal(node) ? table.value(node) : undefined;
  }

  /** The level that the node tests; `TERMINAL_LEVEL`, greater than any other, for a terminal. */
  level(node: Node): number {
    const { table } = this.#kernel;
    return table.isTerminal(node) ? TERMINAL_LEVEL : (this.#levels[table.level(node)] as number);
  }

  /** Where the node leads when the variable at its level has `value`. */
  child(node: Node, value: number): Node {
    if (this.#kernel.table.isTerminal(node)) throw new RangeError(`node ${node} is a terminal`);
    this.#checkValue(this.level(node), value);
    return this.#kernel.table.child(node, value);
  }

  /** Holds where the variable at `level` has one of `values`. */
  literal(level: number, values: readonly number[]): Node {
    const children: Node[] = [];
    for (let value = this.variables[level]?.size ?? 0; value > 0; value -= 1) children.push(this.no);
    for (const value of values) {
      this.#checkValue(level, value);
      children[value] = this.yes;
    }
    return this.#kernel.table.make(this.#depths[level] as number, children);
  }

  not(f: Node): Node {
    return this.ite(f, this.no, this.yes);
  }

  /** The conjunction of Boolean diagrams; `yes` of none. */
  and(...fs: readonly Node[]): Node {
    return fs.reduce((f, g) => this.#and(f, g), this.yes);
  }

  /** The disjunction of Boolean diagrams; `no` of none. */
  or(...fs: readonly Node[]): Node {
    return fs.reduce((f, g) => this.#or(f, g), this.no);
  }

  implies(f: Node, g: Node): Node {
    return this.ite(f, g, this.yes);
  }

  /** `g` where the Boolean `f` holds, else `h`; these two may have any terminals. */
  ite(f: Node, g: Node, h: Node): Node {
    return ifThenElse(this.#kernel, this.#operations.ite, f, g, h);
  }

  /** Combines the terminals of `f` and `g` case by case. One `key` must always come with the same `combine`. */
  apply(key: string, f: Node, g: Node, combine: (a: number, b: number) => number): Node {
    const { table } = this.#kernel;
    return applyBinary(this.#kernel, this.#operation(`apply ${key}`), f, g, (a, b) =>
      table.isTerminal(a) && table.isTerminal(b) ? table.terminal(combine(table.value(a), table.value(b))) : UNDECIDED,
    );
  }

  /** Changes the terminals of `f`. One `key` must always come with the same `change`. */
  map(key: string, f: Node, change: (a: number) => number): Node {
    return mapTerminals(this.#kernel, this.#operation(`map ${key}`), f, change);
  }

  /** Holds in the cases that `f` maps to `value`. */
  casesOf(f: Node, value: number): Node {
    return mapTerminals(this.#kernel, this.#operation(`cases ${value}`), f, (a) => (a === value ? 1 : 0));
  }

  /**
   * The diagram that agrees with `f` and with `g` wherever they are not `impossible`, and is impossible only where both
   * are; undefined when they differ in a case where both are possible.
   */
  merge(f: Node, g: Node, impossible: number): Node | undefined {
    const free = this.terminal(impossible);
    const merged = mergePossible(this.#kernel, this.#operation('merge'), f, g, free);
    return merged === CONFLICT ? undefined : merged;
  }

  /** The cofactor: what `f` becomes when the variable at `level` has `value`. */
  restrict(f: Node, level: number, value: number): Node {
    this.#checkValue(level, value);
    return restrictOne(this.#kernel, this.#operations.restrict, f, this.#depths[level] as number, value);
  }

  /** The cofactor for several variables, given as level to value; those outside the support are not read. */
  restrictAll(f: Node, assignment: ReadonlyMap<number, number>): Node {
    let lowest = -1;
    for (const level of this.support(f)) {
      const value = assignment.get(level);
      if (value === undefined) continue;
      this.#checkValue(level, value);
      lowest = Math.max(lowest, this.#depths[level] as number);
    }
    return restrictMany(this.#kernel, f, lowest, (depth) => assignment.get(this.#levels[depth] as number));
  }

  /** Holds where the Boolean `f` holds for some values of the variables at `levels`. */
  exists(f: Node, levels: readonly number[]): Node {
    return this.#quantify('exists', f, levels, (g, h) => this.#or(g, h));
  }

  /** Holds where the Boolean `f` holds for all values of the variables at `levels`. */
  forAll(f: Node, levels: readonly number[]): Node {
    return this.#quantify('for all', f, levels, (g, h) => this.#and(g, h));
  }

  /**
   * Removes the variables at `levels` by folding the outcomes of their values with `combine`, which must be associative,
   * commutative and idempotent. One `key` must always come with the same `combine`.
   */
  fold(key: string, f: Node, levels: readonly number[], combine: (a: number, b: number) => number): Node {
    return this.#quantify(`fold ${key}`, f, levels, (g, h) => this.apply(key, g, h, combine));
  }

  /** The levels on which `f` depends, ascending. */
  support(f: Node): readonly number[] {
    const known = this.#supports.get(f);
    if (known) return known;
    const support = ascending(supportOf(this.#kernel.table, f).map((depth) => this.#levels[depth] as number));
    this.#supports.set(f, support);
    return support;
  }

  /** The terminal value of one case, given as the value of each level (those outside the support are not read). */
  evaluate(f: Node, assignment: ArrayLike<number>): number {
    const { table } = this.#kernel;
    let node = f;
    while (!table.isTerminal(node)) {
      const level = this.level(node);
      const value = assignment[level] as number;
      this.#checkValue(level, value);
      node = table.child(node, value);
    }
    return table.value(node);
  }

  /** In how many assignments of the variables at `levels`, which hold the support, the Boolean `f` holds. */
  satCount(f: Node, levels: readonly number[]): bigint {
    return countSatisfying(this.#kernel.table, f, this.#depthsOf(levels));
  }

  /**
   * The least satisfying assignment of the Boolean `f` in declared order, as level to value; variables that do not
   * matter to it are left out. Undefined when nothing satisfies `f`.
   */
  pick(f: Node): ReadonlyMap<number, number> | undefined {
    if (f === this.no) return undefined;
    const cube = new Map<number, number>();
    let rest = f;
    for (const level of this.support(f)) {
      const { size } = this.variables[level] as Variable;
      const cofactors = Array.from({ length: size }, (_, value) => this.restrict(rest, level, value));
      if (cofactors[0] === rest) continue;
      const value = cofactors.findIndex((cofactor) => cofactor !== this.no);
      cube.set(level, value);
      rest = cofactors[value] as Node;
    }
    return cube;
  }

  /** The terminal values that `f` takes, ascending. */
  terminals(f: Node): readonly number[] {
    return terminalsOf(this.#kernel.table, f);
  }

  /** The nodes of `f`, terminals included, each after its children. */
  nodes(f: Node): readonly Node[] {
    // A node is made after its children, so that its number is larger.
    return reachable(this.#kernel.table, f).toSorted((a, b) => a - b);
  }

  /** How many nodes `f` has, terminals included. */
  size(f: Node): number {
    return reachable(this.#kernel.table, f).length;
  }

  /** All levels, from the root of every diagram down. */
  get order(): readonly number[] {
    return this.#levels;
  }

  get nodeCount(): number {
    return this.#kernel.table.count;
  }

  get work(): Work {
    const { cache, table } = this.#kernel;
    return { nodes: table.count, applyCalls: this.#meter.steps, cacheHits: cache.hits };
  }

  /**
   * Does a piece of work that may make so many nodes and take so many steps beside what was used before; the limits of the
   * manager stand above that. Where it meets a limit the `LimitError` comes out, and other work may go on.
   */
  within<T>(share: Share, work: () => T): T {
    return this.#meter.within(share, work);
  }

  /** Throws when a node is doubled, reducible or out of order: a bug in this folder. */
  assertConsistent(): void {
    this.#kernel.table.assertConsistent();
  }

  #and(f: Node, g: Node): Node {
    return applyBinary(this.#kernel, this.#operations.and, Math.min(f, g), Math.max(f, g), this.#decideAnd);
  }

  #or(f: Node, g: Node): Node {
    return applyBinary(this.#kernel, this.#operations.or, Math.min(f, g), Math.max(f, g), this.#decideOr);
  }

  #quantify(key: string, f: Node, levels: readonly number[], combine: (g: Node, h: Node) => Node): Node {
    const removed = this.#depthsOf(levels);
    const operation = this.#operation(`${key} ${removed.join(' ')}`);
    return quantify(this.#kernel, operation, f, new Set(removed), combine);
  }

  #depthsOf(levels: readonly number[]): readonly number[] {
    return ascending(levels.map((level) => this.#depths[level] as number));
  }

  #operation(key: string): number {
    const known = this.#otherOperations.get(key);
    if (known !== undefined) return known;
    const operation = Object.keys(this.#operations).length + this.#otherOperations.size;
    this.#otherOperations.set(key, operation);
    return operation;
  }

  #checkValue(level: number, value: number): void {
    const variable = this.variables[level];
    if (!variable) throw new RangeError(`there is no level ${level}`);
    if (!Number.isInteger(value) || value < 0 || value >= variable.size) {
      throw new RangeError(`the variable at level ${level} has no value ${value}`);
    }
  }
}

function notBoolean(): never {
  throw new TypeError('a Boolean diagram has the terminals 0 and 1 only');
}
