/** Which fits are alike on an item, where they don't have the same controls. */
import { expect, test } from 'vitest';
import { type Compiled, difference } from '../../src/compile/index.ts';
import { compileSmall } from './small-fleet.ts';

const OPTIONS = `knob: { title: Knob, values: { without: {}, with: {} } }
sort: { title: Sort, values: { plain: {}, full: {} } }
`;
const fleet = (rows: readonly string[]): string =>
  [
    'serial,registration,from,to,knob,sort',
    ...rows.map((row, at) => `${at + 1},QQ-A${at},2020-01-01,,${row}`),
    '',
  ].join('\n');
const panel = (item: string): string => `panel: p
title: P
controls:
  kn: { title: Knob, form: knob, fitted: knob is with, positions: { LOW: {}, HIGH: {} } }
items:
  lamp: { kind: light, title: Lamp, ${item} }
`;
const groupsOf = ({ behaviours: [lamp] }: Compiled): string[] =>
  lamp?.groups.map(({ aircraft }) => aircraft.map(({ registration }) => registration).join(' ')) ?? [];

test('what is not fitted is one group, whatever can be set on its aircraft', () => {
  const { compiled, codes } = compileSmall({
    'options.yaml': OPTIONS,
    'aircraft.csv': fleet(['without,plain', 'with,plain', 'with,full', 'unknown,plain']),
    'panels/p.yaml': panel(
      'fitted: sort is full, rules: [{ when: fitted(kn) and kn is LOW, then: lit }, { otherwise: dark }]',
    ),
  });
  expect(codes).toEqual([]);
  expect(groupsOf(compiled)).toEqual(['QQ-A0 QQ-A1 QQ-A3', 'QQ-A2']);
});

test('a control that changes nothing on the one aircraft that has it makes no difference', () => {
  const { compiled, codes } = compileSmall({
    'options.yaml': OPTIONS,
    'aircraft.csv': fleet(['without,plain', 'with,plain', 'with,full']),
    'panels/p.yaml': panel(
      'rules: [{ when: fitted(kn) and kn is LOW and sort is full, then: lit }, { otherwise: dark }]',
    ),
  });
  expect(codes).toEqual([]);
  const [without, plain, full] = compiled.fits;
  const [lamp] = compiled.behaviours;
  if (!lamp || !without || !plain || !full) throw new Error('something is missing');
  expect(difference(compiled, lamp, without, plain)).toEqual({ verdict: 'alike' });
  expect(difference(compiled, lamp, without, full).verdict).toBe('differs');
});

test('a control makes no difference that could only be seen if a latch were missing', () => {
  const { compiled } = compileSmall({
    'options.yaml': OPTIONS,
    'aircraft.csv': fleet(['without,plain', 'with,plain']),
    'panels/p.yaml': `${panel(
      'rules: [{ when: hold is reset, then: dark }, { when: hold is set or (fitted(kn) and kn is LOW), then: dark }]',
    )}latches:
  hold: { title: Hold, set: never, reset: never, wins: reset }
`,
  });
  expect(groupsOf(compiled)).toEqual(['QQ-A0 QQ-A1']);
});
