import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { type Duration, readDuration } from '../../src/language/index.ts';
import { sourceOf } from '../helpers/expressions.ts';

function read(text: string): { duration: Duration | undefined; mistakes: string[] } {
  const diagnostics = new Diagnostics();
  const duration = readDuration(sourceOf(text), diagnostics);
  const mistakes = diagnostics.all.map(({ code, place }) => `${code} ${text.slice(place?.start, place?.end)}`);
  expect(duration === undefined).toBe(mistakes.length > 0);
  return { duration, mistakes };
}

test.each([
  ['5 s', '5', undefined],
  ['5s', '5', undefined],
  [' 60 s +/- 5 s ', '60', '5'],
  ['60s+/-5s', '60', '5'],
  ['2 min', '120', undefined],
  ['0.5 min', '30', undefined],
  ['1 h', '3600', undefined],
  ['1.25 h +/- 0.1 min', '4500', '6'],
  ['0.10 s', '0.1', undefined],
  ['0.0001 h', '0.36', undefined],
  ['3 s +/- 3 s', '3', '3'],
  ['1 min +/- 60 s', '60', '60'],
  ['5 s +/- 0 s', '5', '0'],
])('%s', (text, seconds, tolerance) => {
  const { duration } = read(text);
  expect(duration).toMatchObject({ seconds });
  expect(duration?.tolerance).toBe(tolerance);
  expect(text.slice(duration?.place.start, duration?.place.end)).toBe(text.trim());
});

test('times are exact, where floating point is not', () => {
  fc.assert(
    fc.property(fc.bigInt({ min: 1n, max: 10n ** 30n }), fc.constantFrom('s', 'min', 'h'), (millionths, unit) => {
      const digits = `${millionths}`.padStart(7, '0');
      const { duration } = read(`${digits.slice(0, -6)}.${digits.slice(-6)} ${unit}`);
      const [whole = '', fraction = ''] = (duration?.seconds ?? '').split('.');
      const factor = { s: 1n, min: 60n, h: 3600n }[unit];
      expect(BigInt(whole + fraction.padEnd(6, '0'))).toBe(millionths * factor);
    }),
  );
});

describe('each mistake is reported at the words that it lies in', () => {
  test.each<[text: string, ...found: string[]]>([
    ['', 'SL202 '],
    ['long', 'SL202 long'],
    ['about 5 s', 'SL202 about'],
    ['5', 'SL226 5'],
    ['5 kt', 'SL226 kt'],
    ['5 minutes', 'SL226 minutes'],
    ['0 s', 'SL227 0 s'],
    ['-2 min', 'SL227 -2 min'],
    ['60 s +/- 5', 'SL226 5'],
    ['60 s +/- 5 kt', 'SL226 kt'],
    ['60 s +/- -5 s', 'SL228 -5 s'],
    ['60 +/- 5', 'SL226 60', 'SL226 5'],
    ['60 s +/- 61 s', 'SL228 61 s'],
    ['60 s +/- 2 min', 'SL228 2 min'],
    ['60 s - 5 s', 'SL202 -'],
    ['60 s + 5 s', 'SL202 +'],
    ['60 s +/- 5 s or so', 'SL202 or'],
    ['1 min 30 s', 'SL202 30'],
    ['1,5 s', 'SL202 1,5'],
  ])('"%s"', (text, ...found) => expect(read(text).mistakes).toEqual(found));
});

test('what a time looks like is shown where none can be read', () => {
  const diagnostics = new Diagnostics();
  for (const text of ['', 'soon']) readDuration(sourceOf(text), diagnostics);
  expect(toJson(diagnostics.all)).toMatchObject([
    { message: '"soon" stands where a time, such as 5 s, should stand.' },
    {
      message: 'The time ends where a time, such as 5 s, should stand.',
      hint: expect.stringContaining('60 s +/- 5 s'),
    },
  ]);
});

describe('what is said of a time', () => {
  const said = (text: string): unknown => {
    const diagnostics = new Diagnostics();
    readDuration(sourceOf(text), diagnostics);
    return toJson(diagnostics.all)[0];
  };

  test('names the time that is not above zero, and the tolerance that is greater than its time', () => {
    expect(said('0 s')).toMatchObject({ message: expect.stringContaining('"0 s"') });
    expect(said('60 s +/- 2 min')).toMatchObject({ message: expect.stringMatching(/2 min.*60 s|60 s.*2 min/) });
  });

  test.each([
    ['5 sec', '5 s'],
    ['5 Minutes', '5 min'],
    ['2 hrs', '2 h'],
    ['5 S', '5 s'],
    ['5 MIN', '5 min'],
    ['1 H', '1 h'],
  ])('%s is taken for %s', (text, meant) => {
    expect(said(text)).toMatchObject({ hint: expect.stringContaining(meant) });
  });
});
