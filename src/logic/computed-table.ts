/** Remembers results of operations on nodes. Bounded: a newer result may push out an older one, never falsify it. */

import type { Meter } from './limits.ts';

/** What `get` answers when it does not know. */
export const MISSING = -2;

const SMALLEST = 1 << 14;
const LARGEST = 1 << 20;

/** A direct-mapped table from an operation and up to three operands to a node (or another integer above -2). */
export class ComputedTable {
  #keys = new Int32Array(4 * SMALLEST).fill(-1);
  #values = new Int32Array(SMALLEST);
  #written = 0;
  readonly #meter: Meter;
  /** How often a result was known: equal for equal histories. */
  hits = 0;

  /** Every question counts as a step. */
  constructor(meter: Meter) {
    this.#meter = meter;
  }

  get(operation: number, f: number, g: number, h: number): number {
    this.#meter.countStep();
    const entry = this.#entry(operation, f, g, h);
    const at = 4 * entry;
    const keys = this.#keys;
    if (keys[at] !== operation || keys[at + 1] !== f || keys[at + 2] !== g || keys[at + 3] !== h) return MISSING;
    this.hits += 1;
    return this.#values[entry] as number;
  }

  set(operation: number, f: number, g: number, h: number, result: number): void {
    this.#written += 1;
    if (this.#written > this.#values.length && this.#values.length < LARGEST) this.#grow();
    this.#write(operation, f, g, h, result);
  }

  #write(operation: number, f: number, g: number, h: number, result: number): void {
    const entry = this.#entry(operation, f, g, h);
    const at = 4 * entry;
    this.#keys[at] = operation;
    this.#keys[at + 1] = f;
    this.#keys[at + 2] = g;
    this.#keys[at + 3] = h;
    this.#values[entry] = result;
  }

  #entry(operation: number, f: number, g: number, h: number): number {
    let hash = Math.imul(operation + 1, 0x9e3779b1) ^ f;
    hash = Math.imul(hash ^ (hash >>> 15), 0x85ebca6b) ^ g;
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35) ^ h;
    hash = Math.imul(hash ^ (hash >>> 16), 0x27d4eb2f);
    return (hash ^ (hash >>> 15)) & (this.#values.length - 1);
  }

  #grow(): void {
    const keys = this.#keys;
    const values = this.#values;
    this.#keys = new Int32Array(2 * keys.length).fill(-1);
    this.#values = new Int32Array(2 * values.length);
    for (let entry = 0; entry < values.length; entry += 1) {
      const at = 4 * entry;
      if (keys[at] === -1) continue;
      const [operation, f, g, h] = [keys[at], keys[at + 1], keys[at + 2], keys[at + 3]] as [
        number,
        number,
        number,
        number,
      ];
      this.#write(operation, f, g, h, values[entry] as number);
    }
  }
}
