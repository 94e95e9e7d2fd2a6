/** Who listens to a detector, where nothing but a sequence or a sound does. */
import { expect, it } from 'vitest';
import { makeBook } from '../../src/book/index.ts';
import { CONDITIONS, compileSmall } from '../compile/small-fleet.ts';

const DETECTORS = ['for-sequence', 'for-store', 'for-sound', 'for-nobody'];

const FILES = {
  'conditions.yaml': `${CONDITIONS}detectors:
${DETECTORS.map(
  (id, at) => `  ${id}:
    title: Detector ${id}
    trips: speed > ${at + 5} kt
    tolerance: 0
    says: with detector ${id} tripped
    says-not: with detector ${id} not tripped
`,
).join('')}`,
  'signals.yaml': 'quick:\n  title: Quick\n  when: for-sound and gear is up\n',
  'panels/p.yaml': `panel: p
title: P
sequences:
  pump:
    title: Pump
    initial: idle
    modes: { idle: { says: with the pump idle }, busy: { says: with the pump busy } }
    transitions:
      - { from: idle, to: busy, when: for-sequence }
      - { from: busy, to: idle, when: not for-sequence }
  heater:
    title: Heater
    initial: cold
    modes: { cold: { says: with the heater cold }, warm: { says: with the heater warm } }
    stores:
      heat: { title: Heat, unit: min, capacity: 5, start: 0, fills: [{ when: for-store, per-minute: 1 }], drains: [{ when: not for-store, per-minute: 1 }] }
    transitions:
      - { from: cold, to: warm, when: heat >= 4 min }
      - { from: warm, to: cold, when: heat <= 1 min }
sounds:
  horn:
    title: Horn
    sounds: low horn
    triggers: [{ becomes: bus is lost, while: quick }]
`,
};

it('is told of a detector that only a sequence, a store or a sound reads', () => {
  const { compiled, codes } = compileSmall(FILES);
  expect(codes).toEqual([]);
  const page = makeBook(compiled).pages.find(({ address }) => address === 'conditions/speed.html');
  if (page?.kind !== 'condition') throw new Error('there is no page of the speed');
  const readers = page.detectors.map(({ id, readBy }) => [id, readBy.map(({ title }) => title)]);
  expect(readers).toEqual([
    ['detector-for-sequence', ['Pump']],
    ['detector-for-store', ['Heater']],
    ['detector-for-sound', ['Horn']],
    ['detector-for-nobody', []],
  ]);
});
