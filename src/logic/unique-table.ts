/** The nodes of one manager: every node once, so that two diagrams are equal exactly when their handles are. */

import type { Meter } from './limits.ts';

/** A handle within one manager. Handles are never reused and never change meaning. */
export type Node = number;

/** The level of a terminal: greater than every variable's level. */
export const TERMINAL_LEVEL = 0x7fffffff;

const EMPTY = -1;

/**
 * Hash-consed nodes in typed arrays. `#starts` holds the place of a node's first child in `#children`, and the value
 * itself for a terminal.
 */
export class UniqueTable {
  readonly sizes: readonly number[];
  readonly #meter: Meter;
  readonly #terminals = new Map<number, Node>();
  #levels = new Int32Array(4096);
  #starts = new Int32Array(4096);
  #children = new Int32Array(16384);
  #slots = new Int32Array(16384).fill(EMPTY);
  #count = 0;
  #childCount = 0;

  /** `sizes` gives the number of values of the variable at each level. */
  constructor(sizes: readonly number[], meter: Meter) {
    this.sizes = sizes;
    this.#meter = meter;
  }

  get count(): number {
    return this.#count;
  }

  level(node: Node): number {
    return this.#levels[node] as number;
  }

  isTerminal(node: Node): boolean {
    return this.#levels[node] === TERMINAL_LEVEL;
  }

  /** The value of a terminal; meaningless for any other node. */
  value(terminal: Node): number {
    return this.#starts[terminal] as number;
  }

  /** The child of an inner node; meaningless for a terminal. */
  child(node: Node, value: number): Node {
    return this.#children[(this.#starts[node] as number) + value] as number;
  }

  /** What `node` becomes when the variable at `level` has `value`, for a level not below the node's own. */
  cofactor(node: Node, level: number, value: number): Node {
    return this.#levels[node] === level ? this.child(node, value) : node;
  }

  terminal(value: number): Node {
    const known = this.#terminals.get(value);
    if (known !== undefined) return known;
    if (!Number.isInteger(value) || value < 0 || value > 0x7fffffff) {
      throw new RangeError(`a terminal is an integer from 0 to 2^31 - 1, not ${value}`);
    }
    const node = this.#add(TERMINAL_LEVEL, value);
    this.#terminals.set(value, node);
    return node;
  }

  /** The node with these children, all of them below `level`; the child itself where all are the same. */
  make(level: number, children: readonly Node[]): Node {
    if (isConstant(children)) return children[0] as Node;
    let slot = this.#slotOf(level, children);
    const known = this.#slots[slot] as number;
    if (known !== EMPTY) return known;
    if (2 * (this.#count + 1) > this.#slots.length) {
      this.#growSlots();
      slot = this.#slotOf(level, children);
    }
    const start = this.#childCount;
    const node = this.#add(level, start);
    while (start + children.length > this.#children.length) this.#children = doubled(this.#children);
    for (let value = 0; value < children.length; value += 1) this.#children[start + value] = children[value] as Node;
    this.#childCount = start + children.length;
    this.#slots[slot] = node;
    return node;
  }

  childrenOf(node: Node): readonly Node[] {
    if (this.isTerminal(node)) return [];
    const start = this.#starts[node] as number;
    const end = start + (this.sizes[this.level(node)] as number);
    const children: Node[] = [];
    for (let at = start; at < end; at += 1) children.push(this.#children[at] as Node);
    return children;
  }

  /** Throws when a node is out of order, reducible, doubled or not found again by its own content. */
  assertConsistent(): void {
    const seen = new Set<string>();
    for (let node = 0; node < this.#count; node += 1) {
      const level = this.level(node);
      const children = this.childrenOf(node);
      const fail = (what: string): never => {
        throw new Error(`node ${node} at level ${level} (${children.join(' ')}) ${what}`);
      };
      const content = `${level}:${this.isTerminal(node) ? this.value(node) : children.join(' ')}`;
      if (seen.has(content)) fail('stands twice');
      seen.add(content);
      if (this.isTerminal(node)) {
        if (this.#terminals.get(this.value(node)) !== node) fail('is not interned');
        continue;
      }
      if (children.some((child) => child < 0 || child >= node)) fail('has a child made after it');
      if (children.some((child) => this.level(child) <= level)) fail('has a child that is not below it');
      if (children.every((child) => child === children[0])) fail('tests nothing');
      if (this.#slots[this.#slotOf(level, children)] !== node) fail('is not found by its content');
    }
  }

  #add(level: number, start: number): Node {
    this.#meter.countNode();
    if (this.#count === this.#levels.length) {
      this.#levels = doubled(this.#levels);
      this.#starts = doubled(this.#starts);
    }
    const node = this.#count;
    this.#levels[node] = level;
    this.#starts[node] = start;
    this.#count += 1;
    return node;
  }

  /** Where the node stands in the open-addressed table, or the free slot where it would. */
  #slotOf(level: number, children: readonly Node[]): number {
    const mask = this.#slots.length - 1;
    let hash = firstHash(level);
    for (let value = 0; value < children.length; value += 1) hash = nextHash(hash, children[value] as Node);
    let slot = hash & mask;
    for (;;) {
      const node = this.#slots[slot] as number;
      if (node === EMPTY || this.#matches(node, level, children)) return slot;
      slot = (slot + 1) & mask;
    }
  }

  #matches(node: Node, level: number, children: readonly Node[]): boolean {
    if (this.#levels[node] !== level) return false;
    const start = this.#starts[node] as number;
    for (let value = 0; value < children.length; value += 1) {
      if (this.#children[start + value] !== children[value]) return false;
    }
    return true;
  }

  #growSlots(): void {
    const slots = new Int32Array(2 * this.#slots.length).fill(EMPTY);
    const mask = slots.length - 1;
    for (let node = 0; node < this.#count; node += 1) {
      if (this.isTerminal(node)) continue;
      const level = this.level(node);
      const start = this.#starts[node] as number;
      const end = start + (this.sizes[level] as number);
      let hash = firstHash(level);
      for (let at = start; at < end; at += 1) hash = nextHash(hash, this.#children[at] as Node);
      let slot = hash & mask;
      while (slots[slot] !== EMPTY) slot = (slot + 1) & mask;
      slots[slot] = node;
    }
    this.#slots = slots;
  }
}

function firstHash(level: number): number {
  return Math.imul(level + 1, 0x9e3779b1);
}

function nextHash(hash: number, child: Node): number {
  const mixed = Math.imul(hash ^ child, 0x85ebca6b);
  return mixed ^ (mixed >>> 13);
}

function isConstant(children: readonly Node[]): boolean {
  for (let value = 1; value < children.length; value += 1) if (children[value] !== children[0]) return false;
  return true;
}

function doubled(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}
