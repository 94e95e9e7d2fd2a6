/** What an author is told of a mistake, in the words that they read. */
import { expect, test } from 'vitest';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { readCell } from '../../src/language/index.ts';
import { readGuardText, readText, scope, sourceOf } from '../helpers/expressions.ts';

test.each<[text: string, told: string]>([
  ['taxiing.ON', '"ON" cannot stand after "taxiing" and a dot here.'],
  ['logo.lamp is ON', '"lamp" cannot stand after "logo" and a dot here.'],
  ['airspeed.x > 3 kt', '"x" cannot stand after "airspeed" and a dot here.'],
  ['fitted(beacon.lamp)', '"lamp" cannot stand after "beacon" and a dot here.'],
  ['any lamp of position-lights.left is lit', '"left" cannot stand after "position-lights" and a dot here.'],
  ['taxiing is yes', '"taxiing" is a signal: it holds or it does not.'],
  ['cabin-high is lit', '"cabin-high" is a detector: it holds or it does not.'],
  ['fitted(gear)', '"gear" is a condition; fitted(...) asks for a control, an item or a sequence.'],
  ['airspeed is 3', '"airspeed" is a number in kt. It has no named values, so "is" and "in" cannot be used of it.'],
  ['any lamp of gear is lit', '"gear" is a condition; only lights have lamps.'],
  ['any lamp of beacon is lit', '"beacon" names no lamps, so nothing can be said of several of them.'],
  [
    'any lamp of position-lights is not in (dark, dim, lit)',
    'A lamp of "position-lights" is always one of these, so this never holds of any.',
  ],
  ['at least 4 lamps of position-lights are lit', '"position-lights" has 3 lamps; 4 cannot be asked for.'],
  ['airspeed > fast', '"fast" stands where a number after ">" should stand.'],
  ['airspeed > 3', '"airspeed" is in kt, but this number has no unit.'],
  ['airspeed > 3 m', '"airspeed" is in kt, not in m.'],
  ['airspeed > 500 kt', '"airspeed" goes from 0 to 400 kt; compared with 500 kt, the answer would always be the same.'],
  ['airspeed = 3.5 kt', '"airspeed" moves in steps of 1 kt and is never exactly 3.5 kt.'],
  ['landing is lit', '"landing" has several attributes: lamp and stowage.'],
  ['beacon.place is lit', '"beacon" has no attribute "place". It has lamp.'],
  ['start-battery > 3 min', '"start-battery" is a store. Stores are read by transitions only.'],
  ['taxiing > 3', '"taxiing" is not a number, so it cannot be compared by ">".'],
  ['gear is on', '"gear" is never "on". It can be compressed or extended.'],
])('"%s"', (text, told) => {
  expect(toJson(readText(text).found).map(({ message }) => message)).toEqual([told]);
});

test('a store is read by "<" and the like, where it is read at all', () => {
  expect(toJson(readGuardText('start-battery = 3 min').found)).toMatchObject([
    { code: 'SL233', message: '"start-battery" passes 3 min on its way and does not stand there.' },
  ]);
});

test('what may not be read in a place is told with the reason, also where it is only asked to be fitted', () => {
  const options = { kinds: ['option'], why: 'Only options.' } as const;
  expect(['logo is ON', 'fitted(logo)'].flatMap((text) => toJson(readText(text, options).found))).toMatchObject([
    { code: 'SL218', message: '"logo" is a control. Only options.' },
    { code: 'SL218', message: 'This asks whether "logo" is fitted. Only options.' },
  ]);
});

test('of a store that "is" a number only the "is" is wrong, as of a number', () => {
  expect(readGuardText('start-battery is below 3 min').found.map(({ code }) => code)).toEqual(['SL207']);
  expect(readText('airspeed is above 240 kt').found.map(({ code }) => code)).toEqual(['SL207']);
});

test('what nests too deep is told with how deep it may', () => {
  const text = `${'('.repeat(101)}taxiing${')'.repeat(101)}`;
  expect(toJson(readText(text).found)).toMatchObject([
    { code: 'SL231', message: 'Brackets and "not" nest more than 100 deep here.' },
  ]);
});

test('half of an implication says nothing', () => {
  expect(readText('logo is ONN implies taxiing').expression).toBeUndefined();
  expect(readText('taxiing implies logo is ONN').expression).toBeUndefined();
});

const inCell = (name: string, text: string) => {
  const diagnostics = new Diagnostics();
  readCell(name, sourceOf(text), scope, diagnostics);
  return toJson(diagnostics.all);
};

test('in an expression the hint is about expressions, in a cell about cells', () => {
  expect(toJson(readText('airspeed > fast').found).map(({ hint }) => hint)).toEqual([
    expect.stringContaining('An expression looks like this'),
  ]);
  expect([inCell('logo', 'ON AUTO'), inCell('airspeed', '> fast')].map(([first]) => first?.hint)).toEqual([
    expect.stringContaining('Cells look like these'),
    expect.stringContaining('Cells look like these'),
  ]);
});

test('a cell of what holds or not is answered by yes or no', () => {
  expect(inCell('cabin-high', 'lit')).toMatchObject([
    { code: 'SL232', message: '"cabin-high" holds or it does not, so its cells say "yes" or "no".' },
  ]);
});
