import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { type Expression, print, readExpression, type Scope } from '../../src/language/index.ts';
import {
  expressions,
  levels,
  readGuardText,
  readText,
  soundExpression,
  sourceOf,
  withoutPlaces,
} from '../helpers/expressions.ts';

test('reading what is printed gives the same expression again', () => {
  fc.assert(
    fc.property(expressions, (expression) => {
      const { expression: again, found } = readText(print(expression));
      expect(found).toEqual([]);
      expect(again && withoutPlaces(again)).toEqual(withoutPlaces(expression));
    }),
    { numRuns: 1000 },
  );
});

test('so does reading a guard, which may also ask for the level of a store', () => {
  fc.assert(
    fc.property(expressions, levels, (expression, level) => {
      const both: Expression = { op: 'and', args: [expression, level], place: level.place };
      const { guard, found } = readGuardText(print(both));
      expect(found).toEqual([]);
      expect(guard && withoutPlaces(guard.when)).toEqual(withoutPlaces(both));
    }),
  );
});

test('every part of what is read has the place of its own words', () => {
  fc.assert(
    fc.property(expressions, (expression) => {
      const again = soundExpression(print(expression));
      const visit = (value: unknown): void => {
        if (typeof value !== 'object' || value === null) return;
        if ('op' in value && 'place' in value) {
          const { place } = value as typeof again;
          const words = place.file.text.slice(place.start, place.end);
          // "is not" is one comparison in the text and two operations in the expression.
          const whole = value.op === 'among' && / not /.test(words) ? { op: 'not', arg: value } : value;
          expect(withoutPlaces(soundExpression(words))).toEqual(withoutPlaces(whole as typeof again));
        }
        // Each lamp of "any lamp of" has the place of the whole statement.
        if ('op' in value && value.op === 'lamps') return;
        for (const [key, part] of Object.entries(value)) if (key !== 'place') visit(part);
      };
      visit(again);
    }),
    { numRuns: 200 },
  );
});

describe('the canonical text', () => {
  test.each([
    ['logo  is not\n ON', 'not logo is ON'],
    ['slats are in', 'slats is in'],
    ['logo in (ON)', 'logo is ON'],
    ['logo is not in (AUTO, ON)', 'not logo in (AUTO, ON)'],
    ['beacon is lit', 'beacon.lamp is lit'],
    ['position-lights is lit', 'position-lights.lamp is lit'],
    ['position-lights.left is failed', 'position-lights.left is failed'],
    ['position-lights.left is not serviceable', 'not position-lights.left is serviceable'],
    ['lamp-check is held', 'lamp-check in (PRESSED, PULLED)'],
    ['lamp-check is released', 'lamp-check is RELEASED'],
    ['lamp-check in (PULLED, released)', 'lamp-check in (RELEASED, PULLED)'],
    ['lamp-check is not in (held, PRESSED)', 'not lamp-check in (PRESSED, PULLED)'],
    ['dc-essential is powered', 'dc-essential.source in (from-dc-bus-1, from-battery)'],
    ['apu is not running', 'not apu is running'],
    ['apu in (starting, running)', 'apu in (starting, running)'],
    ['fitted(apu) and cabin-high', 'fitted(apu) and cabin-high'],
    ['any lamp of position-lights is failed', 'any lamp of position-lights is failed'],
    ['all lamps of position-lights are lit', 'all lamps of position-lights is lit'],
    ['all lamps of position-lights are not lit', 'all lamps of position-lights in (dark, dim)'],
    ['any lamp of position-lights is not serviceable', 'any lamp of position-lights is failed'],
    ['at least 1 lamps of position-lights are in (dim, lit)', 'at least 1 lamp of position-lights in (dim, lit)'],
    ['at most 2 lamps of position-lights are dark', 'at most 2 lamps of position-lights is dark'],
    ['not exactly 3 lamps of position-lights are lit', 'not exactly 3 lamps of position-lights is lit'],
    ['airspeed>240kt', 'airspeed > 240 kt'],
    ['((taxiing)) and (logo is ON or never)', 'taxiing and (logo is ON or never)'],
    ['taxiing and on-ground implies not (always or never)', '(taxiing and on-ground) implies not (always or never)'],
  ])('%s', (text, printed) => expect(print(soundExpression(text))).toBe(printed));
});

describe('how tightly words bind', () => {
  test.each([
    ['not taxiing and on-ground', '(not taxiing) and on-ground'],
    ['not logo is ON', 'not (logo is ON)'],
    ['taxiing or on-ground implies always', '(taxiing or on-ground) implies always'],
    ['taxiing implies not on-ground', 'taxiing implies (not on-ground)'],
  ])('%s', (text, bracketed) =>
    expect(withoutPlaces(soundExpression(text))).toEqual(withoutPlaces(soundExpression(bracketed))),
  );

  test.each([
    ['not taxiing and on-ground', 'not (taxiing and on-ground)'],
    ['taxiing and on-ground implies always', 'taxiing and (on-ground implies always)'],
  ])('"%s" is not "%s"', (text, other) =>
    expect(withoutPlaces(soundExpression(text))).not.toEqual(withoutPlaces(soundExpression(other))),
  );
});

test('"any", "all", "at" and "exactly" are names where no lamps are spoken of', () => {
  const values = ['any', 'all', 'lamp'];
  const names = ['any', 'all', 'at', 'exactly', 'lamp'];
  const scope: Scope = new Map(names.map((id) => [id, { kind: 'condition', id, values }]));
  const read = (text: string): Expression | undefined => readExpression(sourceOf(text), scope, new Diagnostics());
  for (const id of names) {
    expect(read(`${id} is any and ${id} in (all, lamp)`)).toMatchObject({ args: [{ of: { id } }, { of: { id } }] });
  }
});

test('a value is meant where a word stands for a value and for a group', () => {
  const groups = new Map([['held', ['IN', 'OUT']]]);
  const scope: Scope = new Map([['bell', { kind: 'control', id: 'bell', values: ['IN', 'held', 'OUT'], groups }]]);
  const expression = readExpression(sourceOf('bell is held'), scope, new Diagnostics());
  expect(expression).toMatchObject({ values: ['held'] });
});
