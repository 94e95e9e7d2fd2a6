/** A quiet override may hang on a message that reads what the override touches: messages read items without it. */
import { expect, it } from 'vitest';
import { makeBook } from '../../src/book/index.ts';
import { both, fitLike } from '../random/both.ts';
import { wrongForm } from '../random/judge-family.ts';
import { seenBehaviour, shownLevels } from '../random/seen-behaviour.ts';
import { BASE } from './small-fleet.ts';

const PANEL = `panel: p
title: P
controls:
  check: { title: Check, form: push-button, positions: { OUT: {}, IN: { returns: OUT } } }
items:
  trip:
    kind: annunciator
    title: Trip
    legend: TRIP
    rules: [{ when: bus is lost, then: lit }, { otherwise: dark }]
  master:
    kind: annunciator
    title: Master
    legend: MASTER
    rules: [{ when: trip is lit or speed > 10 kt, then: lit }, { otherwise: dark }]
messages:
  tripped: { title: Tripped, text: TRIP, class: caution, when: trip-lit and gear is up }
  noted: { title: Noted, text: NOTED, class: advisory, when: master is lit, suppressed-by: [tripped] }
`;

const files = (quiet: boolean, panel = PANEL): Record<string, string> => ({
  ...BASE,
  'signals.yaml': 'trip-lit:\n  title: Trip lit\n  when: trip is lit\n',
  'overrides.yaml': `- { id: shown, title: Shown, scope: { kinds: [annunciator] }, when: tripped is shown or noted is shown, then: lit, quiet: ${quiet} }
- { id: checked, title: Checked, scope: { items: [trip] }, when: check is held, then: dark }
`,
  'panels/p.yaml': panel,
});

const circles = (given: Record<string, string>): unknown[] =>
  both(given).found.flatMap(({ code, facts }) => (code === 'SL328' && 'path' in facts ? [facts.path] : []));

it('is no circle, and means what the oracle finds', () => {
  const { compiled, found, oracle: load } = both(files(true));
  expect(found).toEqual([]);
  if (!compiled) throw new Error('nothing was compiled');
  const oracle = load();
  for (const fit of oracle.fits) {
    for (const behaviour of compiled.behaviours) {
      const levels = shownLevels(compiled, behaviour, oracle, fit);
      const cases = seenBehaviour(compiled, oracle, behaviour, levels, fit);
      expect(
        wrongForm(compiled, behaviour.forms[fitLike(compiled, fit).index] as number, levels, cases),
      ).toBeUndefined();
    }
  }
  // The trip annunciator is lit by the speed alone, through the master, the message and the override.
  const [fit] = oracle.fits;
  const given = { check: 'OUT', bus: 'powered', gear: 'down', speed: '15' };
  expect(fit && oracle.evaluate(fit, 'trip is lit', given)).toBe(true);
  expect(fit && oracle.evaluate(fit, 'trip is lit', { ...given, speed: '5' })).toBe(false);
  expect(makeBook(compiled).pages.filter(({ kind }) => kind === 'item')).toHaveLength(4);
});

it('is a circle where the override is not quiet', () => {
  expect(circles(files(false))[0]).toEqual(['trip-lit', 'trip', 'tripped', 'trip-lit']);
});

it('leaves the circles of rules as they are, each told once', () => {
  const panel = PANEL.replace('when: bus is lost, then', 'when: bus is lost and tripped is shown, then');
  expect(circles(files(true, panel))).toEqual([['trip-lit', 'trip', 'tripped', 'trip-lit']]);
});
