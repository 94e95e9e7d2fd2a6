/** What goes on is open where it hangs on what is not stated: nobody learns from the explorer what the documents do not say. */
import { expect, it } from 'vitest';
import { Explorer, explorable, levelOf, type Situation } from '../../src/compile/index.ts';
import { both } from '../random/both.ts';

const FILES = {
  'book.yaml': 'operator: O\ntype: T\ntitle: B\nrevision: "1"\ndate: 2026-01-01\nbaseline: "1"\n',
  'options.yaml': '{}\n',
  'aircraft.csv': 'serial,registration,from,to\n1,QQ-ONE,2020-01-01,\n',
  'conditions.yaml':
    'conditions:\n  door: { title: Door, values: { shut: { says: with the door shut }, open: { says: with the door open } } }\n',
  'queries.yaml': 'Q-1: { title: Q, question: Is it lit?, to: O, asked: 2025-11-03 }\n',
  'panels/p.yaml': `panel: p
title: P
controls:
  sw: { title: Switch, form: toggle, positions: { OFF: {}, ON: {} } }
latches:
  hold: { title: Hold, set: asked is lit, reset: sw is OFF, wins: reset }
items:
  asked:
    kind: light
    title: Asked
    rules:
      - { when: sw is ON, then: not stated, query: Q-1 }
      - { otherwise: dark }
  follows:
    kind: light
    title: Follows
    rules:
      - { when: hold is set, then: lit }
      - { otherwise: dark }
  certain:
    kind: light
    title: Certain
    rules:
      - { when: sw is ON, then: lit }
      - { otherwise: dark }
`,
};

it('says of nothing that hangs on an open query what it is, and supposes either answer', () => {
  const { compiled, found } = both(FILES);
  if (!compiled) throw new Error(`the content does not compile: ${JSON.stringify(found)}`);
  const explorer = new Explorer(explorable(compiled));
  const [fit] = compiled.fits;
  if (!fit) throw new Error('there is no fit');
  const level = levelOf(compiled.space, 'sw');
  const start = explorer.start(fit);
  const said = (situation: Situation): string[] =>
    explorer.outcomes(situation, fit).map((outcome) => {
      const meant = compiled.outcomes.meaning(outcome);
      return meant.kind === 'state' ? meant.state : meant.kind;
    });
  expect(said(start)).toEqual(['dark', 'dark', 'dark']);
  const on = explorer.after(start, { kind: 'set', values: new Map([[level, 1]]) }) as Situation;
  expect(said(on)).toEqual(['not stated', 'not stated', 'lit']);
  const hold = levelOf(compiled.space, 'hold');
  expect(explorer.open(on, hold)).toHaveLength(2);
  const supposed = explorer
    .open(on, hold)
    .map((value) => explorer.after(on, { kind: 'suppose', level: hold, value }) as Situation);
  expect(supposed.map((each) => said(each)[1]).sort()).toEqual(['dark', 'lit']);
  const off = explorer.after(on, { kind: 'set', values: new Map([[level, 0]]) }) as Situation;
  expect(said(off)).toEqual(['dark', 'dark', 'dark']);
});
