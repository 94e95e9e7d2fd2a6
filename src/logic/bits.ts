/** Sets of places as the bits of a word. */

/** The place of the lowest bit that is set. */
export function lowestBit(mask: number): number {
  return 31 - Math.clz32(mask & -mask);
}

/** The places in a mask, in rising order. */
export function placesIn(mask: number): readonly number[] {
  const places: number[] = [];
  for (let rest = mask; rest; rest &= rest - 1) places.push(lowestBit(rest));
  return places;
}

/** How many bits of a word are set. (Warren, Hacker's Delight, 2nd ed., section 5-1.) */
export function bitCount(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
