/** Which movements set a sound off, by hand on small contents. */
import { describe, expect, it } from 'vitest';
import type { Meaning } from '../../src/compile/index.ts';
import { type Compiled, triggerTable, valueTitle, variableTitle } from '../../src/compile/index.ts';
import { compileSmall } from './small-fleet.ts';

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
    const forced = row.forced
      ? `; with ${variableTitle(meaningAt(compiled, row.forced.level))} ${say(meaningAt(compiled, row.forced.level), row.forced.from, row.forced.to)}`
      : '';
    const when =
      row.when === row.possible ? 'always' : row.when === compiled.diagrams.no ? 'never surely' : 'in some cases';
    return `${variableTitle(meaning)}: ${moves}${forced}; ${when}`;
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
    const never = `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
  bus:
    title: Bus
    normal: powered
    values: { powered: { says: with the bus powered }, lost: { says: with the bus lost } }
never:
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
