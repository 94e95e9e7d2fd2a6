/** Sequences replayed on timelines that were worked by hand. */
import { describe, expect, test } from 'vitest';
import { decimalText } from '../../src/compile/time/index.ts';
import { changesOf, compileTime, courseOf, tryTime } from './time-content.ts';

const modes = (...ids: readonly string[]): string => ids.map((id) => `      ${id}: { says: with it ${id} }\n`).join('');

/** A sequence of the modes that its transitions name, the first of which is the initial one. */
function sequence(id: string, ids: readonly string[], transitions: readonly string[], more = ''): string {
  return `  ${id}:
    title: ${id}
    initial: ${ids[0]}
    modes:
${modes(...ids)}${more}    transitions:
${transitions.map((each) => `      - ${each}\n`).join('')}`;
}

/** A timeline on the aircraft 1. Steps are "3 s: speed: 95 %, knob: RUN". */
function timeline(id: string, shows: readonly string[], steps: readonly string[], until: string, more = ''): string {
  const lines = steps.map((each) => {
    const [, at = '', set = ''] = /^(\S+ \S+): (.*)$/.exec(each) ?? [];
    return `    - { at: ${at}, set: { ${set} } }\n`;
  });
  return `${id}:
  title: Timeline ${id}
  on: 1
  shows: [${shows.join(', ')}]
  steps:
${lines.join('')}  until: ${until}
${more}`;
}

describe('delays', () => {
  // The two readings of "ready 2 s after the speed reaches 95 %".
  const both =
    sequence('held', ['starting', 'ready'], ['{ from: starting, to: ready, when: speed >= 95 % for 2 s }']) +
    sequence('event', ['starting', 'ready'], ['{ from: starting, to: ready, since: speed >= 95 %, delay: 2 s }']) +
    sequence(
      'anew',
      ['starting', 'ready'],
      ['{ from: starting, to: ready, since: speed >= 95 %, delay: 2 s, restarts: true }'],
    );

  test('from an event and held that long are the same while the speed stays', () => {
    const steps = ['0 s: speed: 0 %', '10 s: speed: 95 %'];
    const compiled = compileTime(both, timeline('one', ['held'], steps, '20 s'));
    expect(changesOf(courseOf(compiled, 'one'))).toEqual([
      '12 held: starting > ready',
      '12 event: starting > ready',
      '12 anew: starting > ready',
    ]);
  });

  test('from an event, from its last coming and held that long differ when the speed drops back', () => {
    const steps = [
      '0 s: speed: 0 %',
      '10 s: speed: 95 %',
      '11 s: speed: 90 %',
      '11.5 s: speed: 96 %',
      '13 s: speed: 90 %',
    ];
    const compiled = compileTime(both, timeline('one', ['held'], [...steps, '14 s: speed: 97.5 %'], '20 s'));
    expect(changesOf(courseOf(compiled, 'one'))).toEqual([
      '12 event: starting > ready',
      '13.5 anew: starting > ready',
      '16 held: starting > ready',
    ]);
  });

  test('a guard may have begun to hold before the mode was entered, an event counts from the entry', () => {
    const compiled = compileTime(
      sequence(
        'unit',
        ['off', 'on', 'ready', 'late'],
        [
          '{ from: "off", to: "on", when: knob is RUN }',
          '{ from: "on", to: ready, when: speed >= 95 % for 5 s }',
          '{ from: ready, to: late, since: speed >= 95 %, delay: 5 s }',
        ],
      ),
      timeline('one', ['unit'], ['0 s: speed: 95 %', '3 s: knob: RUN'], '20 s'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual([
      '3 unit: off > on',
      '5 unit: on > ready',
      '10 unit: ready > late',
    ]);
  });

  test('time in the mode starts anew with each entry, and waits for the rest of the guard', () => {
    const compiled = compileTime(
      sequence(
        'unit',
        ['off', 'on'],
        ['{ from: "off", to: "on", when: knob is RUN, after: 4 s }', '{ from: "on", to: "off", after: 60 s +/- 5 s }'],
      ),
      timeline('one', ['unit'], ['0 s: speed: 0 %', '6 s: knob: RUN'], '2 min'),
    );
    const course = courseOf(compiled, 'one');
    expect(changesOf(course)).toEqual(['6 unit: off > on', '66 unit: on > off', '70 unit: off > on']);
    const ranges = course.steps.flatMap(({ changes }) =>
      changes.map(({ range }) => range && [range.earliest, range.latest].map((time) => decimalText(time).text)),
    );
    expect(ranges).toEqual([undefined, ['61', '71'], undefined]);
  });

  test('a tolerance reaches no further back than the rest of the guard', () => {
    const compiled = compileTime(
      sequence('unit', ['off', 'on'], ['{ from: "off", to: "on", when: knob is RUN, after: 10 s +/- 5 s }']),
      timeline('one', ['unit'], ['0 s: speed: 0 %', '8 s: knob: RUN'], '20 s'),
    );
    const [change] = courseOf(compiled, 'one').steps.flatMap(({ changes }) => changes);
    expect([change?.range?.earliest, change?.range?.latest].map((time) => time && decimalText(time).text)).toEqual([
      '8',
      '15',
    ]);
  });

  test('at equal times inputs come before timers', () => {
    const content = sequence('unit', ['off', 'on'], ['{ from: "off", to: "on", when: speed >= 95 % for 2 s }']);
    const compiled = compileTime(
      content,
      timeline('dropped', ['unit'], ['0 s: speed: 95 %', '2 s: speed: 0 %'], '5 s') +
        timeline('kept', ['unit'], ['0 s: speed: 95 %', '2.5 s: speed: 0 %'], '5 s'),
    );
    expect(changesOf(courseOf(compiled, 'dropped'))).toEqual([]);
    expect(changesOf(courseOf(compiled, 'kept'))).toEqual(['2 unit: off > on']);
  });
});

describe('order', () => {
  test('the earlier of two transitions that are due at the same time is taken', () => {
    const two = (first: string, second: string): string =>
      sequence(
        'unit',
        ['off', first, second],
        [`{ from: "off", to: ${first}, after: 3 s }`, `{ from: "off", to: ${second}, when: knob is OFF for 3 s }`],
      );
    const steps = timeline('one', ['unit'], ['0 s: knob: OFF'], '5 s');
    expect(changesOf(courseOf(compileTime(two('a', 'b'), steps), 'one'))).toEqual(['3 unit: off > a']);
    expect(changesOf(courseOf(compileTime(two('b', 'a'), steps), 'one'))).toEqual(['3 unit: off > b']);
  });

  test('transitions without delay come before those that are due, also in a later sequence', () => {
    const compiled = compileTime(
      sequence('first', ['off', 'on'], ['{ from: "off", to: "on", when: second is "off", after: 3 s }'].map(plain)) +
        sequence('second', ['off', 'on'], ['{ from: "off", to: "on", when: knob is RUN }']),
      timeline('one', ['first'], ['0 s: knob: OFF', '3 s: knob: RUN'], '5 s'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual(['3 second: off > on']);
  });

  test('sequences that are due at the same time all move, even if the first one ends what the second waits for', () => {
    const compiled = compileTime(
      sequence('first', ['off', 'on'], ['{ from: "off", to: "on", after: 3 s }']) +
        sequence('second', ['off', 'on'], ['{ from: "off", to: "on", when: first is off, after: 3 s }']),
      timeline('one', ['first'], ['0 s: knob: OFF'], '5 s'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual(['3 first: off > on', '3 second: off > on']);
  });

  test('a chain without delays is run through at one time', () => {
    const compiled = compileTime(
      sequence(
        'first',
        ['a', 'b', 'c'],
        ['{ from: a, to: b, when: knob is RUN }', '{ from: b, to: c, when: second is b }'],
      ) + sequence('second', ['a', 'b'], ['{ from: a, to: b, when: first is b }']),
      timeline('one', ['first', 'second'], ['0 s: knob: OFF', '1 s: knob: RUN'], '2 s'),
    );
    const course = courseOf(compiled, 'one');
    expect(changesOf(course)).toEqual(['1 first: a > b', '1 second: a > b', '1 first: b > c']);
    // What lasts no time is not drawn.
    expect(course.rows.map(({ spans }) => spans.map(({ value }) => value))).toEqual([
      ['a', 'c'],
      ['a', 'b'],
    ]);
  });
});

function plain(text: string): string {
  return text.replaceAll('is "off"', 'is off');
}

test('hysteresis holds its last state between the two levels', () => {
  const compiled = compileTime(
    sequence(
      'gate',
      ['shut', 'open'],
      ['{ from: shut, to: open, when: speed >= 60 % }', '{ from: open, to: shut, when: speed <= 40 % }'],
    ),
    timeline(
      'one',
      ['gate'],
      ['0 s: speed: 50 %', '1 s: speed: 60 %', '2 s: speed: 50 %', '3 s: speed: 40 %', '4 s: speed: 50 %'],
      '5 s',
    ),
  );
  expect(changesOf(courseOf(compiled, 'one'))).toEqual(['1 gate: shut > open', '3 gate: open > shut']);
});

describe('stores', () => {
  const pack = (transitions: readonly string[], flows = 'drains: [{ when: pack is "on", per-minute: 1 }]'): string =>
    sequence(
      'pack',
      ['off', 'on', 'empty'],
      transitions,
      `    stores:\n      charge: { title: Charge, unit: min, capacity: 12, start: 12, ${flows} }\n`,
    ).replaceAll('is "on"', 'is on');

  test('a pack of 12 min that drains by one a minute is empty after exactly 12 min', () => {
    const compiled = compileTime(
      pack(['{ from: "off", to: "on", when: bus is lost }', '{ from: "on", to: empty, when: charge <= 0 min }']),
      timeline('one', ['pack'], ['0 s: bus: powered', '10 s: bus: lost'], '20 min'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual(['10 pack: off > on', '730 pack: on > empty']);
  });

  test('it lasts shorter when it was charged only in part', () => {
    const compiled = compileTime(
      pack(
        [
          '{ from: "off", to: "on", when: bus is lost }',
          '{ from: "on", to: "off", when: bus is powered }',
          '{ from: "on", to: empty, when: charge <= 0 min }',
        ],
        'drains: [{ when: pack is "on", per-minute: 1 }], fills: [{ when: bus is powered, per-minute: 0.5 }]',
      ),
      // 6 min used, 2 min at half a minute per minute charged: 7 min left.
      timeline('one', ['pack'], ['0 s: bus: lost', '360 s: bus: powered', '480 s: bus: lost'], '20 min'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual([
      '0 pack: off > on',
      '360 pack: on > off',
      '480 pack: off > on',
      '900 pack: on > empty',
    ]);
  });

  test('a full store takes no more, and a level between steps is met exactly', () => {
    const compiled = compileTime(
      pack(
        ['{ from: "off", to: "on", when: bus is lost }', '{ from: "on", to: empty, when: charge < 5 min for 1 s }'],
        'drains: [{ when: pack is "on", per-minute: 0.9 }], fills: [{ when: bus is powered, per-minute: 3 }]',
      ),
      timeline('one', ['pack'], ['0 s: bus: powered', '60 s: bus: lost'], '20 min'),
    );
    // 7 min at 0.9 a minute are 466 2/3 s; "below" begins right then.
    const course = courseOf(compiled, 'one');
    expect(changesOf(course)).toEqual(['60 pack: off > on', '527.667 pack: on > empty']);
    expect(course.steps.at(-1)?.at).toEqual({ over: 1583n, under: 3n });
  });

  test('entering a mode sets it', () => {
    const compiled = compileTime(
      sequence(
        'pack',
        ['idle', 'busy', 'done'],
        ['{ from: idle, to: busy, when: bus is lost }', '{ from: busy, to: done, when: charge <= 0 min }'],
        '    stores:\n      charge: { title: C, unit: min, capacity: 12, start: 12, drains: [{ when: pack is busy, per-minute: 2 }] }\n',
      ).replace('with it busy }', 'with it busy, sets: { charge: 5 } }'),
      timeline('one', ['pack'], ['0 s: bus: powered', '1 s: bus: lost'], '20 min'),
    );
    expect(changesOf(courseOf(compiled, 'one'))).toEqual(['1 pack: idle > busy', '151 pack: busy > done']);
  });

  test('two levels without room between them are reported as endless', () => {
    const { reported } = tryTime(
      pack(
        ['{ from: "off", to: "on", when: charge >= 5 min }', '{ from: "on", to: "off", when: charge < 5 min }'],
        'drains: [{ when: pack is "on", per-minute: 1 }], fills: [{ when: pack is off, per-minute: 1 }]',
      ),
      timeline('one', ['pack'], ['0 s: bus: powered'], '20 min'),
    );
    expect(reported).toEqual(['SL432 {"sequences":["pack"],"at":"7 min","many":false}']);
  });
});
