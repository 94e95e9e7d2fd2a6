import { describe, expect, test } from 'vitest';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { type Allowed, readExpression } from '../../src/language/index.ts';
import { readText, scope } from '../helpers/expressions.ts';

/** Each mistake as "CODE words meant". Words that stand at the end of the text are empty. */
function mistakes(text: string, allow?: Allowed): string[] {
  const { expression, found } = readText(text, allow);
  expect(expression === undefined).toBe(found.length > 0);
  return found.map(({ code, place }) => `${code} ${place?.file.text.slice(place.start, place.end)}`);
}

describe('each mistake is reported at the words that it lies in', () => {
  test.each<[text: string, ...found: string[]]>([
    // How it is written.
    ['', 'SL201 '],
    ['   ', 'SL201    '],
    ['logo is ON; gear is extended', 'SL202 ;'],
    ['logo is "ON"', 'SL202 "'],
    ['logo is ON and', 'SL202 '],
    ['and logo is ON', 'SL202 and'],
    ['logo is', 'SL202 '],
    ['logo is and gear is extended', 'SL202 and'],
    ['logo is not', 'SL202 '],
    ['logo ON', 'SL202 ON'],
    ['logo not ON', 'SL202 ON'],
    ['logo is ON ON', 'SL202 ON'],
    ['logo is ON)', 'SL202 )'],
    ['logo in ON', 'SL202 ON'],
    ['logo is in ON', 'SL202 ON'],
    ['logo in ()', 'SL202 )'],
    ['logo in (ON AUTO)', 'SL202 AUTO'],
    ['logo in (ON,)', 'SL202 )'],
    ['landing. is lit', 'SL202 is', 'SL215 landing'],
    ['240 kt > airspeed', 'SL202 240'],
    ['airspeed >', 'SL202 '],
    ['airspeed > and logo is ON', 'SL202 and'],
    ['airspeed > fast', 'SL202 fast'],
    ['fitted', 'SL202 '],
    ['fitted logo', 'SL202 logo'],
    ['fitted()', 'SL202 )'],
    ['(logo is ON', 'SL203 ('],
    ['logo is ON and (gear is extended or (slats are out)', 'SL203 ('],
    ['fitted(logo', 'SL203 ('],
    ['logo is ON and gear is extended or slats are out', 'SL219 or'],
    ['logo is ON or gear is extended and slats are out or taxiing', 'SL219 and'],
    ['taxiing implies on-ground implies logo is ON', 'SL220 implies'],
    // As other languages and word processors write it.
    ['logo != ON', 'SL202 !='],
    ['logo == ON', 'SL202 =='],
    ['logo is ON && taxiing || foo', 'SL202 &&'],
    ['airspeed ≥ 240 kt', 'SL202 ≥'],
    ['airspeed =< 240 kt', 'SL202 =<'],
    ['airspeed > −5 kt', 'SL202 −'],
    ['airspeed > 10,800 kt and foo', 'SL202 10,800', 'SL204 foo'],
    ['airspeed > 240,5 kt', 'SL202 240,5'],
    ['logo is “ON”', 'SL202 “'],
    ['logo in [ON, AUTO]', 'SL202 ['],
    ['NOT taxiing', 'SL202 NOT'],
    ['logo is ON AND taxiing', 'SL202 AND'],
    ['200 < airspeed < 240 kt', 'SL202 200'],
    ['airspeed > 200 < 240 kt', 'SL202 <'],
    // Names.
    ['lgoo is ON', 'SL204 lgoo'],
    ['fitted(lgoo)', 'SL204 lgoo'],
    ['logo', 'SL211 logo'],
    ['logo.AUTO', 'SL211 logo.AUTO'],
    ['landing', 'SL211 landing'],
    ['not gear', 'SL211 gear'],
    ['airspeed', 'SL211 airspeed'],
    ['mount or taxiing', 'SL211 mount'],
    ['fitted(gear)', 'SL212 gear'],
    ['fitted(taxiing)', 'SL212 taxiing'],
    ['logo.ON is ON', 'SL213 ON'],
    ['gear.left is extended', 'SL213 left'],
    ['airspeed.left > 3 kt', 'SL213 left'],
    ['taxiing.now', 'SL213 now'],
    ['fitted(landing.lamp)', 'SL213 lamp'],
    ['landing.stwage is stowed', 'SL214 stwage'],
    ['landing is extended', 'SL215 landing'],
    // Values.
    ['logo is on', 'SL205 on'],
    ['logo is BRIGHT', 'SL205 BRIGHT'],
    ['logo in (ON, OF, AUT)', 'SL205 OF', 'SL205 AUT'],
    ['landing.stowage is lit', 'SL205 lit'],
    ['fitted(logo.DIM)', 'SL205 DIM'],
    ['dome is 3', 'SL205 3'],
    ['logo in (ON, AUTO, ON)', 'SL217 ON'],
    ['taxiing is ON', 'SL208 taxiing'],
    // Numbers.
    ['logo > 3', 'SL206 >'],
    ['logo = ON', 'SL206 ='],
    ['landing > 3 kt', 'SL206 >'],
    ['taxiing >= 3', 'SL206 >='],
    ['airspeed is fast', 'SL207 airspeed'],
    ['airspeed in (1, 2)', 'SL207 airspeed'],
    ['airspeed is 240 kt', 'SL207 airspeed'],
    ['airspeed is above 240 kt', 'SL207 airspeed'],
    ['airspeed is not above 240 kt and lgoo is ON', 'SL207 airspeed', 'SL204 lgoo'],
    ['(airspeed is 240 kt) or foo', 'SL207 airspeed', 'SL204 foo'],
    ['airspeed > 240', 'SL209 240'],
    ['airspeed > 240 and taxiing', 'SL209 240'],
    ['airspeed > 240 ft', 'SL209 ft'],
    ['rotor > 88 kt', 'SL209 kt'],
    ['airspeed > 400 kt', 'SL210 400'],
    ['airspeed < 0 kt', 'SL210 0'],
    ['airspeed < 400.5 kt', 'SL210 400.5'],
    ['airspeed = 401 kt', 'SL210 401'],
    ['rotor > -3 %', 'SL210 -3'],
    ['airspeed = 240.5 kt', 'SL216 240.5'],
    ['rotor = 88.25 %', 'SL216 88.25'],
    // Several at once, each by itself.
    ['foo is ON and bar is X or logo is UP', 'SL219 or', 'SL204 foo', 'SL204 bar', 'SL205 UP'],
    ['logo is UP UP and foo is X', 'SL202 UP', 'SL205 UP', 'SL204 foo'],
    ['logo is UP) and foo is X', 'SL202 )', 'SL205 UP', 'SL204 foo'],
    ['(foo is ON', 'SL203 (', 'SL204 foo'],
    ['foo implies taxiing implies bar', 'SL220 implies', 'SL204 foo', 'SL204 bar'],
    ['(logo ON) and not (airspeed > 9 and foo)', 'SL202 ON', 'SL209 9', 'SL204 foo'],
    ['logo in (ON AUTO) and foo is X', 'SL202 AUTO', 'SL204 foo'],
  ])('%s', (text, ...found) => expect(mistakes(text)).toEqual(found));
});

test.each([
  'slats are in',
  'slats are not in',
  'slats are in and logo is ON',
  '(slats are in)',
  'slats are in implies taxiing',
  'slats in (in, out)',
  'logo in (AUTO, ON)',
  'logo is in (AUTO, ON)',
  'logo is not in (AUTO, ON)',
  'dome is 1 or dome is SET-2',
  'logic is 2',
  'airspeed > 240kt',
  'airspeed>240 kt',
  'rotor >= 88.25 %',
  'rotor >= 88%',
  'rotor = -2.5 %',
  'airspeed = 400 kt',
  'beacon is lit',
  'beacon.lamp is lit',
  'fitted(logo.AUTO) implies not (logo is AUTO)',
  'not not taxiing',
  'always',
])('"%s" is sound', (text) => expect(mistakes(text)).toEqual([]));

describe('hints lead to what was meant', () => {
  test.each([
    ['lgoo is ON', 'logo'],
    ['logo is on', 'ON'],
    ['logo is AUT', 'AUTO'],
    ['landing.stwage is stowed', 'stowage'],
    ['fitted(logo.AUOT)', 'AUTO'],
  ])('%s', (text, nearest) => {
    const [found] = readText(text).found;
    expect(found?.facts).toMatchObject({ nearest });
  });

  test.each([
    ['logo', 'logo is OFF'],
    ['landing', 'landing.lamp is dark'],
    ['landing.stowage', 'landing.stowage is stowed'],
    ['logo.AUTO', 'logo is AUTO'],
    ['beacon', 'beacon is dark'],
    ['airspeed', 'airspeed > 0 kt'],
    ['logo = ON', 'logo is ON'],
    ['logo > 3', 'logo is OFF'],
  ])('the example for "%s" is sound', (text, example) => {
    const [found] = readText(text).found;
    expect(found?.facts).toMatchObject({ example });
    expect(mistakes(example)).toEqual([]);
  });

  test.each([
    ['logo is "ON"', 'without quotation marks'],
    ['logo is ‘ON’', 'without quotation marks'],
    ['logo != ON', '"is not"'],
    ['logo ≠ ON', '"is not"'],
    ['logo == ON', 'Write "is" before a word'],
    ['airspeed =< 240 kt', 'Write "<="'],
    ['airspeed ≥ 240 kt', 'Write ">="'],
    ['taxiing => on-ground', '"implies"'],
    ['taxiing && on-ground', 'Write "and"'],
    ['taxiing AND on-ground', 'Write "and", in lower case'],
    ['NOT taxiing', 'Write "not", in lower case'],
    ['taxiing | on-ground', 'Write "or"'],
    ['logo in [ON]', 'round brackets'],
    ['rotor > −2 %', 'hyphen'],
    ['airspeed > 1,080 kt', 'without separators'],
    ['200 < airspeed', 'Begin with the name'],
    ['airspeed > 200 < 240 kt', 'each limit by itself'],
    ['logo is fitted', '"fitted(logo)"'],
    ['taxiing = true', '"not taxiing"'],
    ['the logo is ON', 'looks like this'],
  ])('%s: %s', (text, words) => {
    expect(toJson(readText(text).found).map(({ hint }) => hint)).toEqual([expect.stringContaining(words)]);
  });

  test.each([
    ['logo is ON or AUTO', 'logo in (ON, AUTO)'],
    ['taxiing and (logo is not ON and OFF)', 'logo is not in (ON, OFF)'],
    ['landing.stowage is stowed or extended', 'landing.stowage in (stowed, extended)'],
    ['beacon is lit or dark', 'beacon in (lit, dark)'],
  ])('a further value, as in "%s", leads to a list', (text, meant) => {
    const { found } = readText(text);
    expect(found.map(({ code, facts }) => [code, facts])).toEqual([['SL204', expect.objectContaining({ meant })]]);
    expect(mistakes(meant)).toEqual([]);
  });

  test.each(['logo is ON or AUT', 'AUTO or logo is ON', 'logo is ON or lit', 'taxiing is ON or AUTO'])(
    'what is no further value, as in "%s", leads to none',
    (text) => {
      const unknown = readText(text).found.find(({ code }) => code === 'SL204');
      expect(unknown?.facts).toMatchObject({ meant: undefined });
    },
  );

  test('a name that may not be read is not proposed', () => {
    const [found] = readText('logicc is 2', { kinds: ['control'], why: 'Only controls.' }).found;
    expect(found?.facts).toMatchObject({ nearest: undefined });
  });
});

test('a restricted expression reads the permitted kinds only', () => {
  const options: Allowed = { kinds: ['option'], why: 'What is fitted depends on options alone.' };
  expect(mistakes('mount is fixed and logic is 2', options)).toEqual([]);
  expect(mistakes('mount is fixed and logo is ON and taxiing and fitted(logo)', options)).toEqual([
    'SL218 logo',
    'SL218 taxiing',
    'SL218 logo',
  ]);
});

test('places follow the offsets of the file, also where the text was folded', () => {
  // As YAML folds it: the line break and the indentation are one space of the text.
  const file = { path: 'claims.yaml', text: 'holds: taxiing implies\r\n    lgoo is ON' };
  const text = 'taxiing implies lgoo is ON';
  const fold = text.indexOf(' lgoo');
  const offset = (index: number): number => 7 + index + (index > fold ? 5 : 0);
  const diagnostics = new Diagnostics();
  readExpression({ text, file, offset }, scope, diagnostics);
  expect(diagnostics.all.map(({ place }) => file.text.slice(place?.start, place?.end))).toEqual(['lgoo']);
});
