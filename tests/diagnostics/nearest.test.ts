import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { list, nearestName, quoted } from '../../src/diagnostics/index.ts';

describe('the name that was probably meant', () => {
  const names = ['logo', 'logo-lights', 'landing-left', 'landing-right', 'airspeed', 'ON', 'OFF', 'AUTO'];
  test.each<[word: string, name: string | undefined]>([
    ['lgoo', 'logo'],
    ['logoo', 'logo'],
    ['lgo', 'logo'],
    ['lago', 'logo'],
    ['on', 'ON'],
    ['Airspeed', 'airspeed'],
    ['landing-rihgt', 'landing-right'],
    ['logo-light', 'logo-lights'],
    ['laning-lft', 'landing-left'],
    ['ogol', undefined],
    ['slats', undefined],
    ['x', undefined],
    ['', undefined],
  ])('"%s" means %s', (word, name) => expect(nearestName(word, names)).toBe(name));

  test('ties go to the name that stands first', () => {
    expect(nearestName('bar-3', ['bar-2', 'bar-1'])).toBe('bar-2');
    expect(nearestName('bar-3', ['bar-1', 'bar-2'])).toBe('bar-1');
  });

  test('there is none among no names', () => {
    expect(nearestName('logo', [])).toBeUndefined();
  });

  const words = fc.string({ unit: fc.constantFrom('a', 'b', 'c', '-'), minLength: 3, maxLength: 9 });
  test('one slip in a word of three letters or more is forgiven', () => {
    fc.assert(
      fc.property(words, fc.nat(), fc.constantFrom('drop', 'add', 'change', 'swap'), (word, seed, slip) => {
        const at = seed % (word.length - 1);
        const [before, first, second, after] = [
          word.slice(0, at),
          word.charAt(at),
          word.charAt(at + 1),
          word.slice(at + 2),
        ];
        const written = {
          drop: before + second + after,
          add: `${before}x${first}${second}${after}`,
          change: `${before}x${second}${after}`,
          swap: before + second + first + after,
        }[slip];
        expect(nearestName(written, [word])).toBe(word);
      }),
    );
  });
});

test('words in a row take commas and one joining word', () => {
  expect(list([])).toBe('');
  expect(list(['a'])).toBe('a');
  expect(list(['a', 'b'])).toBe('a or b');
  expect(list(['a', 'b', 'c'], 'and')).toBe('a, b and c');
  expect(quoted(['a', 'b'])).toBe('"a" or "b"');
});
