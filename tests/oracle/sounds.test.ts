import { describe, expect, test } from 'vitest';
import { type Case, changesOn, soundsOf } from './index.ts';
import { light, type Small, small } from './small.ts';

const heard = (parts: Small, before: Case, after: Case): string => {
  const oracle = small(parts);
  return soundsOf(oracle, oracle.fits[0]!, before, after).join(' ');
};
const sounds = (triggers: string): Small => ({
  items: light('lamp', ['when: knob is HIGH and bus is powered, then: lit', 'otherwise: dark']),
  panel: `sounds:
  chime: { title: Chime, sounds: low chime, triggers: [${triggers}] }
  other: { title: Other, sounds: horn, fitted: grade is full, triggers: [{ moves: knob }] }`,
});
const at = (knob: string, bus = 'powered'): Case => ({ knob, bus });

describe('sounds', () => {
  test('are set off by a movement', () => {
    expect(heard(sounds('{ moves: knob }'), at('OFF'), at('LOW'))).toBe('chime');
    expect(heard(sounds('{ moves: knob }'), at('OFF'), at('OFF', 'lost'))).toBe('');
  });

  test('are set off by a movement from and to certain positions', () => {
    const parts = sounds('{ moves: knob, from: [LOW], to: [OFF, HIGH] }');
    expect(heard(parts, at('LOW'), at('HIGH'))).toBe('chime');
    expect(heard(parts, at('OFF'), at('HIGH'))).toBe('');
    expect(heard(parts, at('HIGH'), at('LOW'))).toBe('');
  });

  test('are set off by what becomes true, whatever moved', () => {
    const parts = sounds('{ becomes: lamp is lit }');
    expect(heard(parts, at('LOW'), at('HIGH'))).toBe('chime');
    expect(heard(parts, at('HIGH', 'lost'), at('HIGH'))).toBe('chime');
    expect(heard(parts, at('HIGH'), at('LOW'))).toBe('');
    expect(heard(sounds('{ becomes: knob is not OFF }'), at('LOW'), at('HIGH'))).toBe('');
  });

  test('are set off only while something holds afterwards', () => {
    const parts = sounds('{ moves: bus, while: lamp is lit }');
    expect(heard(parts, at('HIGH', 'lost'), at('HIGH'))).toBe('chime');
    expect(heard(parts, at('HIGH'), at('HIGH', 'lost'))).toBe('');
  });

  test('need a change that can happen', () => {
    const parts = { ...sounds('{ moves: knob }'), never: '- knob is HIGH and bus is lost' };
    expect(heard(parts, at('LOW', 'lost'), at('HIGH', 'lost'))).toBe('');
    expect(heard(parts, { knob: 'LOW' }, { knob: 'HIGH' })).toBe('chime');
  });

  test('need other things to be able to stay as they are', () => {
    const never = '- knob is HIGH and bus is powered\n- knob is LOW and bus is lost';
    expect(heard({ ...sounds('{ moves: knob }'), never }, { knob: 'LOW' }, { knob: 'HIGH' })).toBe('');
    expect(heard({ ...sounds('{ moves: knob }'), never }, { knob: 'LOW' }, { knob: 'OFF' })).toBe('chime');
  });

  test('are deaf to quiet overrides', () => {
    const files = {
      'overrides.yaml':
        '- { id: check, title: C, scope: { items: [lamp] }, when: bus is lost, then: lit, quiet: true }',
    };
    expect(heard({ ...sounds('{ becomes: lamp is lit }'), files }, at('OFF'), at('OFF', 'lost'))).toBe('');
  });

  test('let a detector answer with its number, and sequences move', () => {
    const parts: Small = {
      conditions: 'speed: { title: Speed, number: { unit: kt, from: 0, to: 20, step: 1 } }',
      detectors: 'fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }',
      panel: `sounds:
  horn: { title: Horn, sounds: horn, triggers: [{ becomes: fast }, { moves: run, to: [set] }] }
latches:
  run: { title: Run, set: knob is HIGH, reset: knob is OFF }`,
    };
    const slow = { speed: '0', fast: 'no' };
    expect(heard(parts, { speed: '9', fast: 'no' }, { speed: '11', fast: 'yes' })).toBe('horn');
    expect(heard(parts, { speed: '9', fast: 'no' }, { speed: '8', fast: 'yes' })).toBe('');
    expect(heard(parts, { ...slow, knob: 'LOW', run: 'reset' }, { ...slow, knob: 'LOW', run: 'set' })).toBe('horn');
    expect(heard(parts, { ...slow, knob: 'OFF', run: 'reset' }, { ...slow, knob: 'OFF', run: 'set' })).toBe('');
  });

  test('know that a detector has one actual point', () => {
    const parts: Small = {
      conditions: 'speed: { title: Speed, number: { unit: kt, from: 0, to: 20, step: 1 } }',
      detectors: `fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }
slow: { title: Slow, trips: speed <= 10 kt, tolerance: 2 }`,
      panel: 'sounds: { horn: { title: Horn, sounds: horn, triggers: [{ moves: speed }] } }',
    };
    const from = { speed: '10', fast: 'yes', slow: 'yes' };
    const rising = { speed: '11', fast: 'yes', slow: 'no' };
    expect(heard(parts, from, rising)).toBe('horn');
    expect(heard(parts, rising, from)).toBe('horn');
    expect(heard(parts, from, { ...rising, fast: 'no' })).toBe('');
    expect(heard(parts, rising, { ...from, fast: 'no', slow: 'no' })).toBe('horn');
    expect(heard(parts, { ...from, slow: 'no' }, { ...rising, slow: 'yes' })).toBe('');
  });

  test('can be asked for every change that can happen', () => {
    const oracle = small({
      conditions: 'level: { title: Level, number: { unit: m, from: 0, to: 2, step: 1 } }',
      detectors: 'high: { title: High, trips: level >= 1 m, tolerance: 1 }',
      never: '- level = 2 m and knob is OFF',
      controls: 'knob: { title: Knob, form: knob, positions: { OFF: {}, ON: {} } }',
    });
    // Not tripped below 0, tripped from 2 on: 0 no, 0 yes, 1 no, 1 yes, 2 yes.
    const all = [...changesOn(oracle, oracle.fits[0]!, ['level', 'knob', 'high'])];
    const written = all.map(({ moved, before, after }) =>
      [moved, ...[before, after].map((one) => Object.values(one).join(' '))].join(': '),
    );
    expect(written.filter((one) => one.startsWith('knob: 0') || one.startsWith('knob: 2'))).toEqual([
      'knob: 0 OFF no: 0 ON no',
      'knob: 0 OFF yes: 0 ON yes',
      'knob: 0 ON no: 0 OFF no',
      'knob: 0 ON yes: 0 OFF yes',
    ]);
    expect(written.filter((one) => one.startsWith('level: 1 OFF') || one.startsWith('level: 0 ON no'))).toEqual([
      'level: 0 ON no: 1 ON no',
      'level: 0 ON no: 1 ON yes',
      'level: 0 ON no: 2 ON yes',
      'level: 1 OFF no: 0 OFF no',
      'level: 1 OFF yes: 0 OFF no',
      'level: 1 OFF yes: 0 OFF yes',
    ]);
  });

  test('are not asked for two movements at once', () => {
    expect(() => heard(sounds('{ moves: knob }'), at('OFF'), at('LOW', 'lost'))).toThrow('not a movement of one thing');
  });
});
