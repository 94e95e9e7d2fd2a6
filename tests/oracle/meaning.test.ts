import { describe, expect, test } from 'vitest';
import type { Case, Oracle, Outcome } from './index.ts';
import { light, small } from './small.ts';

const seen = (oracle: Oracle, item: string, given: Case, attribute = 'lamp'): readonly (Outcome | 'not-fitted')[] =>
  oracle.behaviour(oracle.fits[0]!, item, attribute, given).outcomes;
const speed = 'speed:\n  title: Speed\n  number: { unit: kt, from: 0, to: 20, step: 1 }';

describe('detectors', () => {
  const detectors = `fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }
faster: { title: Faster, trips: speed > 14 kt, tolerance: 3 }`;
  const items =
    light('lamp', ['when: fast, then: lit', 'otherwise: dark']) +
    light('same', ['when: lamp is lit and not fast, then: lit', 'otherwise: dark']) +
    light('odd', ['when: faster and not fast, then: lit', 'otherwise: dark']);

  test('may answer either way within their tolerance', () => {
    const oracle = small({ conditions: speed, detectors, items });
    expect(oracle.variables('lamp', 'lamp')).toEqual(['speed']);
    expect(oracle.ownVariables('lamp', 'lamp')).toEqual(['speed']);
    expect(['8', '9', '12', '13'].map((at) => seen(oracle, 'lamp', { speed: at }).join())).toEqual([
      'dark',
      'dark,lit',
      'dark,lit',
      'lit',
    ]);
  });

  test('answer the same to all that read them', () => {
    expect(seen(small({ conditions: speed, detectors, items }), 'same', { speed: '11' })).toEqual(['dark']);
  });

  test('are independent unless they trip in order', () => {
    const free = small({ conditions: speed, detectors, items });
    const ordered = small({ conditions: speed, detectors, items, inOrder: '- [fast, faster]' });
    expect(seen(free, 'odd', { speed: '12' })).toEqual(['dark', 'lit']);
    expect(seen(ordered, 'odd', { speed: '12' })).toEqual(['dark']);
  });

  test('take part in what never happens', () => {
    const oracle = small({ conditions: speed, detectors, items, never: '- fast and knob is OFF' });
    expect(seen(oracle, 'lamp', { speed: '12', knob: 'OFF' })).toEqual(['dark']);
    expect(seen(oracle, 'lamp', { speed: '13', knob: 'OFF' })).toEqual([]);
    expect(seen(oracle, 'lamp', { speed: '13', knob: 'LOW' })).toEqual(['lit']);
  });

  test.each([
    ['>', '8 no, 9 either, 12 either, 13 yes'],
    ['>=', '7 no, 8 either, 11 either, 12 yes'],
    ['<', '7 yes, 8 either, 11 either, 12 no'],
    ['<=', '8 yes, 9 either, 12 either, 13 no'],
  ])('that trip %s 10 have their ends as the guide says: %s', (by, expected) => {
    const oracle = small({ conditions: speed, detectors: `d: { title: D, trips: speed ${by} 10 kt, tolerance: 2 }` });
    const can = (at: string, d: string): boolean => oracle.canHappen(oracle.fits[0]!, { speed: at, d });
    const said = expected.split(', ').map((one) => {
      const at = one.split(' ')[0]!;
      return `${at} ${can(at, 'no') && can(at, 'yes') ? 'either' : can(at, 'yes') ? 'yes' : 'no'}`;
    });
    expect(said.join(', ')).toBe(expected);
  });
});

describe('lamps', () => {
  const oracle = small({
    items:
      `wing:
  kind: light
  title: Wing
  rules:
    - { when: knob is not OFF, then: lit }
    - otherwise: dark
  lamps:
    left: { title: left, supply: [bus] }
    right: { title: right, when: wing.left is failed }
    spare: { title: spare, rules: [{ when: knob is HIGH, then: lit }, { otherwise: dark }] }
` +
      light('some', ['when: any lamp of wing is lit, then: lit', 'otherwise: dark']) +
      light('two', ['when: at least 2 lamps of wing are lit, then: lit', 'otherwise: dark']) +
      light('none', ['when: all lamps of wing are failed, then: lit', 'otherwise: dark']) +
      light('one', [
        'when: at most 1 lamp of wing is lit and any lamp of wing is not lit, then: lit',
        'otherwise: dark',
      ]),
    conditions: 'bus: { title: Bus, normal: powered, values: { powered: {}, lost: {} } }',
  });
  const fine = {
    knob: 'LOW',
    bus: 'powered',
    'wing.left': 'serviceable',
    'wing.right': 'serviceable',
    'wing.spare': 'serviceable',
  };
  const lamps = (given: Case): string =>
    ['lamp', 'left', 'right', 'spare'].map((lamp) => seen(oracle, 'wing', { ...fine, ...given }, lamp)).join(' ');

  test('do as the light is driven, unless failed, unfed or held back', () => {
    expect(lamps({})).toBe('lit lit dark dark');
    expect(lamps({ bus: 'lost' })).toBe('lit dark dark dark');
    expect(lamps({ 'wing.left': 'failed' })).toBe('lit dark lit dark');
    expect(lamps({ 'wing.left': 'failed', 'wing.right': 'failed' })).toBe('lit dark dark dark');
    expect(lamps({ knob: 'OFF', 'wing.left': 'failed' })).toBe('dark dark dark dark');
  });

  test('may have rules of their own', () => {
    expect(lamps({ knob: 'HIGH' })).toBe('lit lit dark lit');
    expect(lamps({ knob: 'HIGH', 'wing.spare': 'failed' })).toBe('lit lit dark dark');
  });

  test('are read together', () => {
    const all = (given: Case): string =>
      ['some', 'two', 'none'].map((id) => seen(oracle, id, { ...fine, ...given })).join(' ');
    expect(all({})).toBe('lit dark dark');
    expect(all({ knob: 'HIGH' })).toBe('lit lit dark');
    expect(all({ 'wing.left': 'failed', 'wing.right': 'failed' })).toBe('dark dark dark');
    const one = (knob: string) => seen(oracle, 'one', { ...fine, knob }).join();
    expect([one('OFF'), one('LOW'), one('HIGH')]).toEqual(['lit', 'lit', 'dark']);
    expect(seen(oracle, 'one', { ...fine, knob: 'OFF', 'wing.left': 'failed' })).toEqual(['lit']);
    expect(all({ 'wing.left': 'failed', 'wing.right': 'failed', 'wing.spare': 'failed' })).toBe('dark dark lit');
  });

  test('are columns, and normally work', () => {
    expect(oracle.variables('wing', 'right')).toEqual(['knob', 'wing.left', 'wing.right']);
    expect(oracle.isNormal(fine)).toBe(true);
    expect(oracle.isNormal({ ...fine, 'wing.left': 'failed' })).toBe(false);
  });
});

describe('what is not stated', () => {
  const oracle = small({
    items:
      light('lamp', ['when: knob is HIGH, then: not stated, query: Q-1', 'otherwise: dark']) +
      light('reader', ['when: lamp is lit and bus is powered, then: lit', 'otherwise: dark']) +
      light('certain', ['when: reader is lit or lamp is dark or bus is lost, then: lit', 'otherwise: dark']) +
      light('clash', [
        'when: knob is HIGH, then: not stated, query: Q-1',
        'when: bus is powered, then: lit',
        'otherwise: dark',
      ]),
  });
  const at = (item: string, knob: string, bus: string) => seen(oracle, item, { knob, bus });

  test('is an outcome of its own', () => {
    expect(at('lamp', 'HIGH', 'powered')).toEqual([{ notStated: 'Q-1' }]);
    expect(at('lamp', 'LOW', 'powered')).toEqual(['dark']);
  });

  test('spreads to an item whose state hangs on the answer, and no further', () => {
    expect(at('reader', 'HIGH', 'powered')).toEqual([{ notStated: 'Q-1' }]);
    expect(at('reader', 'HIGH', 'lost')).toEqual(['dark']);
    // With the answer "lit" the reader is lit, with "dark" the lamp is dark.
    expect(at('certain', 'HIGH', 'powered')).toEqual(['lit']);
  });

  test('is at odds with a state under any', () => {
    expect(at('clash', 'HIGH', 'powered')).toEqual([{ conflict: [0, 1] }]);
  });

  test('refutes a claim that only one answer makes true', () => {
    expect(oracle.holds('reader is dark')).toBe(false);
    expect(oracle.holds('reader is not lit')).toBe(false);
    expect(oracle.holds('bus is lost implies reader is dark')).toBe(true);
  });
});

test('rules may stand in a table', () => {
  const oracle = small({
    conditions: `${speed}\nbus: { title: Bus, values: { powered: {}, lost: {} } }`,
    signals: 'live: { title: Live, when: bus is powered }',
    items: 'lamp:\n  kind: light\n  title: Lamp\n  policy: first\n  rules: { table: lamp.csv }\n',
    files: {
      'tables/lamp.csv':
        'knob,live,speed,then,query\nHIGH,no,,not stated,Q-1\n"OFF, LOW",-,,dark,\nnot OFF,yes,> 5 kt,lit,\n,,,dark,\n',
    },
  });
  const at = (knob: string, bus: string, fast: string) => seen(oracle, 'lamp', { knob, bus, speed: fast });
  expect(at('HIGH', 'lost', '9')).toEqual([{ notStated: 'Q-1' }]);
  expect(at('LOW', 'powered', '9')).toEqual(['dark']);
  expect(at('HIGH', 'powered', '6')).toEqual(['lit']);
  expect(at('HIGH', 'powered', '5')).toEqual(['dark']);
});

test('a supply is fed by the first of its feeders that can', () => {
  const oracle = small({
    conditions: `bus: { title: Bus, normal: powered, values: { powered: {}, lost: {} } }
fault: { title: Fault, values: { absent: {}, present: {} } }`,
    panel: `supplies:
  main: { title: Main, fed: [{ from: bus, when: knob is not OFF }] }
  essential:
    title: Essential
    fed: [{ from: main }, { from: bus, when: knob is OFF }]
    unless: fault is present`,
    items: light('lamp', ['when: essential is powered, then: lit', 'when: essential is lost, then: dark']),
  });
  const at = (bus: string, fault: string, knob: string): string =>
    [seen(oracle, 'essential', { bus, fault, knob }, 'source'), seen(oracle, 'lamp', { bus, fault, knob })].join(' ');
  expect(at('powered', 'absent', 'LOW')).toBe('from-main lit');
  expect(at('powered', 'absent', 'OFF')).toBe('from-bus lit');
  expect(at('lost', 'absent', 'LOW')).toBe('lost dark');
  expect(at('powered', 'present', 'LOW')).toBe('lost dark');
  const states = oracle.content.items.get('essential')?.attributes.get('source')?.states;
  expect([...(states?.values() ?? [])].map(({ title }) => title)).toEqual(['from main', 'from bus', 'lost']);
});

test('a supply is named after its feeders, whose abbreviations stay in capitals', () => {
  const { content } = small({
    conditions: 'alternator: { title: APU alternator, normal: running, values: { running: {}, stopped: {} } }',
    panel: 'supplies: { main: { title: Main, fed: [{ from: alternator }] } }',
  });
  expect(content.items.get('main')?.attributes.get('source')?.states.get('from-alternator')?.title).toBe(
    'from APU alternator',
  );
});

describe('overrides', () => {
  const controls = `check: { title: Check, form: push-button, positions: { OUT: {}, IN: { returns: OUT } } }
knob: { title: Knob, form: knob, positions: { OFF: {}, HIGH: {} } }`;
  const oracle = small({
    controls,
    signals: 'trip-lit: { title: Trip lit, when: trip is lit }',
    items: `trip:
  kind: annunciator
  title: Trip
  zone: deck
  rules: [{ when: knob is HIGH, then: lit }, { otherwise: dark }]
away:
  kind: annunciator
  title: Away
  rules: [{ when: bus is lost, then: dark, in-every-case: true }, { otherwise: dark }]
spared:
  kind: annunciator
  title: Spared
  rules: [{ otherwise: dark }]
${light('follower', ['when: trip-lit, then: lit', 'otherwise: dark'])}
${light('direct', ['when: trip is lit, then: lit', 'otherwise: dark'])}`,
    panel: `messages:
  by-item: { title: A, text: A, class: caution, when: trip is lit }
  by-signal: { title: B, text: B, class: caution, when: trip-lit }
  by-light: { title: C, text: C, class: caution, when: follower is lit }`,
    files: {
      'overrides.yaml': `
- { id: dead, title: Dead, scope: { zones: [deck] }, when: bus is lost, then: dark }
- { id: checked, title: Checked, scope: { kinds: [annunciator], except: [spared] }, when: check is held, then: lit, quiet: true }`,
    },
  });
  const at = (item: string, given: Case, attribute = 'lamp'): string =>
    seen(oracle, item, { knob: 'OFF', bus: 'powered', ...given }, attribute).join();

  test('stand above the rules, the first that holds above the others', () => {
    expect(at('trip', { check: 'OUT' })).toBe('dark');
    expect(at('trip', { check: 'IN' })).toBe('lit');
    expect(at('trip', { check: 'IN', bus: 'lost' })).toBe('dark');
    expect(at('away', { check: 'IN', bus: 'lost' })).toBe('lit');
    expect(at('spared', { check: 'IN' })).toBe('dark');
  });

  test('that are quiet are there for lights, and not for messages, however they read the item', () => {
    expect([at('direct', { check: 'IN' }), at('follower', { check: 'IN' })]).toEqual(['lit', 'lit']);
    for (const message of ['by-item', 'by-signal', 'by-light']) {
      expect(at(message, { check: 'IN' }, 'display')).toBe('not-shown');
      expect(at(message, { check: 'OUT', knob: 'HIGH' }, 'display')).toBe('shown');
      expect(at(message, { check: 'IN', knob: 'HIGH', bus: 'lost' }, 'display')).toBe('not-shown');
    }
  });

  test('that break a rule for every case are found', () => {
    expect(oracle.brokenRules(oracle.fits[0]!, 'away', 'lamp')).toMatchObject([
      { override: 'checked', rule: 0, given: { bus: 'lost', check: 'IN' } },
    ]);
    expect(oracle.brokenRules(oracle.fits[0]!, 'trip', 'lamp')).toEqual([]);
  });

  test('drive the lamps of a light', () => {
    const driven = small({
      items:
        'wing:\n  kind: light\n  title: Wing\n  rules: [{ otherwise: dark }]\n  lamps: { left: { title: left } }\n',
      files: { 'overrides.yaml': '- { id: on, title: On, scope: { items: [wing] }, when: knob is HIGH, then: lit }' },
    });
    const left = (working: string) => seen(driven, 'wing', { knob: 'HIGH', 'wing.left': working }, 'left');
    expect([left('serviceable'), left('failed')]).toEqual([['lit'], ['dark']]);
  });
});

describe('messages', () => {
  const conditions = `hot: { title: Hot, values: { no-heat: {}, heat: {} } }
rolling: { title: Rolling, values: { still: {}, moving: {} } }`;
  const signals = 'roll: { title: Roll, when: rolling is moving }';
  const message = (more: string): Oracle =>
    small({
      conditions,
      signals,
      items: '',
      panel: `messages:\n  warm: { title: W, text: W, class: caution, ${more} }`,
    });
  const at = (oracle: Oracle, item: string, hot: string, rolling: string, more: Case = {}): string =>
    seen(oracle, item, { hot, rolling, ...more }, 'display').join();

  test('are held back, and give way to others', () => {
    const oracle = small({
      conditions,
      signals,
      panel: `messages:
  warm: { title: W, text: W, class: caution, when: hot is heat, inhibit: [roll] }
  mild: { title: M, text: M, class: caution, when: hot is heat, suppressed-by: [warm] }`,
    });
    expect([at(oracle, 'warm', 'heat', 'still'), at(oracle, 'mild', 'heat', 'still')]).toEqual(['shown', 'not-shown']);
    expect([at(oracle, 'warm', 'heat', 'moving'), at(oracle, 'mild', 'heat', 'moving')]).toEqual([
      'not-shown',
      'shown',
    ]);
  });

  const latched = (through: boolean, raise: string): Oracle =>
    message(`${raise}, inhibit: [roll], latched: { reset: knob is OFF, wins: reset, through-inhibit: ${through} }`);
  const byRules = 'rules: [{ when: hot is heat, then: shown }, { otherwise: not-shown }]';
  test.each(['when: hot is heat', byRules])('that are latched have a sequence (%s)', (raise) => {
    const through = latched(true, raise);
    expect(through.variables('warm', 'display')).toEqual(['rolling', 'warm-latch']);
    const fit = through.fits[0]!;
    const modes = (oracle: Oracle, given: Case): string =>
      ['reset', 'set'].filter((mode) => oracle.canHappen(fit, { ...given, 'warm-latch': mode })).join(' ');
    expect(modes(through, { knob: 'LOW', hot: 'heat', rolling: 'moving' })).toBe('set');
    expect(modes(through, { knob: 'LOW', hot: 'no-heat', rolling: 'still' })).toBe('reset set');
    expect(modes(through, { knob: 'OFF', hot: 'heat', rolling: 'still' })).toBe('reset');
    // Without through-inhibit heat while rolling raises nothing, and takes nothing back.
    expect(modes(latched(false, raise), { knob: 'LOW', hot: 'heat', rolling: 'moving' })).toBe('reset set');
    expect(at(through, 'warm', 'no-heat', 'still', { 'warm-latch': 'set' })).toBe('shown');
    expect(at(through, 'warm', 'no-heat', 'moving', { 'warm-latch': 'set' })).toBe('not-shown');
  });
});
