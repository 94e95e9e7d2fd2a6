import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagnostics, toJson } from '../../src/diagnostics/index.ts';
import { type Allowed, type Expression, print, readCell } from '../../src/language/index.ts';
import { expressions, scope, soundExpression, sourceOf, withoutPlaces } from '../helpers/expressions.ts';

function read(
  name: string,
  text: string,
  allow?: Allowed,
): { cell: Expression | undefined; found: Diagnostics['all'] } {
  const diagnostics = new Diagnostics();
  const cell = readCell(name, sourceOf(text), scope, diagnostics, allow);
  expect(cell === undefined).toBe(diagnostics.all.length > 0);
  return { cell, found: diagnostics.all };
}

describe('a cell says what follows the name of its column', () => {
  test.each([
    ['logo', 'ON', 'logo is ON'],
    ['logo', 'not ON', 'logo is not ON'],
    ['logo', 'ON, AUTO', 'logo in (ON, AUTO)'],
    ['logo', '  not ON,AUTO ', 'logo is not in (ON, AUTO)'],
    ['dome', '1', 'dome is 1'],
    ['dome', '1, SET-2', 'dome in (1, SET-2)'],
    ['slats', 'in', 'slats are in'],
    ['slats', 'not in', 'slats are not in'],
    ['airspeed', '> 240 kt', 'airspeed > 240 kt'],
    ['rotor', '<=88.5%', 'rotor <= 88.5 %'],
    ['lamp-check', 'held', 'lamp-check is held'],
    ['beacon', 'lit', 'beacon is lit'],
    ['landing.stowage', 'stowed', 'landing.stowage is stowed'],
    ['position-lights', 'lit, dim', 'position-lights.lamp in (lit, dim)'],
    ['position-lights.left', 'lit', 'position-lights.left is lit'],
    ['position-lights.left', 'not failed', 'position-lights.left is not failed'],
    ['apu', 'starting, running', 'apu in (starting, running)'],
    ['cabin-high', 'yes', 'cabin-high'],
    ['cabin-high', 'no', 'not cabin-high'],
    ['taxiing', 'no', 'not taxiing'],
  ])('%s: %s', (name, text, expression) => {
    const { cell } = read(name, text);
    expect(cell && withoutPlaces(cell)).toEqual(withoutPlaces(soundExpression(expression)));
    expect(text.slice(cell?.place.start, cell?.place.end)).toBe(text.trim());
  });
});

test('a comparison cut off behind its name is a cell that means the same', () => {
  const comparisons = expressions.filter(({ op }) => op === 'among' || op === 'compare');
  fc.assert(
    fc.property(comparisons, (comparison) => {
      const [, name = '', rest = ''] = /^(\S+) (.*)$/.exec(print(comparison)) ?? [];
      const { cell } = read(name, rest.replace(/^is /, '').replace(/^in \((.*)\)$/, '$1'));
      expect(cell && withoutPlaces(cell)).toEqual(withoutPlaces(comparison));
    }),
  );
});

describe('each mistake is reported in the cell', () => {
  test.each<[name: string, text: string, ...found: string[]]>([
    ['logo', ' ', 'SL201  '],
    ['logo', 'OFN', 'SL205 OFN'],
    ['logo', 'ON, UP', 'SL205 UP'],
    ['logo', 'ON, ON', 'SL217 ON'],
    ['logo', 'ON,', 'SL202 '],
    ['logo', 'not', 'SL202 '],
    ['logo', 'ON or AUTO', 'SL202 or'],
    ['logo', 'is ON', 'SL202 is'],
    ['logo', 'in (ON, AUTO)', 'SL202 ('],
    ['logo', '"ON"', 'SL202 "'],
    ['logo', '> 3', 'SL206 >'],
    ['logo', '>', 'SL202 '],
    ['airspeed', '240 kt', 'SL202 kt'],
    ['airspeed', '240', 'SL207 240'],
    ['airspeed', '> 240', 'SL209 240'],
    ['airspeed', '> 240 ft', 'SL209 ft'],
    ['airspeed', '>', 'SL202 '],
    ['airspeed', '> 200 kt, < 240 kt', 'SL202 ,'],
    ['airspeed', '> 400 kt', 'SL210 400'],
    ['landing', 'stowed', 'SL215 stowed'],
    ['position-lights.left', 'lit, failed', 'SL223 failed'],
    ['cabin-high', 'tripped', 'SL232 tripped'],
    ['cabin-high', 'not yes', 'SL232 not yes'],
    ['taxiing', 'yes, no', 'SL232 yes, no'],
    ['taxiing', 'YES', 'SL232 YES'],
    ['start-battery', '> 3 min', 'SL222 > 3 min'],
  ])('%s: "%s"', (name, text, ...mistakes) => {
    const { found } = read(name, text);
    expect(found.map(({ code, place }) => `${code} ${text.slice(place?.start, place?.end)}`)).toEqual(mistakes);
  });

  test('also where the kind of the column may not be read', () => {
    const options: Allowed = { kinds: ['option'], why: 'Only options.' };
    expect(toJson(read('logo', 'ON', options).found)).toMatchObject([
      { code: 'SL218', message: '"logo" is a control. Only options.' },
    ]);
    expect(toJson(read('taxiing', 'no', options).found)).toMatchObject([
      { code: 'SL218', message: '"taxiing" is a signal. Only options.' },
    ]);
  });
});

test.each([
  ['logo', 'is ON', 'by themselves'],
  ['logo', 'in (ON, AUTO)', 'by themselves'],
  ['logo', 'ON or AUTO', 'by commas'],
  ['airspeed', '> 200 kt, < 240 kt', 'a signal'],
  ['airspeed', '240 kt', 'look like these'],
  ['logo', '“ON”', 'quotation marks'],
])('the hint on %s: "%s" leads to what was meant', (name, text, words) => {
  expect(toJson(read(name, text).found).map(({ hint }) => hint)).toEqual([expect.stringContaining(words)]);
});
