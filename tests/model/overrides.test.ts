/** What is read of overrides and queries. */
import { describe, expect, it } from 'vitest';
import { print } from '../../src/language/index.ts';
import { isInScope } from '../../src/model/scope.ts';
import { ASKED, readItems } from './item-content.ts';

const ITEMS = `  dome:
    kind: light
    title: Dome light
    zone: cabin
    rules: [{ when: switch is 2, then: lit }, { otherwise: dark }]
  exit:
    kind: sign
    title: Exit sign
    legend: EXIT
    zone: cabin
    rules: [{ when: switch is 2, then: lit }, { otherwise: dark }]
  ready:
    kind: annunciator
    title: Ready annunciator
    legend: READY
    attributes:
      lamp: { rules: [{ when: switch is 2, then: lit }, { otherwise: dark }] }
      brightness: { states: { day: {}, night: {} }, rules: [{ when: switch is 2, then: day }, { otherwise: night }] }
`;

function readOverrides(overrides: string, files: Readonly<Record<string, string>> = {}): ReturnType<typeof readItems> {
  return readItems({ items: ITEMS }, { 'overrides.yaml': overrides, ...files });
}

const override = (lines: string, id = 'check'): string => `- id: ${id}\n  title: Override ${id}\n${lines}`;
const WHEN = '  when: gear is up\n  then: lit\n';

describe('overrides', () => {
  it('come out in their order, as they were written', () => {
    const { fleet, reported } = readOverrides(
      override(`  scope: { kinds: [annunciator, sign], panels: [roof] }\n${WHEN}  quiet: true\n  query: Q-1\n`) +
        override('  scope: { items: [ready] }\n  attribute: brightness\n  when: gear is up\n  then: night\n', 'dim'),
      ASKED,
    );
    expect(reported).toEqual([]);
    expect(fleet?.overrides).toMatchObject([
      {
        id: 'check',
        title: 'Override check',
        scope: { kinds: ['annunciator', 'sign'], panels: ['roof'] },
        attribute: 'lamp',
        then: 'lit',
        quiet: true,
        query: 'Q-1',
      },
      { id: 'dim', scope: { items: ['ready'] }, attribute: 'brightness', then: 'night', quiet: false },
    ]);
    expect(fleet?.overrides[0] && print(fleet.overrides[0].when)).toBe('gear is up');
  });

  it.each([
    ['{}', ['lamp', 'dome', 'exit', 'ready']],
    ['{ kinds: [light] }', ['lamp', 'dome']],
    ['{ kinds: [light, sign], zones: [cabin] }', ['dome', 'exit']],
    ['{ zones: [cabin], except: [exit] }', ['dome']],
    ['{ panels: [side] }', []],
    ['{ items: [ready, exit], except: [exit] }', ['ready']],
  ])('touch with the scope %s', (scope, expected) => {
    const side = 'panel: side\ntitle: Side\ncontrols: { knob: { title: Knob, form: knob, positions: { "0": {} } } }\n';
    const { fleet, reported } = readOverrides(override(`  scope: ${scope}\n${WHEN}`), { 'panels/side.yaml': side });
    // A scope without items is a mistake of its own.
    if (expected.length === 0) {
      expect(reported).toEqual([{ code: 'SL374', words: 'lit' }]);
      return;
    }
    const read = fleet?.overrides[0];
    if (!read) throw new Error('no override');
    expect(fleet.items.filter((item) => isInScope(item, read.scope)).map(({ id }) => id)).toEqual(expected);
  });

  it.each([
    ['an unknown panel', `  scope: { panels: [rooff] }\n${WHEN}`, 'SL304', 'rooff'],
    ['an unknown item', `  scope: { items: [domes] }\n${WHEN}`, 'SL304', 'domes'],
    ['a message', `  scope: { except: [lamp-on] }\n${WHEN}`, 'SL305', 'lamp-on'],
    ['messages as a kind', `  scope: { kinds: [message] }\n${WHEN}`, 'SL128', 'message'],
    ['an unknown zone', `  scope: { zones: [cabin, hold] }\n${WHEN}`, 'SL376', 'hold'],
    ['an attribute that nothing has', `  scope: {}\n  attribute: glow\n${WHEN}`, 'SL374', 'lit'],
    ['an unknown state', '  scope: {}\n  when: gear is up\n  then: bright\n', 'SL374', 'bright'],
    ['an unreadable expression', '  scope: {}\n  when: gears are up\n  then: lit\n', 'SL204', 'gears'],
    ['an unknown query', `  scope: {}\n${WHEN}  query: Q-3\n`, 'SL367', 'Q-3'],
    ['an answered query', `  scope: {}\n${WHEN}  query: Q-2\n`, 'SL368', 'Q-2'],
    ['a taken id', `  scope: {}\n${WHEN}`, 'SL302', 'dome', 'dome'],
  ])('are refused with %s, and nothing is judged without them', (_, lines, code, words, id = 'check') => {
    const other = override(`  scope: {}\n${WHEN}  query: Q-1\n`, 'other');
    const { fleet, reported } = readOverrides(override(lines, id) + other, ASKED);
    expect(reported).toEqual([{ code, words }]);
    expect(fleet).toBeUndefined();
  });

  it('are not reported for items that are missing by a mistake of their own', () => {
    const items = ITEMS.replace(
      'brightness: { states: { day: {}, night: {} }',
      'brightness: { states: { day: {}, nigth: {} }',
    );
    const overrides = override('  scope: {}\n  attribute: brightness\n  when: gear is up\n  then: night\n');
    const { reported } = readItems({ items }, { 'overrides.yaml': overrides });
    expect(reported).toEqual([{ code: 'SL325', words: 'night' }]);
  });

  it('that read what they touch go round in a circle', () => {
    const { reported } = readOverrides(
      override('  scope: { items: [dome] }\n  when: exit is lit\n  then: lit\n') +
        override('  scope: { items: [exit] }\n  when: dome is lit\n  then: lit\n', 'other'),
    );
    expect(reported.map(({ code }) => code)).toEqual(['SL328']);
    expect(readOverrides(override('  scope: { items: [dome] }\n  when: exit is lit\n  then: lit\n')).reported).toEqual(
      [],
    );
  });
});

describe('queries', () => {
  const NAMED = override(`  scope: {}\n${WHEN}  query: Q-1\n`);

  it('come out as they were written, with the revision that an answer cites', () => {
    const { fleet, reported } = readOverrides(NAMED, ASKED);
    expect(reported).toEqual([]);
    expect(fleet?.queries).toMatchObject([
      {
        id: 'Q-1',
        title: 'Lamp on the second bus',
        question: 'What does the lamp do?',
        to: 'Owner of D-1',
        asked: '2026-06-01',
      },
      {
        answered: {
          date: '2026-07-02',
          answer: 'It does not.',
          source: { document: 'D-1', paragraph: '3', revision: 'B' },
        },
      },
    ]);
    expect(fleet?.queries[0]?.answered).toBeUndefined();
  });

  it('that are open and named nowhere are told', () => {
    expect(readItems({}, ASKED).reported).toEqual([{ code: 'SL370', words: 'Q-1' }]);
  });

  it('cite documents that there are', () => {
    const queries = ASKED['queries.yaml'].replace('document: D-1', 'document: D-2');
    expect(readOverrides(NAMED, { 'queries.yaml': queries }).reported).toEqual([{ code: 'SL306', words: 'D-2' }]);
  });

  it('in a file that cannot be read are not called unknown', () => {
    const { reported } = readOverrides(NAMED, { 'queries.yaml': 'Q-1: [' });
    expect(reported.map(({ code }) => code)).not.toContain('SL367');
  });
});
