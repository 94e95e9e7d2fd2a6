/** Bits of a word against the word written out in binary. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bitCount, lowestBit, placesIn } from '../../src/logic/bits.ts';

test('are found in rising order and counted, the highest one too', () => {
  fc.assert(
    fc.property(fc.oneof(fc.integer(), fc.constantFrom(0, 1, -1, 1 << 31)), (word) => {
      const written = (word >>> 0).toString(2).padStart(32, '0');
      const places = Array.from({ length: 32 }, (_, place) => place).filter((place) => written.at(-1 - place) === '1');
      expect(placesIn(word)).toEqual(places);
      expect(bitCount(word)).toBe(places.length);
      if (word !== 0) expect(lowestBit(word)).toBe(places[0]);
    }),
  );
});
