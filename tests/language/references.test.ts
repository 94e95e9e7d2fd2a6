import { expect, test } from 'vitest';
import { readsOf, referencesOf } from '../../src/language/index.ts';
import { soundExpression } from '../helpers/expressions.ts';

const expression = soundExpression(
  'fitted(logo.AUTO) and landing.stowage is extended and not (airspeed > 240 kt) implies ' +
    'taxiing or mount is fixed or landing.lamp is lit or landing.stowage is stowed or airspeed < 9 kt or fitted(beacon)',
);

test('references come in order of first mention, each attribute by itself', () => {
  expect(referencesOf(expression)).toEqual([
    { kind: 'control', id: 'logo' },
    { kind: 'item', id: 'landing', attribute: 'stowage' },
    { kind: 'condition', id: 'airspeed' },
    { kind: 'signal', id: 'taxiing' },
    { kind: 'option', id: 'mount' },
    { kind: 'item', id: 'landing', attribute: 'lamp' },
    { kind: 'item', id: 'beacon' },
  ]);
});

test('reads leave out what is only asked to be fitted', () => {
  expect(readsOf(expression).map(({ id }) => id)).toEqual(['landing', 'airspeed', 'taxiing', 'mount', 'landing']);
});

test('a constant names nothing', () => {
  expect(referencesOf(soundExpression('always or never'))).toEqual([]);
});
