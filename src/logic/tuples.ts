/** Tuples of whole numbers, all of one width, each kept once: for searches that make many and must know them again. */

const FIRST = 256;

export class Tuples {
  readonly width: number;
  count = 0;
  /** Tuple `t` stands from `t * width` on. */
  data: Int32Array;
  /** Open addressing, at most half full: a tuple's place counted from 1, in the first free slot from its hash on. */
  #slots: Int32Array;

  constructor(width: number) {
    this.width = width;
    this.data = new Int32Array(FIRST * width);
    this.#slots = new Int32Array(2 * FIRST);
  }

  /** Adds a tuple unless it is there, and says whether it was not. */
  add(tuple: Int32Array): boolean {
    const slot = this.#slotOf(tuple);
    if (this.#slots[slot]) return false;
    if (2 * this.count >= this.#slots.length) {
      this.#grow();
      return this.add(tuple);
    }
    const start = this.count * this.width;
    for (let at = 0; at < this.width; at += 1) this.data[start + at] = tuple[at] as number;
    this.count += 1;
    this.#slots[slot] = this.count;
    return true;
  }

  /** The place of a tuple, -1 where it is not there. */
  find(tuple: Int32Array): number {
    return (this.#slots[this.#slotOf(tuple)] as number) - 1;
  }

  /** Where a tuple is, or else where it belongs. */
  #slotOf(tuple: Int32Array, start = 0): number {
    let hash = 0;
    for (let at = start; at < start + this.width; at += 1) {
      hash = Math.imul(hash ^ (tuple[at] as number), 0x9e3779b1);
      hash ^= hash >>> 15;
    }
    const last = this.#slots.length - 1;
    let slot = hash & last;
    while (this.#slots[slot] && !this.#isAt((this.#slots[slot] as number) - 1, tuple, start)) slot = (slot + 1) & last;
    return slot;
  }

  #isAt(place: number, tuple: Int32Array, start: number): boolean {
    const known = place * this.width;
    for (let at = 0; at < this.width; at += 1) if (this.data[known + at] !== tuple[start + at]) return false;
    return true;
  }

  #grow(): void {
    const data = new Int32Array(2 * this.data.length);
    data.set(this.data);
    this.data = data;
    this.#slots = new Int32Array(2 * this.#slots.length);
    for (let tuple = 0; tuple < this.count; tuple += 1) {
      this.#slots[this.#slotOf(this.data, tuple * this.width)] = tuple + 1;
    }
  }
}
