import { describe, expect, test } from 'vitest';
import { toJson } from '../../src/diagnostics/index.ts';
import type { Allowed } from '../../src/language/index.ts';
import { readGuardText, readText, soundExpression, withoutPlaces } from '../helpers/expressions.ts';

/** Each mistake as "CODE words meant". Words that stand at the end of the text are empty. */
function mistakes(text: string, allow?: Allowed): string[] {
  const { guard, found } = readGuardText(text, allow);
  expect(guard === undefined).toBe(found.length > 0);
  return found.map(({ code, place }) => `${code} ${place?.file.text.slice(place.start, place.end)}`);
}

describe('"for" at the end of a guard says how long it has held', () => {
  test.each([
    ['taxiing', 'taxiing', undefined],
    ['rotor >= 95 % for 2 s', 'rotor >= 95 %', { seconds: '2' }],
    ['rotor >= 95 % for 2s+/-0.5s', 'rotor >= 95 %', { seconds: '2', tolerance: '0.5' }],
    ['taxiing for 1 min +/- 5 s', 'taxiing', { seconds: '60', tolerance: '5' }],
    ['taxiing and (logo is ON or cabin-high) for 1 h', 'taxiing and (logo is ON or cabin-high)', { seconds: '3600' }],
    ['taxiing implies slats are in for 2 s', 'taxiing implies slats are in', { seconds: '2' }],
    ['any lamp of position-lights is failed for 2 s', 'any lamp of position-lights is failed', { seconds: '2' }],
  ])('%s', (text, expression, holds) => {
    const { guard, found } = readGuardText(text);
    expect(found).toEqual([]);
    expect(guard && withoutPlaces(guard.when)).toEqual(withoutPlaces(soundExpression(expression)));
    expect(guard?.holds && { ...guard.holds, place: undefined }).toEqual(holds && { ...holds, place: undefined });
  });

  test('and has a place of its own', () => {
    const text = 'taxiing for 60 s +/- 5 s';
    const { guard } = readGuardText(text);
    expect(text.slice(guard?.when.place.start, guard?.when.place.end)).toBe('taxiing');
    expect(text.slice(guard?.holds?.place.start, guard?.holds?.place.end)).toBe('60 s +/- 5 s');
  });
});

test.each([
  ['start-battery <= 0 min', { op: 'level', store: 'start-battery', by: '<=', value: '0', unit: 'min' }],
  ['not start-battery > 2.5 min', { op: 'not', arg: { op: 'level', by: '>', value: '2.5' } }],
  ['start-battery < 3 min for 3 min', { op: 'level', by: '<', value: '3' }],
])('a guard may read the level of a store: %s', (text, expression) => {
  const { guard, found } = readGuardText(text);
  expect(found).toEqual([]);
  expect(guard?.when).toMatchObject(expression);
});

describe('each mistake is reported at the words that it lies in', () => {
  test.each<[text: string, ...found: string[]]>([
    ['', 'SL201 '],
    ['for 5 s', 'SL202 for'],
    ['taxiing for', 'SL202 '],
    ['taxiing for long', 'SL202 long'],
    ['taxiing for 5', 'SL226 5'],
    ['taxiing for 5 sec', 'SL226 sec'],
    ['taxiing for 0 s', 'SL227 0 s'],
    ['taxiing for -5 s', 'SL227 -5 s'],
    ['taxiing for 5 s +/-', 'SL202 '],
    ['taxiing for 5 s +/- 6 s', 'SL228 6 s'],
    ['taxiing for 5 s +/- -1 s', 'SL228 -1 s'],
    ['taxiing for 5 s ± 1 s', 'SL202 ±'],
    ['taxiing for 5 s 6', 'SL202 6'],
    ['taxiing for 5 s +/- 1 s)', 'SL202 )'],
    ['taxiing for 5 s for 6 s', 'SL202 for'],
    ['taxiing for 5 s and logo is ON', 'SL221 for'],
    ['(taxiing for 5 s) and logo is ON', 'SL221 for'],
    ['(taxiing for 5 s)', 'SL221 for'],
    ['fitted(logo for 5 s)', 'SL202 for'],
    ['lgoo is ON for 5 sec', 'SL204 lgoo', 'SL226 sec'],
    ['rotor >= 95 for 5 s', 'SL209 95'],
    ['start-battery', 'SL211 start-battery'],
    ['start-battery is empty', 'SL207 start-battery'],
    ['start-battery < 3 h', 'SL209 h'],
    ['start-battery > 12 min', 'SL210 12'],
    ['start-batery < 3 min', 'SL204 start-batery'],
    ['fitted(start-battery)', 'SL212 start-battery'],
  ])('%s', (text, ...found) => expect(mistakes(text)).toEqual(found));

  test('a guard may be kept to some kinds of names', () => {
    expect(mistakes('start-battery < 3 min and taxiing', { kinds: ['signal'], why: 'Only signals.' })).toEqual([
      'SL218 start-battery',
    ]);
  });
});

describe('elsewhere neither times nor levels are read', () => {
  test.each<[text: string, ...found: string[]]>([
    ['taxiing for 5 s', 'SL221 for'],
    ['taxiing for 5 s and lgoo is ON', 'SL221 for', 'SL204 lgoo'],
    ['(taxiing for 5 s) or on-ground', 'SL221 for'],
    ['start-battery < 3 min', 'SL222 start-battery'],
    ['not start-battery', 'SL222 start-battery'],
    ['start-battery is empty', 'SL222 start-battery'],
    ['start-batery < 3 min', 'SL204 start-batery'],
  ])('%s', (text, ...words) => {
    const { expression, found } = readText(text);
    expect(expression).toBeUndefined();
    expect(found.map(({ code, place }) => `${code} ${text.slice(place?.start, place?.end)}`)).toEqual(words);
  });

  test('and a store is proposed to guards alone', () => {
    expect(readText('start-batery < 3 min').found[0]?.facts).toMatchObject({ nearest: undefined });
    expect(readGuardText('start-batery < 3 min').found[0]?.facts).toMatchObject({ nearest: 'start-battery' });
  });
});

test.each([
  ['taxiing for 5 minutes', '"5 min"'],
  ['taxiing for 5 S', '"5 s"'],
  ['taxiing for 5', '"5 s"'],
  ['taxiing for 5 s + 1 s', '"+/-"'],
  ['taxiing for 5 s ± 1 s', '"+/-"'],
  ['taxiing FOR 5 s', 'Write "for", in lower case'],
  ['(taxiing for 5 s) or on-ground', 'Put it at the end'],
])('the hint on "%s" leads to what was meant', (text, words) => {
  expect(toJson(readGuardText(text).found).map(({ hint }) => hint)).toEqual([expect.stringContaining(words)]);
});
