import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { type Allowed, readCell, readDuration, readExpression } from '../../src/language/index.ts';
import { readGuardText, readText, scope, sourceOf } from '../helpers/expressions.ts';

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
    ['fitted() and foo', 'SL202 )', 'SL204 foo'],
    ['(fitted() and foo) or bar', 'SL202 )', 'SL204 foo', 'SL204 bar'],
    ['1st-light is lit', 'SL204 1st-light'],
    ['dome is 2nd', 'SL205 2nd'],
    ['dome in (1,3)', 'SL205 3'],
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
    // Groups of values, lamps, detectors and sequences.
    ['lamp-check is hold', 'SL205 hold'],
    ['lamp-check in (held, held)', 'SL217 held'],
    ['fitted(lamp-check.held)', 'SL205 held'],
    ['logo is held', 'SL205 held'],
    ['position-lights.lft is lit', 'SL214 lft'],
    ['position-lights is failed', 'SL205 failed'],
    ['position-lights.left is broken', 'SL205 broken'],
    ['position-lights.left in (dark, failed)', 'SL223 failed'],
    ['position-lights.left in (failed, dark)', 'SL223 dark'],
    ['any lamp of position-lights in (dark, failed)', 'SL223 failed'],
    ['any lamp of positon-lights is failed', 'SL204 positon-lights'],
    ['any lamp of beacon is failed', 'SL224 beacon'],
    ['any lamp of logo is failed', 'SL224 logo'],
    ['any lamp of position-lights.left is failed', 'SL213 left'],
    ['any lamp of position-lights is LIT', 'SL205 LIT'],
    ['any lamp of position-lights', 'SL202 '],
    ['any lamp position-lights is lit', 'SL202 position-lights'],
    ['all lamps of are lit', 'SL202 are'],
    [
      'all lamps of position-lights are not in (dark, dim, lit)',
      'SL230 all lamps of position-lights are not in (dark, dim, lit)',
    ],
    ['at least 4 lamps of position-lights are lit', 'SL225 4'],
    ['at most 0 lamps of position-lights are lit', 'SL225 0'],
    ['exactly 1.5 lamps of position-lights are lit and foo', 'SL225 1.5', 'SL204 foo'],
    ['exactly two lamps of position-lights are lit', 'SL202 two'],
    ['at least two lamps of position-lights are lit and foo', 'SL202 two', 'SL204 foo'],
    ['at least 2 of position-lights are lit', 'SL202 of'],
    ['cabin-high is tripped', 'SL208 cabin-high'],
    ['cabin-high > 3', 'SL206 >'],
    ['cabin-high.now', 'SL213 now'],
    ['fitted(cabin-high)', 'SL212 cabin-high'],
    ['apu', 'SL211 apu'],
    ['apu is runing', 'SL205 runing'],
    ['apu.running is running', 'SL213 running'],
    ['fitted(apu.running)', 'SL213 running'],
    ['apu > 3', 'SL206 >'],
    // Blanks beside a dot.
    ['landing .lamp is lit', 'SL229 landing .lamp'],
    ['landing. lamp is lit and foo', 'SL229 landing. lamp', 'SL204 foo'],
    ['fitted(logo . AUTO)', 'SL229 logo . AUTO'],
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
  'lamp-check is PRESSED and lamp-check is held',
  'position-lights is lit and position-lights.left is failed',
  'position-lights.left in (failed, serviceable)',
  'all lamps of position-lights are lit',
  'exactly 2 lamps of position-lights are not in (dark, dim)',
  'fitted(apu) and apu is running',
  'cabin-high implies not cabin-high',
  'always',
])('"%s" is sound', (text) => expect(mistakes(text)).toEqual([]));

describe('hints lead to what was meant', () => {
  test.each([
    ['lgoo is ON', 'logo'],
    ['logo is on', 'ON'],
    ['logo is AUT', 'AUTO'],
    ['landing.stwage is stowed', 'stowage'],
    ['fitted(logo.AUOT)', 'AUTO'],
    ['lamp-check is hled', 'held'],
    ['dc-essential is powerd', 'powered'],
    ['position-lights.lft is lit', 'left'],
    ['position-lights.left is faild', 'failed'],
    ['any lamp of positon-lights is lit', 'position-lights'],
    ['apu is runing', 'running'],
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
    ['position-lights', 'position-lights is dark'],
    ['position-lights.left', 'position-lights.left is dark'],
    ['apu', 'apu is stopped'],
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
    ['landing.stowage is fitted', '"fitted(landing)"'],
    ['taxiing = true', '"not taxiing"'],
    ['cabin-high = true', 'It is a detector'],
    ['at most 0 lamps of position-lights are lit', '"not any lamp of position-lights is ..."'],
    ['at least 9 lamps of position-lights are lit', 'from 1 to 3'],
    ['landing . lamp is lit', '"landing.lamp"'],
    ['the logo is ON', 'looks like this'],
  ])('%s: %s', (text, words) => {
    expect(toJson(readText(text).found).map(({ hint }) => hint)).toEqual([expect.stringContaining(words)]);
  });

  test.each([
    ['logo is ON or AUTO', 'logo in (ON, AUTO)'],
    ['taxiing and (logo is not ON and OFF)', 'logo is not in (ON, OFF)'],
    ['landing.stowage is stowed or extended', 'landing.stowage in (stowed, extended)'],
    ['beacon is lit or dark', 'beacon in (lit, dark)'],
    ['position-lights is lit or dim', 'position-lights in (lit, dim)'],
    ['lamp-check is RELEASED or held', 'lamp-check in (RELEASED, held)'],
    ['apu is starting or running', 'apu in (starting, running)'],
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

  test('what an attribute is never said to be is told of the attribute', () => {
    expect(toJson(readText('landing.stowage is lit').found)).toMatchObject([
      { message: '"landing.stowage" is never "lit". It can be stowed or extended.' },
    ]);
    expect(toJson(readText('position-lights.left is broken').found)).toMatchObject([
      { message: '"position-lights.left" is never "broken". It can be dark, dim, lit, serviceable or failed.' },
    ]);
  });

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

test.each([
  ['', '""', 8, 8],
  ['   ', '"   "', 8, 11],
])('an expression of nothing ("%s") is marked from its start to its end', (text, written, start, end) => {
  const file = { path: 'claims.yaml', text: `holds: ${written}` };
  // A file has no place before the text begins.
  const offset = (index: number): number => (index < 0 ? Number.NaN : 8 + index);
  const diagnostics = new Diagnostics();
  readExpression({ text, file, offset }, scope, diagnostics);
  expect(diagnostics.all.map(({ code, place }) => [code, place?.start, place?.end])).toEqual([['SL201', start, end]]);
});

describe('what nests too deep is refused, however deep it is', () => {
  test.each([
    ['brackets', (depth: number) => `${'('.repeat(depth)}taxiing${')'.repeat(depth)}`],
    ['"not"', (depth: number) => `${'not '.repeat(depth)}taxiing`],
    ['both', (depth: number) => `${'not ('.repeat(depth / 2)}taxiing${')'.repeat(depth / 2)}`],
  ])('%s', (_what, nested) => {
    expect(mistakes(nested(90))).toEqual([]);
    for (const depth of [110, 100_000]) {
      const { expression, found } = readText(`${nested(depth)} and foo`);
      expect(expression).toBeUndefined();
      expect(found.map(({ code }) => code)).toEqual(['SL231', 'SL204']);
    }
  });

  test('also where the brackets are not closed', () => {
    const codes = readText('('.repeat(100_000)).found.map(({ code }) => code);
    expect(codes[0]).toBe('SL231');
    expect(codes.length).toBeLessThan(110);
  });
});

test('a sign that no expression has is told as such, whatever was wanted there', () => {
  const said = (text: string): unknown => toJson(readText(text).found)[0]?.message;
  expect(said('logo is ;')).toBe('";" stands where a name, a value or a joining word should stand.');
  expect(said('logo is "ON"')).toBe('A quotation mark stands where a name, a value or a joining word should stand.');
  expect(said('logo is )')).not.toContain('a joining word');
});

test('of any words whatever, either all is sound or a mistake is reported', () => {
  const words = fc.constantFrom(
    ...'logo ON position-lights left failed lit apu running cabin-high start-battery airspeed foo 3 2.5 kt min s'.split(
      ' ',
    ),
    ...'and or not implies is are in for fitted always any all at least exactly lamp lamps of ( ) , . > = +/- ; yes'.split(
      ' ',
    ),
  );
  const texts = fc.array(words, { maxLength: 12 }).map((list) => list.join(' '));
  fc.assert(
    fc.property(
      texts,
      fc.constantFrom('logo', 'airspeed', 'position-lights.left', 'cabin-high', 'apu'),
      (text, name) => {
        mistakes(text);
        const { guard, found } = readGuardText(text);
        expect(guard === undefined).toBe(found.length > 0);
        for (const read of [
          (into: Diagnostics) => readCell(name, sourceOf(text), scope, into),
          (into: Diagnostics) => readDuration(sourceOf(text), into),
        ]) {
          const diagnostics = new Diagnostics();
          expect(read(diagnostics) === undefined).toBe(diagnostics.all.length > 0);
        }
      },
    ),
    { numRuns: 2000 },
  );
});
