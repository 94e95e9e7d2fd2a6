import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { print } from '../../src/language/index.ts';
import { expressions, readText, soundExpression, withoutPlaces } from '../helpers/expressions.ts';

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
