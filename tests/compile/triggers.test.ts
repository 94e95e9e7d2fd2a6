/** Which movements set a sound off, by hand on small contents. */
import { describe, expect, it } from 'vitest';
import type { Meaning } from '../../src/compile/index.ts';
import { type Compiled, triggerTable, valueTitle, variableTitle } from '../../src/compile/index.ts';
import { compileSmall, GEAR_AND_BUS } from './small-fleet.ts';

const panel = (triggers: string, more = ''): string => `panel: p
title: P
controls:
  belts:
    title: Belts
    form: toggle
    positions: { OFF: {}, AUTO: {}, ON: {} }
  call:
    title: Call
    form: push-button
    positions: { OUT: {}, IN: { returns: OUT } }
items:
  sign:
    kind: sign
    title: Sign
    control: belts
    rules:
      - { when: belts is ON or (belts is AUTO and gear is down), then: lit }
      - otherwise: dark
sounds:
  chime:
    title: Chime
    sounds: low chime
    triggers:
${triggers.replace(/^/gm, '      ')}
${more}`;

/** "Belts: OFF to AUTO, OFF to ON": one line for each row, with what is forced and whether it is heard in every case. */
function rows(triggers: string, more?: string, files: Record<string, string> = {}): string[] {
  const { compiled } = compileSmall({ 'panels/p.yaml': panel(triggers, more), ...files });
  const [sound] = compiled.fleet.sounds;
  const [fit] = compiled.settled;
  if (!sound || !fit) throw new Error('there is no sound');
  return triggerTable(compiled, sound, fit).map((row) => {
    const meaning = meaningAt(compiled, row.level);
    const say = (at: Meaning, from: number, to: number): string => `${valueTitle(at, from)} to ${valueTitle(at, to)}`;
    const moves = row.moves.map(([from, to]) => say(meaning, from, to)).join(', ');
    const forced = row.forced.map(({ level, from, to }) => {
      const other = meaningAt(compiled, level);
      return `; with ${variableTitle(other)} ${say(other, from, to)}`;
    });
    const when =
      row.when === row.possible ? 'always' : row.when === compiled.diagrams.no ? 'never surely' : 'in some cases';
    return `${variableTitle(meaning)}: ${moves}${forced.join('')}; ${when}`;
  });
}

function meaningAt({ space }: Compiled, level: number): Meaning {
  const meaning = space.meanings[level];
  if (!meaning) throw new Error(`nothing stands at level ${level}`);
  return meaning;
}

describe('a sound', () => {
  it('that follows each movement of a switch is heard for every pair of positions, and for nothing else', () => {
    expect(rows('- { moves: belts }')).toEqual([
      'Belts: OFF to AUTO, OFF to ON, AUTO to OFF, AUTO to ON, ON to OFF, ON to AUTO; always',
    ]);
  });

  it('with a position to come from is heard from there only', () => {
    expect(rows('- { moves: belts, from: [ON], to: [OFF] }')).toEqual(['Belts: ON to OFF; always']);
  });

  it('that something becomes so is heard whatever made it so', () => {
    expect(rows('- { becomes: sign is lit }')).toEqual([
      'Belts: OFF to AUTO; in some cases',
      'Belts: OFF to ON; always',
      'Belts: AUTO to ON; in some cases',
      'Gear: up to down; in some cases',
    ]);
  });

  it('is not heard where what must hold afterwards does not', () => {
    expect(rows('- { becomes: sign is lit, while: bus is lost and gear is up }')).toEqual([
      'Belts: OFF to ON, AUTO to ON; in some cases',
    ]);
  });

  it('names what has to move too, since the case could not happen otherwise', () => {
    const never = `${GEAR_AND_BUS}never:
  - bus is lost and gear is up
`;
    expect(rows('- { moves: gear, to: [up] }', '', { 'conditions.yaml': never })).toEqual([
      'Gear: down to up; always',
      'Gear: down to up; with Bus lost to powered; always',
    ]);
  });

  it('of a latch comes with the push that sets it', () => {
    const latch = 'latches:\n  held:\n    title: Held\n    set: call is held\n    reset: belts is OFF\n    wins: set\n';
    expect(rows('- { becomes: held is set }', latch)).toEqual(['Call: OUT to IN; with Held reset to set; always']);
  });

  it('is heard whatever else the same push brings with it', () => {
    const latches = `latches:
  held:
    title: Held
    set: call is held
    reset: belts is OFF
    wins: set
  noted:
    title: Noted
    set: call is held
    reset: belts is ON
    wins: set
`;
    expect(rows('- { becomes: held is set }', latches)).toEqual(['Call: OUT to IN; with Held reset to set; always']);
    expect(rows('- { becomes: held is set and noted is set }', latches)).toContain(
      'Call: OUT to IN; with Held reset to set; with Noted reset to set; always',
    );
  });

  it('of a mode to which several transitions lead at once comes with the push that starts them', () => {
    const pump = `sequences:
  pump:
    title: Pump
    noun: the pump
    initial: idle
    modes:
      idle: { says: with the pump idle }
      primed: { says: with the pump primed }
      busy: { says: with the pump busy }
    transitions:
      - { from: [primed, busy], to: idle, when: belts is OFF }
      - { from: idle, to: primed, when: belts is not OFF }
      - { from: primed, to: busy, when: call is held }
`;
    expect(rows('- { becomes: pump is busy }', pump)).toEqual([
      'Belts: OFF to AUTO, OFF to ON; with Pump idle to busy; always',
      'Call: OUT to IN; with Pump primed to busy; always',
    ]);
  });

  it('that a detector sets off comes surely where the number passes its whole tolerance, perhaps from, into and within it', () => {
    const heights = `${GEAR_AND_BUS}  height:
    title: Height
    noun: the height
    number: { unit: ft, from: 0, to: 9000, step: 100 }
detectors:
  high:
    title: High
    trips: height > 5000 ft
    tolerance: 200
    says: high up
    says-not: low down
`;
    expect(rows('- { becomes: high }', '', { 'conditions.yaml': heights })).toEqual([
      'Height: 4,800 ft or below to above 4,800 ft, up to 5,200 ft, above 4,800 ft, up to 5,200 ft to above 4,800 ft, up to 5,200 ft, above 4,800 ft, up to 5,200 ft to above 5,200 ft; never surely',
      'Height: 4,800 ft or below to above 5,200 ft; always',
    ]);
    expect(rows('- { becomes: not high }', '', { 'conditions.yaml': heights })).toEqual([
      'Height: above 4,800 ft, up to 5,200 ft to 4,800 ft or below, above 4,800 ft, up to 5,200 ft to above 4,800 ft, up to 5,200 ft, above 5,200 ft to above 4,800 ft, up to 5,200 ft; never surely',
      'Height: above 5,200 ft to 4,800 ft or below; always',
    ]);
  });

  it('of a mode that time brings comes by itself', () => {
    const pump = `sequences:
  pump:
    title: Pump
    noun: the pump
    initial: idle
    modes: { idle: { says: with the pump idle }, busy: { says: with the pump busy } }
    transitions:
      - { from: idle, to: busy, when: call is held, after: 5 s }
      - { from: busy, to: idle, when: call is released }
`;
    expect(rows('- { moves: pump }', pump)).toEqual([
      'Call: IN to OUT; with Pump busy to idle; always',
      'Pump: idle to busy; always',
    ]);
  });
});
