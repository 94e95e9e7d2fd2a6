/**
 * Two ways to the modes that can be: the search without timing, and runs in time with inputs that change at random. Where
 * a run is at rest the search has been; and in these contents runs soon come wherever the search has.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Course, type Oracle } from './index.ts';
import { light, small } from './small.ts';

const latched = (through: boolean): Oracle =>
  small({
    signals: 'rolling: { title: Rolling, when: knob is HIGH }',
    panel: `messages:
  warm: { title: W, text: W, class: caution, when: bus is lost, inhibit: [rolling], latched: { reset: knob is OFF, through-inhibit: ${through} } }`,
  });

const starter = small({
  conditions: `bus: { title: Bus, normal: powered, values: { powered: {}, lost: {} } }
speed: { title: Speed, number: { unit: '%', from: 0, to: 100, step: 10 } }`,
  never: '- speed > 50 % and knob is OFF',
  detectors: 'turning: { title: Turning, trips: speed > 20 %, tolerance: 10 }',
  items: light('ready', ['when: run is running, then: lit', 'otherwise: dark']),
  panel: `sequences:
  run:
    title: Run
    initial: stopped
    modes: { stopped: { says: a }, starting: { says: b, sets: { charge: 1 } }, running: { says: c }, failed: { says: d } }
    stores:
      charge: { title: Charge, unit: min, capacity: 2, start: 2, drains: [{ when: run is starting, per-minute: 12 }] }
    transitions:
      - { from: [starting, running], to: stopped, when: knob is OFF }
      - { from: stopped, to: starting, when: knob is HIGH }
      - { from: starting, to: running, when: turning, since: speed >= 50 %, delay: 2 s }
      - { from: starting, to: running, when: speed >= 90 % for 1 s }
      - { from: starting, to: failed, when: charge <= 0 min }
      - { from: running, to: failed, when: bus is lost, after: 3 s }
      - { from: failed, to: stopped, when: not turning and knob is OFF }
  feed:
    title: Feed
    initial: closed
    modes: { closed: { says: a }, open: { says: b } }
    transitions:
      - { from: closed, to: open, when: ready is lit and bus is powered }
      - { from: open, to: closed, when: ready is dark, after: 15 s }`,
});

const together = small({
  items: light('lamp', ['when: one is set and other is reset, then: lit', 'otherwise: dark']),
  panel: `latches:
  one: { title: One, set: knob is HIGH, reset: lamp is lit and bus is lost }
  other: { title: Other, set: lamp is lit and bus is powered, reset: knob is OFF, wins: reset }`,
});

const contents = {
  'a latch through inhibition': latched(true),
  'a latch': latched(false),
  'a starter': starter,
  together,
};

/** Inputs that can happen: every case over what is not a sequence. */
function inputsOf(oracle: Oracle): Readonly<Record<string, string>>[] {
  const { conditions, controls, detectors } = oracle.content;
  return [...oracle.cases(oracle.fits[0]!, [...conditions.keys(), ...controls.keys(), ...detectors.keys()])];
}

describe.each(Object.entries(contents))('%s', (_, oracle) => {
  const fit = oracle.fits[0]!;
  const sequences = [...oracle.content.sequences.keys()];
  const inputs = inputsOf(oracle);
  const step = fc.record({ wait: fc.integer({ min: 1, max: 12 }), at: fc.nat(inputs.length - 1) });
  const runs = fc.sample(fc.array(step, { minLength: 12, maxLength: 12 }), { seed: 20261001, numRuns: 400 });
  const seen = new Set<string>();
  for (const run of runs) {
    let time = 0;
    const steps = run.map(({ wait, at }, place) => {
      time += place === 0 ? 0 : wait / 2;
      return { at: String(time), sets: new Map(Object.entries(inputs[at]!)) };
    });
    const course = new Course(oracle, fit, steps, String(time + 10));
    for (const at of [...steps.map((one) => one.at), ...course.movements.map((one) => one.at)])
      seen.add(JSON.stringify(Object.entries(course.caseAt(at)).sort()));
  }
  const cases = [...seen].map((one) => Object.fromEntries(JSON.parse(one)) as Record<string, string>);
  const modes = (given: Readonly<Record<string, string>>): string => sequences.map((id) => given[id]).join(' ');

  test('has as partial cases what is left of whole ones', () => {
    const { conditions, controls, detectors } = oracle.content;
    const all = [...conditions.keys(), ...controls.keys(), ...detectors.keys(), ...sequences];
    let whole: Record<string, string>[] = [{}];
    for (const name of all)
      whole = whole.flatMap((given) => oracle.valuesOn(fit, name).map((value) => ({ ...given, [name]: value })));
    const possible = whole.filter((given) => oracle.canHappen(fit, given));
    expect(possible.length).toBeLessThan(whole.length);
    for (const names of fc.sample(fc.subarray(all), { seed: 20261001, numRuns: 20 })) {
      const write = (given: Readonly<Record<string, string>>): string => names.map((name) => given[name]).join(' ');
      expect([...oracle.cases(fit, names)].map(write).sort()).toEqual([...new Set(possible.map(write))].sort());
    }
  });

  test('is in time only in modes that the search allows', () => {
    expect(cases.filter((given) => !oracle.canHappen(fit, given))).toEqual([]);
  });

  test('is in time in all the modes that the search allows', () => {
    const allowed = [...oracle.cases(fit, [...sequences, 'knob', 'bus'])];
    const write = (given: Readonly<Record<string, string>>): string =>
      `${modes(given)} ${given['knob']} ${given['bus']}`;
    const reached = new Set(cases.map(write));
    expect(allowed.map(write).filter((one) => !reached.has(one))).toEqual([]);
  });
});
