/** Times in words: read back, they are the same times. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { durationWords } from '../../src/language/index.ts';

describe('A time in words', () => {
  it.each([
    ['0', '0 s'],
    ['2.5', '2.5 s'],
    ['90', '90 s'],
    ['119.5', '119.5 s'],
    ['120', '2 min'],
    ['1830', '30 min 30 s'],
    ['1800.25', '30 min 0.25 s'],
    ['3600', '1 h'],
    ['3905', '1 h 5 min 5 s'],
    ['7230', '2 h 30 s'],
  ])('of %s seconds is "%s"', (seconds, words) => {
    expect(durationWords(seconds)).toBe(words);
  });

  it('adds up to the time that it was made of, with each unit once and in order', () => {
    fc.assert(
      fc.property(fc.nat(400_000), fc.nat(999), (whole, part) => {
        const words = durationWords(part === 0 ? String(whole) : `${whole}.${String(part).padStart(3, '0')}`);
        const [, h = '0', min = '0', s = '0'] =
          /^(?:(\d+) h ?)?(?:(\d+) min ?)?(?:(\d+(?:\.\d+)?) s)?$/.exec(words) ?? [];
        expect(Number(h) * 3600 + Number(min) * 60 + Number(s)).toBeCloseTo(whole + part / 1000, 6);
        if (whole >= 120) expect(Number(min) < 60 && Number(s) < 60).toBe(true);
      }),
      { numRuns: 300, seed: 86 },
    );
  });
});
