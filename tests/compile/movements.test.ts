/** The fewest movements to a wanted state, by hand and against a trial of every position of every control. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Compiled, fewestMovements, levelOf, valueIds, valueTitle } from '../../src/compile/index.ts';
import { compileSmall } from './small-fleet.ts';

const CONDITIONS = `conditions:
  gear:
    title: Gear
    values: { down: { says: with the gear down }, up: { says: with the gear up } }
never:
  - master is OFF and aux is ON
`;

const panel = (rules: string, more = ''): string => `panel: p
title: P
controls:
  master: { title: Master, form: toggle, positions: { OFF: {}, ON: {} } }
  aux: { title: Aux, form: toggle, positions: { OFF: {}, ON: {} } }
  level: { title: Level, form: knob, positions: { LOW: {}, MID: {}, HIGH: {} } }
items:
  lamp:
    kind: light
    title: Lamp
    policy: first
    rules:
${rules.replace(/^/gm, '      ')}
      - otherwise: dark
${more}`;

/** The steps in words: "Aux ON", "wait: Pump busy"; "none" when nothing leads there. */
function steps(compiled: Compiled, given: Readonly<Record<string, string>>, state = 'lit'): string[] | 'none' {
  const { space, settled, behaviours } = compiled;
  const [fit] = settled;
  const lamp = behaviours.find(({ item }) => item.id === 'lamp');
  if (!fit || !lamp) throw new Error('there is no lamp');
  const start = new Map(
    Object.entries(given).map(([id, value]) => {
      const level = levelOf(space, id);
      const meaning = space.meanings[level];
      return [level, meaning ? valueIds(meaning).indexOf(value) : -1];
    }),
  );
  const found = fewestMovements(compiled, fit, lamp, [state], start);
  return (
    found?.map((step) => {
      if (step.kind === 'wait') return `wait: ${step.sequence.title} ${step.mode}`;
      const meaning = space.meanings[step.level];
      return `${step.control.title} ${meaning ? valueTitle(meaning, step.value) : ''}`;
    }) ?? 'none'
  );
}

const START = { gear: 'down', master: 'OFF', aux: 'OFF', level: 'LOW' };
const compiledOf = (rules: string, more?: string): Compiled =>
  compileSmall({ 'conditions.yaml': CONDITIONS, 'panels/p.yaml': panel(rules, more) }).compiled;

describe('the fewest movements', () => {
  it('are none where the item is in the wanted state already', () => {
    expect(steps(compiledOf('- { when: gear is down, then: lit }'), START)).toEqual([]);
  });

  it('do not go through a case that cannot happen', () => {
    expect(steps(compiledOf('- { when: aux is ON, then: lit }'), START)).toEqual(['Master ON', 'Aux ON']);
  });

  it('leave conditions as they are, so that not everything can be reached', () => {
    expect(steps(compiledOf('- { when: gear is up and aux is ON, then: lit }'), START)).toBe('none');
  });

  it('list the wait where a delay has to elapse', () => {
    const pump = `sequences:
  pump:
    title: Pump
    noun: the pump
    initial: idle
    modes: { idle: { says: with the pump idle }, busy: { says: with the pump busy } }
    transitions:
      - { from: idle, to: busy, when: level is HIGH for 5 s }
      - { from: busy, to: idle, when: level is LOW }
`;
    const compiled = compiledOf('- { when: pump is busy and master is OFF, then: lit }', pump);
    expect(steps(compiled, { ...START, pump: 'idle' })).toEqual(['Level HIGH', 'wait: Pump busy']);
    expect(steps(compiled, { ...START, level: 'MID', pump: 'busy' }, 'dark')).toEqual(['Master ON']);
  });

  it('are as many as the controls that must stand elsewhere, where all cases can happen', () => {
    const literal = fc.constantFrom(
      'master is ON',
      'aux is ON',
      'level is MID',
      'level is HIGH',
      'level is not LOW',
      'master is OFF',
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(literal, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 3 }),
        (cubes) => {
          const rules = cubes.map((cube) => `- { when: ${cube.join(' and ')}, then: lit }`).join('\n');
          const free = CONDITIONS.replace(/never:[\s\S]*/, '');
          const { compiled } = compileSmall({ 'conditions.yaml': free, 'panels/p.yaml': panel(rules) });
          const distances = ['OFF', 'ON'].flatMap((master) =>
            ['OFF', 'ON'].flatMap((aux) =>
              ['LOW', 'MID', 'HIGH'].flatMap((level) => {
                const at: Record<string, string> = { master, aux, level };
                const lit = cubes.some((cube) =>
                  cube.every((text) => {
                    const [name = '', , ...rest] = text.split(' ');
                    return rest[0] === 'not' ? at[name] !== rest[1] : at[name] === rest[0];
                  }),
                );
                const moved = Number(master !== 'OFF') + Number(aux !== 'OFF') + Number(level !== 'LOW');
                return lit ? [moved] : [];
              }),
            ),
          );
          const found = steps(compiled, START);
          expect(found === 'none' ? Number.POSITIVE_INFINITY : found.length).toBe(Math.min(...distances));
        },
      ),
      { numRuns: 60 },
    );
  });
});
