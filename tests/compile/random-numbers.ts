/** Random numbers that are the same on every machine, and choices made with them. */

/** From 0 to below 1. */
export type Random = () => number;

/** A generator of 32 bits of state: additions of a constant, mixed (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014, in 32 bits). */
export function random(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}

export interface Chooser {
  /** An integer from 0 to `count` - 1. */
  readonly below: (count: number) => number;
  readonly pick: <T>(from: readonly T[]) => T;
  readonly chance: (one: number) => boolean;
  /** Up to `count` different ones, in random order. */
  readonly some: <T>(from: readonly T[], count: number) => T[];
}

export function chooser(draw: Random): Chooser {
  const below = (count: number): number => Math.floor(draw() * count);
  return {
    below,
    pick: (from) => {
      const at = below(from.length);
      if (at >= from.length) throw new RangeError('nothing to pick from');
      return from[at] as (typeof from)[number];
    },
    chance: (one) => draw() < one,
    some: (from, count) => {
      const left = [...from];
      return Array.from({ length: Math.min(count, from.length) }, () => left.splice(below(left.length), 1)).flat();
    },
  };
}
