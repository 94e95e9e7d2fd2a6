/** What could stand where something cannot be read. */
import { expect, test } from 'vitest';
import { type Diagnostic, Diagnostics } from '../../src/diagnostics/index.ts';
import { readCell, readDuration } from '../../src/language/index.ts';
import { readGuardText, readText, scope, sourceOf } from '../helpers/expressions.ts';

const wanted = ({ found }: { readonly found: readonly Diagnostic[] }): unknown[] =>
  found.map(({ code, facts }) => (code === 'SL202' ? (facts as { wanted: string }).wanted : code));

test.each<[text: string, ...wanted: string[]]>([
  ['and taxiing', 'a name'],
  ['logo ON', '"is", "and", "or" or the end'],
  ['(logo ON)', '"is", "and", "or" or ")"'],
  ['logo is ON ON', '"and", "or" or the end'],
  ['(logo is ON ON)', '"and", "or" or ")"'],
  ['taxiing)', '"is", "and", "or" or the end'],
  ['fitted(logo) AUTO', '"and", "or" or the end'],
  ['logo is', 'a value after "is"'],
  ['slats are', 'a value after "are"'],
  ['logo not ON', '"in"'],
  ['logo in ON', '"(" after "in"'],
  ['logo in ()', 'a value'],
  ['logo in (ON, )', 'a value'],
  ['logo in (ON AUTO)', '"," or ")"'],
  ['landing. is lit', 'a name after the dot', 'SL215'],
  ['airspeed >', 'a number after ">"'],
  ['airspeed <= ', 'a number after "<="'],
  ['fitted logo', '"(" after "fitted"'],
  ['fitted()', 'a control or item'],
  ['fitted(logo ON)', '")"'],
  ['any lamp', '"of"'],
  ['any lamp of', 'a light after "of"'],
  ['all lamps of not', 'a light after "of"'],
  ['any lamp of position-lights', '"is"'],
  ['at least lamps of position-lights is lit', 'a number after "at least"'],
  ['at most two lamps of position-lights is lit', 'a number after "at most"'],
  ['at least 2 of position-lights is lit', '"lamps" after "2"'],
  ['exactly two lamps of position-lights is lit', 'a number after "exactly"'],
  ['exactly 2 of position-lights is lit', '"lamps" after "2"'],
  // These words begin nothing elsewhere.
  ['logo least 2', '"is", "and", "or" or the end'],
  ['logo most 2', '"is", "and", "or" or the end'],
  // What follows something unreadable is not wrong as well.
  ['any lamp of position-lights in lit', '"(" after "in"'],
  ['240 kt > airspeed and logo is ONN', 'a name', 'SL205'],
])('in "%s" it is told', (text, ...told) => {
  expect(wanted(readText(text))).toEqual(told);
});

test.each<[text: string, ...wanted: string[]]>([
  ['taxiing for 5 s long', '"+/-" or the end'],
  ['taxiing for 5 s +/- 1 s long', 'the end'],
])('in the guard "%s" it is told', (text, ...told) => {
  expect(wanted(readGuardText(text))).toEqual(told);
});

test.each<[name: string, text: string, ...wanted: string[]]>([
  ['logo', 'ON AUTO', '"," or the end'],
  ['logo', 'ON,', 'a value'],
  ['logo', 'or ON', 'a value'],
  ['airspeed', '>', 'a number after ">"'],
  ['airspeed', '> 240 kt 5', 'the end'],
  ['airspeed', '> fast kt', 'the end'],
])('in the cell "%s: %s" it is told', (name, text, ...told) => {
  const diagnostics = new Diagnostics();
  readCell(name, sourceOf(text), scope, diagnostics);
  expect(wanted({ found: diagnostics.all })).toEqual(told);
});

test.each<[text: string, ...wanted: string[]]>([
  ['soon', 'a time, such as 5 s,'],
  ['5 s later', '"+/-" or the end'],
  ['5 s +/- little', 'a time after "+/-"'],
  ['5 s +/- 1 s or so', 'the end'],
])('in the time "%s" it is told', (text, ...told) => {
  const diagnostics = new Diagnostics();
  readDuration(sourceOf(text), diagnostics);
  expect(wanted({ found: diagnostics.all })).toEqual(told);
});

test.each([
  ['taxiing for 5 s and logo is ON', readGuardText, true],
  ['(taxiing for 5 s)', readGuardText, true],
  ['taxiing for 5 s', readText, false],
] as const)('"for" of "%s" is told by whether a time may stand there at all', (text, read, guard) => {
  expect(read(text).found.map(({ code, facts }) => [code, facts])).toEqual([['SL221', { guard }]]);
});

test('brackets are missed once in a chain that mixes "and" and "or" again and again', () => {
  expect(wanted(readText('logo is ON and gear is extended or slats are out and taxiing or cabin-high'))).toEqual([
    'SL219',
  ]);
});

test.each([
  ['a unit is no reserved word', 'airspeed > 240 and taxiing', ['SL209']],
  ['a value that is no number has no unit', 'airspeed > fast kt', ['"and", "or" or the end']],
])('%s', (_, text, told) => {
  expect(wanted(readText(text))).toEqual(told);
});
