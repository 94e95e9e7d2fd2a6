/** What stands around sequences on a timeline: inputs at first, detectors, items, expectations and what is fitted. */
import { describe, expect, test } from 'vitest';
import type { Compiled } from '../../src/compile/index.ts';
import { type Course, decimalText } from '../../src/compile/time/index.ts';
import { outcomeWords } from '../../src/compile/time/words.ts';
import { changesOf, compileTime, courseOf, tryTime } from './time-content.ts';

const CONDITIONS = `conditions:
  bus:
    title: Bus
    normal: powered
    values: { lost: { says: with the bus lost }, powered: { says: with the bus powered } }
  door:
    title: Door
    values: { open: { says: with the door open }, shut: { says: with the door shut } }
  speed:
    title: Speed
    number: { unit: "%", from: -5, to: 110, step: 0.5 }
detectors:
  slow:
    title: Slow detector
    trips: speed > 50 %
    tolerance: 10
    says: with the slow detector tripped
    says-not: with the slow detector not tripped
  fast:
    title: Fast detector
    trips: speed >= 60 %
    tolerance: 10
    says: with the fast detector tripped
    says-not: with the fast detector not tripped
in-order:
  - [slow, fast]
`;

const PANEL = `panel: p
title: P
controls:
  button:
    title: Button
    form: push-button
    positions: { PRESSED: { returns: RELEASED }, RELEASED: {} }
  knob:
    title: Knob
    form: knob
    positions: { SET: { fitted: grade is full }, OFF: {}, RUN: {} }
  extra:
    title: Extra
    form: knob
    fitted: grade is full
    positions: { OUT: {}, IN: {} }
items:
  lamp:
    kind: light
    title: Lamp
    rules:
      - { when: seen is yes and bus is powered, then: lit }
      - otherwise: dark
    lamps:
      left: { title: left lamp }
      right: { title: right lamp }
`;

/** A sequence that follows an expression at once. */
const seen = (when: string, id = 'seen', fitted = ''): string => `  ${id}:
    title: ${id.charAt(0).toUpperCase()}${id.slice(1)}
    initial: "no"
${fitted}    modes: { "no": { says: with it not seen }, "yes": { says: with it seen } }
    transitions:
      - { from: "no", to: "yes", when: "${when}" }
      - { from: "yes", to: "no", when: "not (${when})" }
`;

const timeline = (steps: readonly string[], shows = 'seen', more = '', on = 1): string =>
  `one:
  title: One
  on: ${on}
  shows: [${shows}]
  steps:
${steps.map((step) => `    - { at: ${step.replace(': ', ', set: { ')} } }\n`).join('')}  until: 20 s
${more}`;

const more = { panel: PANEL, 'conditions.yaml': CONDITIONS };

function seenOf(when: string, steps: readonly string[]): string[] {
  return changesOf(courseOf(compileTime(seen(when), timeline(steps), more), 'one'));
}

describe('what no step sets', () => {
  test.each([
    ['a condition has its normal value', 'bus is powered'],
    ['a condition without one has its first value', 'door is open'],
    ['a number is at its lowest', 'speed <= -5 %'],
    ['a control that springs back is let go', 'button is RELEASED'],
    ['a control is in the first position that the aircraft has', 'knob is OFF'],
    ['a control that is not fitted is nowhere', 'not fitted(extra) or extra is IN'],
    ['a detector is not tripped', 'not slow'],
    ['a lamp is serviceable', 'lamp.left is serviceable'],
  ])('%s', (_, when) => {
    expect(seenOf(when, ['0 s: bus: powered'])).toEqual(['0 seen: no > yes']);
  });

  test('keeps what an earlier step has set', () => {
    expect(seenOf('door is shut and knob is RUN', ['0 s: door: shut', '5 s: knob: RUN'])).toEqual(['5 seen: no > yes']);
  });
});

describe('detectors', () => {
  test('trip by themselves above their tolerance, as set within it', () => {
    expect(seenOf('slow', ['0 s: speed: 40 %', '1 s: speed: 60 %', '2 s: speed: 60.5 %', '3 s: speed: 50 %'])).toEqual([
      '2 seen: no > yes',
      '3 seen: yes > no',
    ]);
    expect(seenOf('slow', ['0 s: speed: 50 %, slow: "yes"', '3 s: speed: 40.5 %', '4 s: speed: 40 %'])).toEqual([
      '0 seen: no > yes',
      '4 seen: yes > no',
    ]);
  });

  test('trip when a later one of their order does', () => {
    expect(seenOf('slow', ['0 s: speed: 55 %', '1 s: fast: "yes"', '2 s: fast: "no"'])).toEqual([
      '1 seen: no > yes',
      '2 seen: yes > no',
    ]);
  });

  test.each([
    ['tripped below the tolerance', ['0 s: speed: 40 %, slow: "yes"'], 'slow', 'yes', false],
    ['not tripped above it', ['0 s: speed: 70 %, fast: "no"'], 'fast', 'no', false],
    ['not tripped while a later one is', ['0 s: speed: 55 %, fast: "yes", slow: "no"'], 'slow', 'no', true],
  ])('cannot be %s', (_, steps, detector, value, order) => {
    const { reported } = tryTime(seen('slow'), timeline(steps), more);
    expect(reported).toEqual([`SL433 ${JSON.stringify({ detector, value, at: '0 s', order })}`]);
  });
});

/** "0 dark, 5 lit" */
function spansOf(compiled: Compiled, course: Course, row: number): string {
  const found = course.rows[row];
  if (!found) throw new Error(`no row ${row}`);
  return found.spans
    .map(({ from, value }) => {
      const words = found.kind === 'item' ? outcomeWords(value as number, found.attribute, compiled) : value;
      return `${decimalText(from).text} ${words}`;
    })
    .join(', ');
}

test('items follow the modes, the inputs and their failed lamps', () => {
  const compiled = compileTime(
    seen('door is shut'),
    timeline(
      ['0 s: door: open', '5 s: door: shut', '7 s: lamp.left: failed', '9 s: bus: lost', '11 s: bus: powered'],
      'seen, lamp.lamp, lamp.left, lamp.right',
    ),
    more,
  );
  const course = courseOf(compiled, 'one');
  expect([0, 1, 2, 3].map((row) => spansOf(compiled, course, row))).toEqual([
    '0 no, 5 yes',
    '0 dark, 5 lit, 9 dark, 11 lit',
    '0 dark, 5 lit, 7 dark',
    '0 dark, 5 lit, 9 dark, 11 lit',
  ]);
  expect(course.rows.map(({ spans }) => spans.at(-1)?.until)).toEqual(Array(4).fill(course.until));
  expect(course.steps.map(({ at, shown }) => [decimalText(at).text, ...shown])).toEqual([
    ['0', 0, 1, 2, 3],
    ['5', 0, 1, 2, 3],
    ['7', 2],
    ['9', 1, 3],
    ['11', 1, 3],
  ]);
});

test('a sequence reads items as if quiet overrides did not exist, readers see them', () => {
  const overrides =
    '- { id: test, title: Test, scope: { items: [lamp] }, when: button is PRESSED, then: lit, quiet: true }\n';
  const compiled = compileTime(
    seen('lamp.lamp is lit', 'echo') + seen('door is shut'),
    timeline(['0 s: door: open', '2 s: button: PRESSED', '4 s: button: RELEASED', '6 s: door: shut'], 'lamp.lamp'),
    { ...more, 'overrides.yaml': overrides },
  );
  const course = courseOf(compiled, 'one');
  expect(spansOf(compiled, course, 0)).toBe('0 dark, 2 lit, 4 dark, 6 lit');
  expect(changesOf(course)).toEqual(['6 seen: no > yes', '6 echo: no > yes']);
});

test('a sequence that the aircraft lacks does not run', () => {
  const panel = PANEL.replace('seen is yes', 'fitted(seen) and seen is yes');
  const sequences = seen('door is shut', 'seen', '    fitted: grade is full\n') + seen('door is shut', 'other');
  const run = (on: number): string[] =>
    changesOf(
      courseOf(compileTime(sequences, timeline(['0 s: door: shut'], 'other', '', on), { ...more, panel }), 'one'),
    );
  expect(run(1)).toEqual(['0 other: no > yes']);
  expect(run(2)).toEqual(['0 seen: no > yes', '0 other: no > yes']);
});

describe('expectations', () => {
  const expecting = (at: string, holds: string): string[] =>
    tryTime(
      seen('door is shut and speed > 10.5 %'),
      timeline(
        ['0 s: door: shut', '5 s: speed: 11 %', '8 s: bus: lost'],
        'seen',
        `  expect:\n    - { at: ${at}, holds: "${holds}" }\n`,
      ),
      more,
    ).reported;

  test('are checked after all changes of that very time', () => {
    expect(expecting('5 s', 'seen is yes and lamp.lamp is lit')).toEqual([]);
    expect(expecting('4.999 s', 'seen is no')).toEqual([]);
    expect(expecting('8 s', 'lamp.lamp is dark')).toEqual([]);
  });

  test('that fail say what it was instead', () => {
    expect(expecting('6 s', 'seen is no or lamp.lamp is dark or speed > 90 % or slow or knob is RUN')).toEqual([
      `SL430 ${JSON.stringify({
        expected: 'seen is no or lamp.lamp is dark or speed > 90 % or slow or knob is RUN',
        at: '6 s',
        instead: ['Seen: yes', 'Lamp, lamp: lit', 'Speed: 11 %', 'Slow detector: not tripped', 'Knob: OFF'],
      })}`,
    ]);
  });
});

test('a step into what never happens is reported', () => {
  const conditions = `${CONDITIONS}never:\n  - door is open and speed > 20 %\n`;
  const { reported } = tryTime(seen('door is shut'), timeline(['0 s: door: shut, speed: 30 %', '3 s: door: open']), {
    ...more,
    'conditions.yaml': conditions,
  });
  expect(reported).toEqual(['SL431 {"at":"3 s","later":[]}']);
});

test('a course of too many changes is cut off', () => {
  const flasher = `  flasher:
    title: Flasher
    initial: a
    modes: { a: { says: with it at a }, b: { says: with it at b } }
    transitions: [{ from: a, to: b, after: 0.01 s }, { from: b, to: a, after: 0.01 s }]
`;
  const { reported } = tryTime(
    seen('door is shut') + flasher,
    timeline(['0 s: door: shut'], 'flasher').replace('until: 20 s', 'until: 3 h'),
    more,
  );
  expect(reported).toEqual(['SL432 {"sequences":["Flasher"],"at":"50 s","many":true}']);
});
