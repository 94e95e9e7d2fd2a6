import { describe, expect, test } from 'vitest';
import type { Case, Oracle } from './index.ts';
import { light, type Small, small } from './small.ts';

/** The modes that the sequence can be in, case by case over the names: "OFF: a b". */
function modes(oracle: Oracle, names: readonly string[], sequence = 'run'): string[] {
  const fit = oracle.fits[0]!;
  const found = new Map<string, string[]>();
  for (const given of oracle.cases(fit, [...names, sequence])) {
    const key = names.map((name) => given[name]).join(' ');
    found.set(key, [...(found.get(key) ?? []), given[sequence]!]);
  }
  return [...found].map(([key, all]) => `${key}: ${all.join(' ')}`);
}

/** One sequence `run` that begins in the first of its modes. */
function sequence(transitions: readonly string[], more = '', parts: Small = {}): Oracle {
  const ids = ['a', 'b', 'c'];
  const list = transitions.map((one) => `      - { ${one} }`).join('\n');
  const all = ids.map((id) => `${id}: { says: in ${id} }`).join(', ');
  return small({
    ...parts,
    panel: `sequences:\n  run:\n    title: Run\n    initial: a\n    modes: { ${all} }\n${more}    transitions:\n${list}\n${parts.panel ?? ''}`,
  });
}

describe('modes that a run reaches', () => {
  test('by transitions that are taken at once', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH', 'from: b, to: a, when: knob is OFF']);
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a', 'LOW: a b', 'HIGH: b']);
    expect(oracle.canHappen(oracle.fits[0]!, { knob: 'HIGH', run: 'a' })).toBe(false);
  });

  test('by delays that may be over or not', () => {
    const oracle = sequence([
      'from: a, to: b, when: knob is HIGH',
      'from: b, to: c, after: 5 s',
      'from: [b, c], to: a, when: knob is not HIGH',
    ]);
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a', 'LOW: a', 'HIGH: b c']);
  });

  test('by guards that may have held long enough or not', () => {
    expect(modes(sequence(['from: a, to: b, when: knob is HIGH for 2 s']), ['knob'])).toEqual([
      'OFF: a b',
      'LOW: a b',
      'HIGH: a b',
    ]);
  });

  test('by events that may have happened in the mode', () => {
    const back = 'from: b, to: a, when: knob is OFF';
    expect(modes(sequence(['from: a, to: b, since: knob is HIGH, delay: 2 s', back]), ['knob'])).toEqual([
      'OFF: a',
      'LOW: a b',
      'HIGH: a b',
    ]);
    const guarded = ['from: a, to: b, when: knob is LOW, since: knob is HIGH, delay: 2 s', back];
    expect(modes(sequence(guarded), ['knob'])).toEqual(['OFF: a', 'LOW: a b', 'HIGH: a b']);
  });

  test('not by an event that ends the mode', () => {
    const oracle = sequence([
      'from: a, to: c, when: knob is HIGH',
      'from: a, to: b, since: knob is HIGH, delay: 2 s',
      'from: c, to: a, when: knob is OFF',
    ]);
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a', 'LOW: a c', 'HIGH: c']);
  });

  test('by a delay that was over when a later transition became due', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH, after: 5 s', 'from: a, to: c, when: knob is HIGH']);
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a b c', 'LOW: a b c', 'HIGH: b c']);
    const other = sequence(['from: a, to: c, when: knob is HIGH', 'from: a, to: b, when: knob is HIGH, after: 5 s']);
    expect(modes(other, ['knob'])).toEqual(['OFF: a c', 'LOW: a c', 'HIGH: c']);
  });

  test('by stores at any level that they can have', () => {
    const stores = '    stores: { charge: { title: Charge, unit: min, capacity: 12, start: 12 } }\n';
    const to = (when: string): Oracle => sequence([`from: a, to: b, when: ${when}`], stores);
    expect(modes(to('charge <= 0 min and knob is HIGH'), ['knob'])).toEqual(['OFF: a b', 'LOW: a b', 'HIGH: a b']);
    expect(modes(to('charge > 12 min'), ['knob'])).toEqual(['OFF: a', 'LOW: a', 'HIGH: a']);
    expect(modes(to('charge > 3 min and charge < 4 min'), [])).toEqual([': a b']);
  });

  test('not by what never happens', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH and bus is lost'], '', {
      never: '- knob is HIGH and bus is lost',
    });
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a', 'LOW: a', 'HIGH: a']);
  });

  test('by steps of a number that nothing tells apart', () => {
    const oracle = sequence(['from: a, to: b, when: speed > 30 kt', 'from: b, to: a, when: speed < 20 kt'], '', {
      conditions: 'speed: { title: Speed, number: { unit: kt, from: 0, to: 100, step: 1 } }',
    });
    const can = (speed: string): string =>
      ['a', 'b', 'c'].filter((run) => oracle.canHappen(oracle.fits[0]!, { speed, run })).join('');
    expect(['0', '19', '20', '27', '30', '31', '77'].map(can)).toEqual(['a', 'a', 'ab', 'ab', 'ab', 'b', 'b']);
  });

  test('through items, signals and other sequences', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH', 'from: b, to: a, when: knob is OFF'], '', {
      signals: 'burning: { title: Burning, when: lamp is lit }',
      items: light('lamp', ['when: run is b, then: lit', 'otherwise: dark']),
      panel: `  follow:
    title: Follow
    initial: idle
    modes: { idle: { says: idle }, busy: { says: busy } }
    transitions:
      - { from: idle, to: busy, when: burning }
      - { from: busy, to: idle, when: not burning }`,
    });
    expect(modes(oracle, ['knob', 'run'], 'follow')).toEqual([
      'OFF a: idle',
      'LOW a: idle',
      'LOW b: busy',
      'HIGH b: busy',
    ]);
    expect(oracle.variables('lamp', 'lamp')).toEqual(['run']);
  });

  test('of a sequence that reads another, only by modes that the other reaches', () => {
    const oracle = sequence(
      ['from: a, to: b, when: knob is HIGH', 'from: b, to: c, when: knob is OFF and knob is HIGH'],
      '',
      {
        panel: 'latches:\n  follow: { title: Follow, set: run is c, reset: never }',
      },
    );
    expect(modes(oracle, ['knob'], 'follow')).toEqual(['OFF: reset', 'LOW: reset', 'HIGH: reset']);
  });

  test('are none where it never comes to rest', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH', 'from: b, to: a, when: always']);
    expect(modes(oracle, ['knob'])).toEqual(['OFF: a', 'LOW: a']);
  });

  test('are not reached by what a quiet override shows', () => {
    const trip =
      'trip:\n  kind: annunciator\n  title: T\n  rules: [{ when: bus is lost, then: lit }, { otherwise: dark }]\n';
    const reading = (quiet: boolean): Oracle =>
      sequence(['from: a, to: b, when: trip is lit'], '', {
        conditions: 'bus: { title: Bus, values: { powered: {}, lost: {} } }',
        never: '- bus is lost',
        items: trip,
        files: {
          'overrides.yaml': `- { id: check, title: C, scope: { items: [trip] }, when: knob is HIGH, then: lit, quiet: ${quiet} }`,
        },
      });
    expect(modes(reading(true), ['knob'])).toEqual(['OFF: a', 'LOW: a', 'HIGH: a']);
    expect(modes(reading(false), ['knob'])).toEqual(['OFF: a b', 'LOW: a b', 'HIGH: b']);
  });
});

describe('latches', () => {
  const latch = (set: string, reset: string, wins: string): Oracle =>
    small({ panel: `latches:\n  run: { title: Run, set: ${set}, reset: ${reset}, wins: ${wins} }` });

  test('hold their last state', () => {
    expect(modes(latch('knob is HIGH', 'knob is OFF', 'set'), ['knob'])).toEqual([
      'OFF: reset',
      'LOW: reset set',
      'HIGH: set',
    ]);
  });

  test.each([
    ['set', 'LOW: set'],
    ['reset', 'LOW: reset'],
  ])('let %s win where both hold', (wins, expected) => {
    expect(modes(latch('knob is not OFF', 'knob is not HIGH', wins), ['knob'])[1]).toBe(expected);
  });
});

test('modes are columns, and some are normal', () => {
  const oracle = sequence(['from: a, to: b, when: knob is HIGH'], '    normal: b\n', {
    items: light('lamp', ['when: run is b and bus is lost, then: lit', 'otherwise: dark']),
  });
  const cases = [...oracle.cases(oracle.fits[0]!, oracle.variables('lamp', 'lamp'))].map((given: Case) => ({
    ...given,
  }));
  expect(cases).toHaveLength(4);
  expect([oracle.isNormal({ run: 'b' }), oracle.isNormal({ run: 'a' })]).toEqual([true, false]);
  expect(oracle.counterexample('lamp is lit implies bus is lost')).toBeUndefined();
  expect(oracle.counterexample('run is a or lamp is lit')?.given).toMatchObject({ run: 'b', bus: 'powered' });
});
