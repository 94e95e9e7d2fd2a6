/** The stages of procedures: held to the oracle, on content made for it and on the demo, and to examples worked by hand. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileFleet, valueTitle } from '../../src/compile/index.ts';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { loadOracle } from '../oracle/index.ts';
import { both } from '../random/both.ts';
import { compareStages } from './stage-judge.ts';

const BASE: Readonly<Record<string, string>> = {
  'book.yaml':
    'operator: Quillmere Air\ntype: Ostrel 86\ntitle: Stages\nrevision: "1"\ndate: 2026-10-01\nbaseline: "1"\n',
  'options.yaml':
    'mount: { title: Mount, values: { fixed: {}, moving: {} } }\nkit: { title: Kit, values: { none: {}, fitted: {} } }\n',
  'aircraft.csv':
    'serial,registration,from,to,mount,kit\n1,QQ-XAA,2020-01-01,,fixed,none\n2,QQ-XAB,2020-01-01,,moving,fitted\n3,QQ-XAC,2020-01-01,,moving,none\n',
  'conditions.yaml': `conditions:
  gear:
    title: Gear
    values: { down: { says: on the ground }, up: { says: in the air } }
  light:
    title: Ambient light
    values: { day: { says: by day }, night: { says: at night } }
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
  box:
    title: Box
    normal: working
    values: { working: { says: with the box working }, checking: { says: while the box checks } }
  speed: { title: Speed, noun: the speed, number: { unit: kt, from: 0, to: 300, step: 1 } }
detectors:
  fast: { title: Fast, trips: speed > 200 kt, tolerance: 10, says: with it fast, says-not: with it slow }
never:
  - gear is down and speed > 150 kt
  - test is held and box is working
  - test is released and box is checking
`,
  'panels/roof.yaml': `panel: roof
title: Roof panel
controls:
  logo: { title: Logo switch, form: switch, positions: { OFF: {}, ON: {} } }
  stow: { title: Stowage switch, form: switch, fitted: mount is moving, positions: { IN: {}, OUT: {} } }
  run: { title: Run control, form: knob, positions: { STOP: {}, RUN: {}, START: { returns: RUN } } }
  press: { title: Button, form: button, positions: { UP: {}, DOWN: { returns: UP } } }
  test: { title: Test button, form: button, positions: { UP: {}, DOWN: { returns: UP } } }
latches:
  call: { title: Call, set: press is held, reset: speed > 100 kt }
  trial: { title: Trial, set: box is checking, reset: logo is ON }
sequences:
  unit:
    title: Unit
    initial: stopped
    modes:
      stopped: { says: with the unit stopped }
      starting: { says: with the unit starting }
      running: { says: with the unit running }
      tired: { says: with the unit tired }
    stores:
      charge: { title: Charge, unit: min, capacity: 9, start: 9, drains: [{ when: unit is running, per-minute: 1 }] }
    priority: declared
    transitions:
      - { from: stopped, to: starting, when: run is START and bus is powered }
      - { from: [starting, running, tired], to: stopped, when: run is STOP }
      - { from: starting, to: running, since: speed >= 0 kt, delay: 5 s }
      - { from: running, to: tired, when: charge <= 1 min and light is night }
  blink:
    title: Blink
    fitted: kit is fitted
    initial: first
    modes: { first: { says: first }, second: { says: second }, third: { says: third } }
    transitions:
      - { from: first, to: second, when: gear is up for 3 s }
      - { from: second, to: third, after: 2 s }
      - { from: third, to: second, when: gear is up, after: 2 s }
      - { from: third, to: first, when: gear is down and speed < 20 kt }
items:
  logo-lights:
    kind: light
    title: Logo lights
    control: logo
    rules: [{ when: logo is ON and bus is powered and light is night, then: lit }, { otherwise: dark }]
  landing-lights:
    kind: light
    title: Landing lights
    fitted: mount is moving
    control: stow
    rules: [{ when: stow is OUT and not fast, then: lit }, { otherwise: dark }]
  unit-light:
    kind: annunciator
    title: Unit light
    legend: UNIT
    states: { dark: {}, lit: {}, flashing: {} }
    rules:
      - { when: unit is tired, then: flashing }
      - { when: unit is running, then: lit }
      - { otherwise: dark }
  call-light:
    kind: annunciator
    title: Call light
    legend: CALL
    rules: [{ when: call is set or trial is set, then: lit }, { otherwise: dark }]
  blinker:
    kind: light
    title: Blinker
    fitted: kit is fitted
    states: { dark: {}, lit: {}, flashing: {} }
    rules: [{ when: blink is second, then: lit }, { when: blink is third, then: flashing }, { otherwise: dark }]
`,
};

const stagesOf = (text: string): string => `procedure: flight\ntitle: A flight\nstages:\n${text}`;

const BY_HAND = stagesOf(`  parked:
    title: Parked
    conditions: { light: any }
    positions: { test: DOWN }
  start:
    title: Start
    positions: { run: START, press: DOWN, logo: "ON" }
  roll:
    title: Roll
    conditions: { speed: 90 kt to 140 kt }
  climb:
    title: Climb
    conditions: { gear: up, speed: 195 kt to 205 kt }
    positions: { stow: { when: mount is moving, position: OUT } }
  stop:
    title: Stop
    conditions: { gear: down, speed: 0 kt, light: day, unit: running }
    positions: { logo: "OFF" }
`);

describe('the stages of a procedure', () => {
  const { compiled, found, oracle } = both({ ...BASE, 'procedures/flight.yaml': BY_HAND });
  if (!compiled) throw new Error(found.map(({ code }) => code).join(' '));

  test('are those that the oracle works out, in every case that they leave open', () => {
    const { faults, cases, open } = compareStages(compiled, oracle());
    expect(faults).toEqual([]);
    expect(cases).toBeGreaterThan(80);
    expect(open).toBeGreaterThan(20);
  });

  test('leave sequences where an act, delays and stores bring them', () => {
    const modes = (sequence: string, fit: number): string[] =>
      (compiled.procedures[0]?.stages ?? []).map(({ onFits }) => {
        const level = compiled.space.levelOf.get(sequence) as number;
        const stage = onFits[fit] as (typeof onFits)[number];
        const all = Array.from({ length: compiled.space.variables[level]?.size ?? 0 }, (_, value) => value);
        const certain = stage.facts.get(level);
        const can =
          certain === undefined
            ? all.filter((each) => compiled.diagrams.restrict(stage.cases, level, each) !== compiled.diagrams.no)
            : [certain];
        const meaning = compiled.space.meanings[level];
        return can.map((each) => (meaning ? valueTitle(meaning, each) : '')).join(' or ');
      });
    // Worked by hand. By day the unit goes on running; at night its charge runs down until it is tired.
    expect(modes('unit', 1)).toEqual([
      'stopped',
      'running or tired',
      'running or tired',
      'running or tired',
      'running',
    ]);
    // The button sets the call, and above 100 kt it may be reset; at 205 kt it surely is.
    expect(modes('call', 0)).toEqual(['reset', 'set', 'reset or set', 'reset', 'reset']);
    // The test button forces the box to check, which nobody has to say; the logo switch ends the trial.
    expect(modes('trial', 0)).toEqual(['set', 'reset', 'reset', 'reset', 'reset']);
    // In the air it goes round for ever, and never comes back to the first; on the ground it comes to rest.
    expect(modes('blink', 1)).toEqual(['first', 'first', 'first', 'second or third', 'first']);
    expect(modes('blink', 0)).toEqual(Array(5).fill('not fitted'));
  });
});

test('random procedures are those that the oracle works out', () => {
  const values: Readonly<Record<string, readonly string[]>> = {
    gear: ['down', 'up', 'any'],
    light: ['day', 'night', 'any', '[night, day]'],
    bus: ['powered', 'lost', 'any'],
    speed: ['0 kt', '90 kt to 140 kt', '151 kt to 205 kt', '230 kt', 'any'],
  };
  const positions: Readonly<Record<string, readonly string[]>> = {
    logo: ['"OFF"', '"ON"', '[{ when: kit is none, position: "ON" }, { position: "OFF" }]'],
    stow: ['{ when: mount is moving, position: OUT }', '{ when: mount is moving, position: IN }'],
    run: ['STOP', 'RUN', 'START'],
    press: ['UP', 'DOWN'],
    test: ['UP', 'DOWN'],
  };
  const some = (all: Readonly<Record<string, readonly string[]>>): fc.Arbitrary<string> =>
    fc
      .subarray(Object.keys(all))
      .chain((keys) =>
        fc.tuple(...keys.map((key) => fc.constantFrom(...(all[key] ?? [])).map((value) => `${key}: ${value}`))),
      )
      .map((entries) => `{ ${entries.join(', ')} }`);
  const procedure = fc
    .array(fc.tuple(some(values), some(positions)), { minLength: 1, maxLength: 5 })
    .map((stages) =>
      stagesOf(
        stages
          .map(([so, at], index) => `  s${index}:\n    title: S${index}\n    conditions: ${so}\n    positions: ${at}\n`)
          .join(''),
      ),
    );
  const tally = { open: 0, impossible: 0 };
  fc.assert(
    fc.property(procedure, (text) => {
      const { compiled, oracle } = both({ ...BASE, 'procedures/flight.yaml': text });
      if (!compiled) throw new Error('nothing was compiled');
      const { faults, open, impossible } = compareStages(compiled, oracle());
      tally.open += open;
      tally.impossible += impossible;
      if (faults.length > 0) throw new Error(faults.slice(0, 3).join('\n'));
    }),
    { numRuns: 20, seed: 86 },
  );
  expect(tally.open).toBeGreaterThan(200);
  expect(tally.impossible).toBeGreaterThan(4);
}, 60_000);

test('the stages of the demo are those that the oracle works out, item by item as far as a sample goes', () => {
  const root = join(import.meta.dirname, '../../content');
  const paths = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) =>
    statSync(join(root, name)).isFile(),
  );
  const diagnostics = new Diagnostics();
  const fleet = readFleet(
    paths.map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') })),
    diagnostics,
  );
  const compiled = fleet && compileFleet(fleet, diagnostics);
  if (!compiled) throw new Error('the demo does not compile');
  expect(compiled.procedures[0]?.stages).toHaveLength(12);
  let count = 0;
  const { faults, cases, open } = compareStages(compiled, loadOracle(root), ({ fit }) => {
    count += 1;
    return fit % 5 === 0 && count % 7 === 0;
  });
  expect(faults).toEqual([]);
  expect(cases).toBeGreaterThan(400);
  expect(open).toBeGreaterThan(40);
}, 120_000);
