/** Sequences, latches, sounds and timelines as they are read, and what is underlined where one is wrong. */
import { expect, test } from 'vitest';
import { print } from '../../src/language/index.ts';
import { filesOf, type Reported, read, SMALL } from './small-content.ts';

const PANEL = `${SMALL['panels/roof.yaml']}sequences:
  unit:
    title: Unit
    initial: stopped
    normal: running
    modes:
      stopped: { says: with the unit stopped }
      running: { title: Running, says: with the unit running, sets: { pack: 5 } }
      tripped: { says: with the unit tripped, final: true }
    stores:
      pack:
        title: Pack
        unit: min
        capacity: 12.5
        start: 12
        fills: [{ when: bus is powered, per-minute: 0.5 }]
        drains: [{ when: unit is running, per-minute: 1 }]
    transitions:
      - { from: stopped, to: running, when: speed > 100 kt for 2 s }
      - { from: stopped, to: running, since: switch is 2, delay: 1 min +/- 5 s, restarts: true }
      - { from: [running, stopped], to: tripped, when: pack <= 0.25 min, after: 0.5 h }
latches:
  call: { title: Crew call, set: switch is 2, reset: bus is lost }
  hold: { title: Hold, set: switch is 2, reset: bus is lost, wins: reset }
sounds:
  chime:
    title: Chime
    sounds: single low chime
    triggers:
      - { moves: switch, from: 1, to: ["2", AUTO] }
      - { moves: unit, to: running }
      - { becomes: lamp is lit, while: bus is powered }
`;
const TIMELINES = `start:
  title: A start
  on: 101
  shows: [unit, lamp, call]
  steps:
    - { at: 0 s, set: { switch: 2, bus: powered } }
    - { at: 0.5 min, set: { speed: 120.5 kt } }
  until: 1 h
  expect:
    - { at: 32 s, holds: unit is running }
`;

test('sequences, latches, sounds and timelines come out as they were written', () => {
  const { fleet, reported } = read(filesOf({ 'panels/roof.yaml': PANEL, 'timelines.yaml': TIMELINES }));
  expect(reported).toEqual([]);
  const [unit, call, hold] = fleet?.sequences ?? [];
  expect(unit).toMatchObject({
    id: 'unit',
    panel: 'roof',
    kind: 'sequence',
    noun: 'the unit',
    initial: 'stopped',
    normal: 'running',
    priorityDeclared: false,
    modes: [
      { id: 'stopped', title: 'stopped', says: 'with the unit stopped', sets: [], final: false },
      { id: 'running', title: 'Running', sets: [{ store: 'pack', level: '5' }], final: false },
      { id: 'tripped', sets: [], final: true },
    ],
    stores: [
      {
        id: 'pack',
        unit: 'min',
        capacity: '12.5',
        start: '12',
        flows: [
          { kind: 'fills', perMinute: '0.5' },
          { kind: 'drains', perMinute: '1' },
        ],
      },
    ],
    transitions: [
      { from: ['stopped'], to: 'running', guard: { holds: { seconds: '2' } } },
      { to: 'running', since: { delay: { seconds: '60', tolerance: '5' }, restarts: true } },
      { from: ['running', 'stopped'], to: 'tripped', after: { seconds: '1800' } },
    ],
  });
  const guards = (sequence: typeof call): string[] =>
    (sequence?.transitions ?? []).map(({ from, to, guard }) => `${from} > ${to}: ${guard && print(guard.when)}`);
  expect(guards(call)).toEqual(['reset > set: switch is 2', 'set > reset: bus is lost and not switch is 2']);
  expect(guards(hold)).toEqual(['reset > set: switch is 2 and not bus is lost', 'set > reset: bus is lost']);
  expect(call).toMatchObject({
    kind: 'latch',
    noun: 'the crew call',
    initial: 'reset',
    modes: [{ id: 'reset' }, { id: 'set', says: 'with the crew call set' }],
  });
  expect(fleet?.sounds).toMatchObject([
    {
      id: 'chime',
      sounds: 'single low chime',
      triggers: [{ moves: 'switch', from: ['1'], to: ['2', 'AUTO'] }, { moves: 'unit', to: ['running'] }, {}],
    },
  ]);
  expect(fleet?.timelines).toMatchObject([
    {
      id: 'start',
      on: '101',
      shows: [{ id: 'unit' }, { id: 'lamp', attribute: 'lamp' }, { id: 'call' }],
      steps: [
        {
          at: '0',
          sets: [
            { id: 'switch', value: '2' },
            { id: 'bus', value: 'powered' },
          ],
        },
        { at: '30', sets: [{ id: 'speed', value: '120.5' }] },
      ],
      until: '3600',
      expects: [{ at: '32' }],
    },
  ]);
});

/** The content after one replacement, which must find what it replaces. */
function after(from: string, to: string): Reported[] {
  const texts = { 'panels/roof.yaml': PANEL, 'timelines.yaml': TIMELINES };
  const [path, text] = Object.entries(texts).find(([, each]) => each.includes(from)) ?? [];
  if (path === undefined || text === undefined) throw new Error(`nothing says ${JSON.stringify(from)}`);
  return read(filesOf({ ...texts, [path]: text.replace(from, () => to) })).reported;
}

test.each([
  ['an initial mode that is none', 'initial: stopped', 'initial: off', 'SL380', 'off'],
  ['a normal mode that is none', 'normal: running', 'normal: runing', 'SL380', 'runing'],
  ['a mode to leave that is none', 'from: [running, stopped]', 'from: [running, stop]', 'SL380', 'stop'],
  ['no guard', 'to: running, when: speed > 100 kt for 2 s', 'to: running', 'SL381', '{ from: stopped, to: running }'],
  ['a way to itself', 'from: [running, stopped], to: tripped', 'from: [running], to: running', 'SL382', 'running'],
  ['a way out of a final mode', 'from: [running, stopped]', 'from: [running, tripped]', 'SL382', 'tripped'],
  ['a mode named twice', 'from: [running, stopped]', 'from: [running, running]', 'SL217', 'running'],
  ['a start above the capacity', 'start: 12', 'start: 12.6', 'SL384', '12.6'],
  ['a start below zero', 'start: 12', 'start: -1', 'SL384', '-1'],
  ['a capacity of nothing', 'capacity: 12.5', 'capacity: 0', 'SL384', '0'],
  ['a level beyond the capacity on entry', 'pack: 5', 'pack: 13', 'SL384', '13'],
  ['a level that is no number', 'pack: 5', 'pack: five', 'SL330', 'five'],
  ['a rate below zero', 'per-minute: 0.5', 'per-minute: -0.5', 'SL385', '-0.5'],
  ['a rate of zero', 'per-minute: 1', 'per-minute: 0', 'SL385', '0'],
  ['a store that is none', 'sets: { pack: 5 }', 'sets: { pck: 5 }', 'SL386', 'pck'],
  ['a delay without its event', 'since: switch is 2, delay', 'delay', 'SL387', 'delay'],
  ['an event without its delay', ', delay: 1 min +/- 5 s, restarts: true', '', 'SL387', 'since'],
  ['a restart without an event', 'for 2 s }', 'for 2 s, restarts: true }', 'SL387', 'restarts'],
  ['values without what moves', '{ moves: switch, from: 1', '{ from: 1', 'SL388', 'from'],
  ['a trigger that only says while', 'becomes: lamp is lit, while', 'while', 'SL388', '{ while: bus is powered }'],
  ['a value that does not occur', 'to: ["2", AUTO]', 'to: ["2", AUTOO]', 'SL389', 'AUTOO'],
  ['a mode that does not occur', 'moves: unit, to: running', 'moves: unit, to: stop', 'SL389', 'stop'],
  ['a number that moves', 'moves: unit, to: running', 'moves: speed', 'SL397', 'speed'],
  ['an item that moves', 'moves: unit, to: running', 'moves: lamp', 'SL305', 'lamp'],
  ['a first step after zero', 'at: 0 s', 'at: 1 s', 'SL390', '1 s'],
  ['an end before the last step', 'until: 1 h', 'until: 29 s', 'SL390', '29 s'],
  ['an expectation after the end', 'at: 32 s', 'at: 61 min', 'SL390', '61 min'],
  ['a point of time with a tolerance', 'until: 1 h', 'until: 1 h +/- 1 s', 'SL390', '1 h +/- 1 s'],
  ['an aircraft out of service', 'on: 101', 'on: 103', 'SL391', '103'],
  ['an unknown input', 'bus: powered', 'bos: powered', 'SL304', 'bos'],
  ['an item set by a step', 'bus: powered', 'lamp: lit', 'SL393', 'lamp'],
  ['a store set by a step', 'bus: powered', 'pack: 3', 'SL393', 'pack'],
  ['a position that the aircraft lacks', 'switch: 2,', 'switch: AUTO,', 'SL394', 'AUTO'],
  ['a number off its step', '120.5 kt', '120.25 kt', 'SL394', '120.25 kt'],
  ['a number out of range', '120.5 kt', '401 kt', 'SL394', '401 kt'],
  ['a number in another unit', '120.5 kt', '120.5 ft', 'SL394', '120.5 ft'],
  ['a row of what is never seen', 'lamp, call]', 'lamp, speed]', 'SL305', 'speed'],
  ['a row of an attribute that is none', 'lamp, call]', 'lamp.glow, call]', 'SL214', 'lamp.glow'],
  ['a part of a sequence', 'lamp, call]', 'lamp, call.set]', 'SL213', 'call.set'],
  ['a level in a rule', 'burning and speed > 100.5 kt', 'burning and pack > 1 min', 'SL222', 'pack'],
])('%s is reported where it stands', (_, from, to, code, words) => {
  expect(after(from, to)).toEqual([{ code, words }]);
});

test('what a sequence reads that is broken takes it and its timelines out, without further reports', () => {
  const conditions = (SMALL['conditions.yaml'] ?? '')
    .replace('normal: powered', 'normal: on')
    .replace(/never:[\s\S]*/, '');
  const { fleet, reported } = read(
    filesOf({ 'panels/roof.yaml': PANEL, 'timelines.yaml': TIMELINES, 'conditions.yaml': conditions }),
  );
  expect(reported.map(({ code }) => code)).toEqual(['SL309']);
  expect([fleet?.sequences, fleet?.timelines]).toEqual([[], []]);
});

test('a sequence that cannot be read takes out what reads it, without further reports', () => {
  const { fleet, reported } = read(
    filesOf({
      'panels/roof.yaml': PANEL.replace('speed > 100 kt for 2 s', 'speed > 1000 kt for 2 s'),
      'timelines.yaml': TIMELINES,
      'signals.yaml': `${SMALL['signals.yaml']}up:\n  title: Up\n  when: unit is running\n`,
    }),
  );
  expect(reported.map(({ code }) => code)).toEqual(['SL210']);
  expect(fleet?.sequences.map(({ id }) => id)).toEqual(['call', 'hold']);
  expect(fleet?.signals.map(({ id }) => id)).toEqual(['burning']);
  expect([fleet?.sounds, fleet?.timelines]).toEqual([[], []]);
});
