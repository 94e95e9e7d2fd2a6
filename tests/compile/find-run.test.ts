/** Runs that lead sequences into a mode: worked by hand, and on random sequences held to what can be reached at all. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Compiled } from '../../src/compile/index.ts';
import { findRun } from '../../src/compile/time/index.ts';
import { content, written } from './random-sequences.ts';
import { compileTime, tryTime } from './time-content.ts';

const TIMELINE = 'one: { title: One, on: 1, shows: [unit], steps: [{ at: 0 s, set: { bus: powered } }], until: 1 s }\n';

function unit(transitions: readonly string[], stores = ''): string {
  const modes = ['stopped', 'starting', 'running', 'worn'].map((mode) => `      ${mode}: { says: with it ${mode} }\n`);
  return `  unit:
    title: Unit
    initial: stopped
    modes:
${modes.join('')}${stores}    transitions:
${transitions.map((each) => `      - ${each}\n`).join('')}`;
}

function runTo(compiled: Compiled, wanted: Readonly<Record<string, string>>): readonly string[] | undefined {
  const [fit] = compiled.settled;
  const [family] = compiled.families[0] ?? [];
  const care = compiled.possible[0]?.whole;
  if (!fit || !family || care === undefined) throw new Error('nothing was compiled');
  return findRun(compiled, fit, family.sequences, new Map(Object.entries(wanted)), care);
}

test('a run says what moves, and when what follows', () => {
  const compiled = compileTime(
    unit([
      '{ from: stopped, to: starting, when: knob is START }',
      '{ from: starting, to: running, when: speed >= 95 % for 2 s }',
      '{ from: running, to: stopped, when: knob is OFF, after: 60 s }',
    ]),
    TIMELINE,
  );
  expect(runTo(compiled, { unit: 'stopped' })).toEqual([]);
  expect(runTo(compiled, { unit: 'running' })).toEqual([
    'at 1 s, Knob: START',
    'at 1 s, Unit: stopped → starting',
    'at 2 s, Speed: 95 %',
    'at 4 s, Unit: starting → running',
  ]);
  expect(runTo(compiled, { unit: 'worn' })).toBeUndefined();
});

test('a run waits for a store and stays clear of what never happens', () => {
  const store =
    '    stores:\n      pack: { title: Pack, unit: min, capacity: 2, start: 2, drains: [{ when: unit is starting, per-minute: 1 }] }\n';
  const compiled = compileTime(
    unit(
      [
        '{ from: stopped, to: starting, when: speed > 100 % }',
        '{ from: starting, to: running, when: bus is lost }',
        '{ from: running, to: worn, when: pack <= 0.5 min }',
        '{ from: running, to: starting, when: bus is powered }',
      ],
      store,
    ),
    TIMELINE,
  );
  // 1.5 min of the pack are used up at 91 s. With the bus lost the speed is never above 100 %, so that it has to come down
  // before the bus is lost.
  expect(runTo(compiled, { unit: 'worn' })).toEqual([
    'at 1 s, Speed: 100.5 %',
    'at 1 s, Unit: stopped → starting',
    'at 92 s, Speed: 0 %',
    'at 93 s, Bus: lost',
    'at 93 s, Unit: starting → running',
    'at 93 s, Unit: running → worn',
  ]);
});

test('every run that is found leads to modes that an untimed run leads to as well', () => {
  let found = 0;
  fc.assert(
    fc.property(content, (random) => {
      const { panel, timeline } = written(random);
      const { compiled } = tryTime(panel, timeline);
      if (!compiled) return;
      const [fit] = compiled.settled;
      const care = compiled.possible[0]?.whole;
      if (!fit || care === undefined) throw new Error('nothing was compiled');
      for (const { sequences, resting } of compiled.families[0] ?? []) {
        for (const mode of sequences[0]?.modes ?? []) {
          const wanted = new Map([[sequences[0]?.id ?? '', mode.id]]);
          const run = findRun(compiled, fit, sequences, wanted, care);
          if (run) found += 1;
          const reached = [...resting.values()].some(([first]) => first === mode.id);
          expect([mode.id, reached || run === undefined]).toEqual([mode.id, true]);
        }
      }
    }),
    { numRuns: 60 },
  );
  expect(found).toBeGreaterThan(60);
});
