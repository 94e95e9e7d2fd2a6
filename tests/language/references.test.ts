import { expect, test } from 'vitest';
import { readsOf, referencesOf } from '../../src/language/index.ts';
import { readGuardText, soundExpression } from '../helpers/expressions.ts';

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

test('whether a lamp works and what it shows are two references, and several lamps are each of them', () => {
  const lamps = soundExpression(
    'cabin-high or apu is running or position-lights.left is lit or any lamp of position-lights is failed',
  );
  const failures = ['left', 'right', 'tail'].map((attribute) => ({ kind: 'lamp', id: 'position-lights', attribute }));
  expect(referencesOf(lamps)).toEqual([
    { kind: 'detector', id: 'cabin-high' },
    { kind: 'sequence', id: 'apu' },
    { kind: 'item', id: 'position-lights', attribute: 'left' },
    ...failures,
  ]);
  expect(readsOf(soundExpression('fitted(apu) and taxiing'))).toEqual([{ kind: 'signal', id: 'taxiing' }]);
});

test('a guard mentions the stores that it reads', () => {
  const { guard } = readGuardText('start-battery < 3 min and taxiing for 5 s');
  expect(guard && readsOf(guard.when)).toEqual([
    { kind: 'store', id: 'start-battery' },
    { kind: 'signal', id: 'taxiing' },
  ]);
});

test('a constant names nothing', () => {
  expect(referencesOf(soundExpression('always or never'))).toEqual([]);
});
