import { describe, expect, test } from 'vitest';
import { Course, type Oracle, replay } from './index.ts';
import { light, type Small, small } from './small.ts';

const sequence = (transitions: readonly string[], more = '', parts: Small = {}): Oracle =>
  small({
    ...parts,
    panel: `sequences:
  run:
    title: Run
    initial: a
    modes: { a: { says: in a }, b: { says: in b }, c: { says: in c } }
${more}    transitions:
${transitions.map((one) => `      - { ${one} }`).join('\n')}
${parts.panel ?? ''}`,
  });
/** Steps as "0 knob=OFF"; the movements as "2 a>b". */
function moves(oracle: Oracle, steps: readonly string[], until = '100'): string[] {
  const read = steps.map((step) => {
    const [at = '', ...sets] = step.split(' ');
    return { at, sets: new Map(sets.map((one) => one.split('=') as [string, string])) };
  });
  const { movements } = new Course(oracle, oracle.fits[0]!, read, until);
  return movements.map(({ at, sequence: id, from, to }) => `${at}${id === 'run' ? '' : ` ${id}`} ${from}>${to}`);
}

describe('delays', () => {
  test('after: time in the mode, and inputs come before timers', () => {
    const oracle = sequence([
      'from: a, to: b, when: knob is LOW, after: 5 s',
      'from: b, to: c, after: 0.5 min +/- 3 s',
    ]);
    expect(moves(oracle, ['0 knob=LOW'])).toEqual(['5 a>b', '35 b>c']);
    expect(moves(oracle, ['0 knob=LOW', '5 knob=OFF', '9 knob=LOW'])).toEqual(['9 a>b', '39 b>c']);
  });

  const other = (transition: string) => ({
    panel: `  other:
    title: Other
    initial: off
    modes: { off: { says: x }, on: { says: y } }
    transitions: [{ from: off, to: on, ${transition} }]`,
  });

  test('those that are over at the same time all move, even if the first ends what the second waits for', () => {
    const oracle = sequence(['from: a, to: b, after: 3 s'], '', other('when: run is a, after: 3 s'));
    expect(moves(oracle, ['0 knob=LOW'])).toEqual(['3 a>b', '3 other off>on']);
  });

  test('what waits for none goes first, also in a later sequence', () => {
    const oracle = sequence(['from: a, to: b, when: other is off, after: 3 s'], '', other('when: knob is HIGH'));
    expect(moves(oracle, ['0 knob=LOW', '3 knob=HIGH'])).toEqual(['3 other off>on']);
  });

  test('what holds only while no time passes is neither an event nor a break', () => {
    const through = ['from: a, to: b, when: knob is HIGH', 'from: b, to: c, when: knob is HIGH'];
    expect(moves(sequence(through, '', other('since: run is b, delay: 1 s')), ['0 knob=HIGH'])).toEqual([
      '0 a>b',
      '0 b>c',
    ]);
  });

  const held = ['from: a, to: b, when: bus is lost', 'from: b, to: c, when: knob is HIGH for 2 s'];
  const since = ['from: a, to: b, when: bus is lost', 'from: b, to: c, since: knob is HIGH, delay: 2 s'];

  test('for: a break begins it anew', () => {
    const steps = ['0 bus=lost', '10 knob=HIGH', '11 knob=OFF', '11.5 knob=HIGH'];
    expect(moves(sequence(held), steps)).toEqual(['0 a>b', '13.5 b>c']);
  });

  test('for: may have begun before the mode was entered', () => {
    const steps = ['0 knob=HIGH', '1 bus=lost'];
    expect(moves(sequence(held), steps)).toEqual(['1 a>b', '2 b>c']);
    expect(moves(sequence(held), ['0 knob=HIGH', '7 bus=lost'])).toEqual(['7 a>b', '7 b>c']);
  });

  test('since: a break changes nothing, and it counts from the entry at the earliest', () => {
    const steps = ['0 bus=lost', '10 knob=HIGH', '11 knob=OFF', '11.5 knob=HIGH'];
    expect(moves(sequence(since), steps)).toEqual(['0 a>b', '12 b>c']);
    expect(moves(sequence(since), ['0 knob=HIGH', '7 bus=lost'])).toEqual(['7 a>b', '9 b>c']);
  });

  test('since: counts anew when the mode is entered again', () => {
    const oracle = sequence([...since, 'from: b, to: a, when: bus is powered']);
    const steps = ['0 bus=lost', '10 knob=HIGH', '11 bus=powered knob=OFF', '14 bus=lost', '20 knob=HIGH'];
    expect(moves(oracle, steps)).toEqual(['0 a>b', '11 b>a', '14 a>b', '22 b>c']);
  });

  test('since: restarts each time that it becomes true', () => {
    const restarting = since.map((one) => one.replace('2 s', '2 s, restarts: true'));
    const steps = ['0 bus=lost', '10 knob=HIGH', '11 knob=OFF', '11.5 knob=HIGH'];
    expect(moves(sequence(restarting), steps)).toEqual(['0 a>b', '13.5 b>c']);
    expect(moves(sequence(restarting), steps.slice(0, 3))).toEqual(['0 a>b', '12 b>c']);
  });
});

describe('several at once', () => {
  test('the earlier transition has priority, and undelayed ones follow at the same time', () => {
    const oracle = sequence([
      'from: a, to: c, when: knob is HIGH, after: 5 s',
      'from: a, to: b, when: knob is HIGH, after: 5 s',
      'from: c, to: b, when: bus is lost',
    ]);
    expect(moves(oracle, ['0 knob=HIGH', '3 bus=lost'])).toEqual(['5 a>c', '5 c>b']);
  });

  test('sequences see each other through items at once', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH', 'from: b, to: c, when: other is set'], '', {
      items: light('lamp', ['when: run is b, then: lit', 'otherwise: dark']),
      panel: 'latches:\n  other: { title: Other, set: lamp is lit, reset: knob is OFF }',
    });
    expect(moves(oracle, ['0 knob=OFF', '4 knob=HIGH'])).toEqual(['4 a>b', '4 other reset>set', '4 b>c']);
  });

  test('what never comes to rest is refused', () => {
    const oracle = sequence(['from: a, to: b, when: always', 'from: b, to: a, when: always']);
    expect(() => moves(oracle, ['0 knob=OFF'])).toThrow('never comes to rest');
  });
});

describe('stores', () => {
  const stores = `    stores:
      charge: { title: Charge, unit: min, capacity: 12, start: 6,
        fills: [{ when: bus is powered, per-minute: 0.5 }], drains: [{ when: run is b, per-minute: 1.5 }] }
`;
  test('drain and fill at their rates, exactly', () => {
    const oracle = sequence(['from: a, to: b, when: knob is HIGH', 'from: b, to: c, when: charge <= 0 min'], stores);
    // Filled for 60 s: 6.5. Then 1 a minute less: 390 s.
    expect(moves(oracle, ['0 knob=OFF', '60 knob=HIGH'], '1000')).toEqual(['60 a>b', '450 b>c']);
    // Unpowered from 120 s, at 5.5: 1.5 a minute less: 220 s.
    expect(moves(oracle, ['0 knob=OFF', '60 knob=HIGH', '120 bus=lost'], '1000')).toEqual(['60 a>b', '340 b>c']);
  });

  test('stop when they are full', () => {
    const oracle = sequence(
      ['from: a, to: b, when: charge >= 12 min and knob is HIGH', 'from: b, to: c, when: charge < 11 min'],
      stores,
    );
    // Full at 720 s. Emptied by 1 a minute from 900 s on.
    expect(moves(oracle, ['0 knob=OFF', '900 knob=HIGH'], '1000')).toEqual(['900 a>b', '960 b>c']);
  });

  test('are set on entry, and never reach what they stop before', () => {
    const setting = sequence(
      [
        'from: a, to: b, when: knob is HIGH',
        'from: b, to: c, when: charge <= 0 min',
        'from: [a, c], to: b, when: charge > 12 min',
      ],
      stores.replace('stores:', 'stores:'),
      {},
    );
    expect(moves(setting, ['0 knob=OFF'], '5000')).toEqual([]);
    const entered = small({
      panel: `sequences:
  run:
    title: Run
    initial: a
    modes: { a: { says: a }, b: { says: b, sets: { charge: 1.5 } }, c: { says: c } }
    stores: { charge: { title: C, unit: min, capacity: 12, start: 12, drains: [{ when: run is b, per-minute: 3 }] } }
    transitions:
      - { from: a, to: b, when: knob is HIGH }
      - { from: b, to: c, when: charge <= 0.5 min }`,
    });
    expect(moves(entered, ['0 knob=OFF', '10 knob=HIGH'])).toEqual(['10 a>b', '30 b>c']);
  });
});

describe('a timeline of the content', () => {
  const oracle = sequence(['from: a, to: b, when: fast and knob is HIGH', 'from: b, to: a, when: button is held'], '', {
    conditions: `speed: { title: Speed, number: { unit: kt, from: 5, to: 20, step: 1 } }
bus: { title: Bus, normal: powered, values: { lost: {}, powered: {} } }`,
    detectors: 'fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }',
    controls: `knob: { title: Knob, form: knob, positions: { OFF: {}, HIGH: {} } }
button: { title: Button, form: push-button, positions: { IN: { returns: OUT }, OUT: {} } }`,
    items:
      light('lamp', ['when: run is b, then: lit', 'otherwise: dark']) +
      'wing:\n  kind: light\n  title: Wing\n  rules: [{ otherwise: lit }]\n  lamps: { left: { title: left } }\n',
    files: {
      'timelines.yaml': `
start:
  title: Start
  on: "1"
  steps:
    - { at: 0 s, set: { speed: 9 kt } }
    - { at: 10 s, set: { knob: HIGH } }
    - { at: 20 s, set: { speed: 11 kt, wing.left: failed } }
    - { at: 0.5 min, set: { button: IN, fast: no } }
  until: 40 s
  expect: [{ at: 20 s, holds: run is b }]`,
    },
  });

  test('begins with normal values, resting positions and the lowest numbers', () => {
    const course = replay(oracle, 'start');
    expect(course.caseAt('0')).toEqual({
      speed: '9',
      bus: 'powered',
      knob: 'OFF',
      button: 'OUT',
      fast: 'no',
      'wing.left': 'serviceable',
      run: 'a',
    });
  });

  test('gives modes and states at any time, with what changes at that very time', () => {
    const course = replay(oracle, 'start');
    expect(['19.9', '20', '30'].map((at) => course.modeAt('run', at))).toEqual(['a', 'b', 'a']);
    expect(['19.9', '20', '30'].map((at) => course.stateAt('lamp', 'lamp', at))).toEqual(['dark', 'lit', 'dark']);
    expect([course.stateAt('wing', 'left', '19'), course.stateAt('wing', 'left', '21')]).toEqual(['lit', 'dark']);
    expect(oracle.content.timelines.get('start')?.expects.map(({ at, holds }) => course.holdsAt(holds, at))).toEqual([
      true,
    ]);
  });
});
