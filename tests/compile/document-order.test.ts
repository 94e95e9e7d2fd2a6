/**
 * The rules of order of W3C State Chart XML (SCXML), 1.0, and the conformance tests of its implementation report that mean something
 * for sequences, one by one; the numbers are theirs. Sequences are flat and each stands alone beside the others, so that what rests
 * on states within states has nothing to answer to: preemption by a child (403), exits from the innermost out (404), content
 * between exits and entries of nested states (405, 406). A clause marked "from memory" was not looked up.
 */
import { expect, test } from 'vitest';
import { changesOf, compileTime, courseOf, tryTime } from './time-content.ts';

interface Sequence {
  readonly id: string;
  /** By id, what entering the mode does, as YAML; the first one is the initial mode. */
  readonly modes: Readonly<Record<string, string>>;
  readonly transitions: readonly string[];
  readonly stores?: string;
}

function written({ id, modes, transitions, stores = '' }: Sequence): string {
  const ids = Object.keys(modes);
  return [
    `  ${id}:`,
    `    title: ${id}`,
    `    initial: ${ids[0]}`,
    '    modes:',
    ...ids.map((mode) => `      ${mode}: { says: with ${id} ${mode}${modes[mode]} }`),
    ...(stores === '' ? [] : [`    stores: { ${stores} }`]),
    '    transitions:',
    ...transitions.map((each) => `      - { ${each} }`),
    '',
  ].join('\n');
}

function run(sequences: readonly Sequence[], steps: readonly (readonly [at: string, set: string])[]): string[] {
  const lines = steps.map(([at, set]) => `    - { at: ${at}, set: { ${set} } }\n`).join('');
  const timeline = `course:\n  title: Course\n  on: 1\n  shows: [${sequences[0]?.id}]\n  steps:\n${lines}  until: 60 s\n`;
  return changesOf(courseOf(compileTime(sequences.map(written).join(''), timeline), 'course'));
}

const DRAIN = (id: string): string =>
  `level: { title: Level, unit: min, capacity: 10, start: 10, drains: [{ when: ${id} is b, per-minute: 60 }] }`;

test('of the transitions of one state that are enabled, the earliest in document order is taken (optimally enabled)', () => {
  const taken = (transitions: readonly string[]): string[] =>
    run(
      [{ id: 'unit', modes: { a: '', b: '', c: '' }, transitions }],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
      ],
    );
  const [toB, toC] = ['from: a, to: b, when: knob is RUN', 'from: a, to: c, when: knob is not OFF'];
  expect(taken([toB, toC])).toEqual(['1 unit: a > b']);
  expect(taken([toC, toB])).toEqual(['1 unit: a > c']);
});

test('a transition that is not enabled is passed by, however early it stands', () => {
  const transitions = ['from: a, to: b, when: knob is START', 'from: a, to: c, when: knob is RUN'];
  expect(
    run(
      [{ id: 'unit', modes: { a: '', b: '', c: '' }, transitions }],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['1 unit: a > c']);
});

test('regions without a conflict all move, in document order (403: a transition is enabled in each of them)', () => {
  const region = (id: string): Sequence => ({
    id,
    modes: { a: '', b: '' },
    transitions: ['from: a, to: b, when: knob is RUN'],
  });
  expect(
    run(
      [region('one'), region('two')],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['1 one: a > b', '1 two: a > b']);
  expect(
    run(
      [region('two'), region('one')],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['1 two: a > b', '1 one: a > b']);
});

test('what entering a state does is done before its own transitions are looked at (376, 406)', () => {
  // The level of 2 min drains at a minute a second; were it not set on entry, it would last ten seconds.
  expect(
    run(
      [
        {
          id: 'unit',
          modes: { a: '', b: ', sets: { level: 2 }', c: '' },
          stores: DRAIN('unit'),
          transitions: ['from: a, to: b, when: knob is RUN', 'from: b, to: c, when: level <= 0 min'],
        },
      ],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['1 unit: a > b', '3 unit: b > c']);
});

test('the entry to a state is seen by the regions after it in the same macrostep (internal before external, 189)', () => {
  const first: Sequence = {
    id: 'one',
    modes: { a: '', b: '', c: '' },
    transitions: ['from: a, to: b, when: knob is RUN', 'from: b, to: c, when: knob is START'],
  };
  const second: Sequence = { id: 'two', modes: { a: '', b: '' }, transitions: ['from: a, to: b, when: one is b'] };
  // The second follows at once, not only when the knob is turned again.
  expect(
    run(
      [first, second],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
        ['2 s', 'knob: START'],
      ],
    ),
  ).toEqual(['1 one: a > b', '1 two: a > b', '2 one: b > c']);
});

test('transitions without an event come before any event, until none is enabled (from memory)', () => {
  const chain: Sequence = {
    id: 'unit',
    modes: { a: '', b: '', c: '', d: '' },
    transitions: [
      'from: a, to: b, when: knob is RUN',
      'from: b, to: c, when: speed < 50 %',
      'from: c, to: d, when: bus is powered',
      'from: b, to: a, after: 1 s',
    ],
  };
  expect(
    run(
      [chain],
      [
        ['0 s', 'knob: "OFF", speed: 0 %'],
        ['5 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['5 unit: a > b', '5 unit: b > c', '5 unit: c > d']);
});

test('a delay is kept to (185)', () => {
  const transitions = ['from: a, to: b, when: knob is RUN', 'from: b, to: c, after: 7 s'];
  expect(
    run(
      [{ id: 'unit', modes: { a: '', b: '', c: '' }, transitions }],
      [
        ['0 s', 'knob: "OFF"'],
        ['3 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['3 unit: a > b', '10 unit: b > c']);
});

test('a delay counts from the event, whatever becomes of what it was about (186)', () => {
  const transitions = ['from: a, to: b, since: speed >= 95 %, delay: 5 s'];
  expect(
    run(
      [{ id: 'unit', modes: { a: '', b: '' }, transitions }],
      [
        ['0 s', 'speed: 0 %'],
        ['2 s', 'speed: 95 %'],
        ['3 s', 'speed: 0 %'],
      ],
    ),
  ).toEqual(['7 unit: a > b']);
});

test('what is pending ends with what it was begun in (187; of one state, cancelled on leaving it)', () => {
  const transitions = [
    'from: a, to: b, when: knob is RUN',
    'from: b, to: a, when: knob is OFF',
    'from: b, to: c, after: 5 s',
  ];
  // Left after 3 s, entered anew 1 s later: 5 s count from there.
  expect(
    run(
      [{ id: 'unit', modes: { a: '', b: '', c: '' }, transitions }],
      [
        ['0 s', 'knob: "OFF"'],
        ['1 s', 'knob: RUN'],
        ['4 s', 'knob: "OFF"'],
        ['5 s', 'knob: RUN'],
      ],
    ),
  ).toEqual(['1 unit: a > b', '4 unit: b > a', '5 unit: a > b', '10 unit: b > c']);
});

test('transitions without an event that go round for ever are a fault, which is told', () => {
  const round = written({
    id: 'unit',
    modes: { a: '', b: '' },
    transitions: ['from: a, to: b, when: knob is RUN', 'from: b, to: a, when: speed < 50 %'],
  });
  const timeline =
    'course:\n  title: Course\n  on: 1\n  shows: [unit]\n  steps:\n    - { at: 0 s, set: { knob: RUN } }\n  until: 9 s\n';
  expect(tryTime(round, timeline).reported.map((each) => each.slice(0, 5))).toEqual(['SL413']);
});
