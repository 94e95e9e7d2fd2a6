/** What is read of messages that are held back or latched, and of supplies. */
import { describe, expect, it } from 'vitest';
import { print } from '../../src/language/index.ts';
import { itemOf, readItems, rulesOf } from './item-content.ts';

const SIGNALS = `burning: { title: Burning, when: lamp is lit }
roll: { title: Take-off roll, when: speed > 80 kt and gear is down }
taxi: { title: Taxi, when: speed < 30 kt }
`;

function message(id: string, lines: string): string {
  return `  ${id}:\n    title: Message ${id}\n    text: MSG\n    class: caution\n${lines}`;
}

function readMessages(messages: string): ReturnType<typeof readItems> {
  return readItems({ messages }, { 'signals.yaml': SIGNALS });
}

/** The transitions of a sequence as "from → to when". */
function transitionsOf({ fleet }: ReturnType<typeof readItems>, id: string): string[] {
  const sequence = fleet?.sequences.find((each) => each.id === id);
  return (sequence?.transitions ?? []).map(
    ({ from, to, guard }) => `${from.join()} → ${to} when ${guard ? print(guard.when) : 'always'}`,
  );
}

describe('a message', () => {
  it('is held back by its inhibitions and by what takes its place, in front of what raises it', () => {
    const held = message(
      'low',
      '    inhibit: [roll, taxi]\n    suppressed-by: [lamp-on]\n    when: bus is lost\n    fitted: lamp-control is manual\n',
    );
    const { fleet, reported } = readMessages(held);
    expect(reported).toEqual([]);
    const low = itemOf(fleet, 'low');
    expect(low).toMatchObject({ inhibit: ['roll', 'taxi'], suppressedBy: ['lamp-on'] });
    expect(low.latch).toBeUndefined();
    expect(low.attributes[0]?.policy).toBe('first');
    expect(low.attributes[0] && rulesOf(low.attributes[0])).toEqual([
      'roll → not-shown',
      'taxi → not-shown',
      'lamp-on.display is shown → not-shown',
      'bus is lost → shown',
      'otherwise → not-shown',
    ]);
  });

  it('may have rules behind what holds it back', () => {
    const held = message(
      'low',
      '    inhibit: [roll]\n    rules: [{ when: bus is lost, then: shown }, { otherwise: not-shown }]\n',
    );
    const { fleet, reported } = readMessages(held);
    expect(reported).toEqual([]);
    const [display] = itemOf(fleet, 'low').attributes;
    expect(display && rulesOf(display)).toEqual(['roll → not-shown', 'bus is lost → shown', 'otherwise → not-shown']);
  });

  it('keeps its policy where nothing holds it back', () => {
    const free = message(
      'low',
      '    policy: unique\n    rules: [{ when: bus is lost, then: shown }, { otherwise: not-shown }]\n',
    );
    expect(itemOf(readMessages(free).fleet, 'low').attributes[0]?.policy).toBe('unique');
  });

  it('is latched by a sequence of its own, which nothing that arises in an inhibition sets', () => {
    const read = readMessages(
      message('low', '    inhibit: [roll, taxi]\n    when: bus is lost\n    latched: { reset: switch is 1 }\n'),
    );
    expect(read.reported).toEqual([]);
    const low = itemOf(read.fleet, 'low');
    expect(low.latch).toBe('low-latch');
    expect(low.attributes[0] && rulesOf(low.attributes[0])).toEqual([
      'roll → not-shown',
      'taxi → not-shown',
      'low-latch is set → shown',
      'otherwise → not-shown',
    ]);
    expect(read.fleet?.sequences).toMatchObject([
      { id: 'low-latch', kind: 'latch', panel: 'roof', initial: 'reset', modes: [{ id: 'reset' }, { id: 'set' }] },
    ]);
    expect(transitionsOf(read, 'low-latch')).toEqual([
      'reset → set when bus is lost and not roll and not taxi',
      'set → reset when switch is 1 and not (bus is lost and not roll and not taxi)',
    ]);
  });

  it('may be raised through an inhibition, and let the reset win', () => {
    const read = readMessages(
      message(
        'low',
        '    inhibit: [roll]\n    when: bus is lost\n    latched: { reset: switch is 1, wins: reset, through-inhibit: true }\n',
      ),
    );
    expect(read.reported).toEqual([]);
    expect(transitionsOf(read, 'low-latch')).toEqual([
      'reset → set when bus is lost and not switch is 1',
      'set → reset when switch is 1',
    ]);
  });

  it('has a latch that others can read', () => {
    const { reported } = readMessages(
      message('low', '    when: bus is lost\n    latched: { reset: switch is 1 }\n') +
        message('told', '    when: low-latch is set\n'),
    );
    expect(reported).toEqual([]);
  });

  it.each([
    ['an inhibition that is no signal', '    inhibit: [bus]\n    when: bus is lost\n', 'SL305', 'bus'],
    ['an unknown inhibition', '    inhibit: [rol]\n    when: bus is lost\n', 'SL304', 'rol'],
    ['a light that takes its place', '    suppressed-by: [lamp]\n    when: bus is lost\n', 'SL305', 'lamp'],
    ['itself in its place', '    suppressed-by: [low]\n    when: bus is lost\n', 'SL372', 'low'],
    [
      'a latch over rules',
      '    rules: [{ otherwise: shown }]\n    latched: { reset: switch is 1 }\n',
      'SL371',
      'latched',
    ],
    ['an unreadable reset', '    when: bus is lost\n    latched: { reset: switch is 3 }\n', 'SL205', '3'],
    ['an unreadable reason', '    when: bus is lots\n    latched: { reset: switch is 1 }\n', 'SL205', 'lots'],
  ])('is refused with %s, and what reads it is not reported', (_, lines, code, words) => {
    const { fleet, reported } = readMessages(message('low', lines) + message('told', '    when: low is shown\n'));
    expect(reported).toEqual([{ code, words }]);
    expect(fleet?.items.map(({ id }) => id)).toEqual(['lamp', 'lamp-on']);
    expect(fleet?.sequences).toEqual([]);
  });

  it('cannot take the place of what takes its own', () => {
    const { fleet, reported } = readMessages(
      message('low', '    suppressed-by: [high]\n    when: bus is lost\n') +
        message('high', '    suppressed-by: [low]\n    when: bus is lost\n'),
    );
    expect(fleet).toBeUndefined();
    expect(reported.map(({ code }) => code)).toEqual(['SL328']);
  });

  it('takes its latch with it where it cannot be used', () => {
    const { reported } = readMessages(
      message('low', '    whenn: bus is lost\n    latched: { reset: switch is 1 }\n') +
        message('told', '    when: low-latch is set\n'),
    );
    expect(reported).toEqual([{ code: 'SL120', words: 'whenn' }]);
  });

  it('shares the name of its latch with nothing', () => {
    const { reported } = readMessages(
      message('low', '    when: bus is lost\n    latched: { reset: switch is 1 }\n') +
        message('low-latch', '    when: bus is lost\n'),
    );
    expect(reported.map(({ code }) => code)).toEqual(['SL302']);
  });
});

describe('a supply', () => {
  const SUPPLIES = `supplies:
  main:
    title: Main bus
    fed: [{ from: bus }]
  spare:
    title: Spare bus
    noun: the standby bus
    fed:
      - { from: main, when: switch is 2 }
      - { from: bus-b }
      - { from: main }
    unless: gear is up
`;

  it('is fed by the first of its feeders that can, and lost when none does', () => {
    const { fleet, reported } = readItems({ after: SUPPLIES });
    expect(reported).toEqual([]);
    expect(fleet?.items.map(({ id, kind }) => [id, kind])).toEqual([
      ['main', 'supply'],
      ['spare', 'supply'],
      ['lamp', 'light'],
      ['lamp-on', 'message'],
    ]);
    const spare = itemOf(fleet, 'spare');
    expect(spare).toMatchObject({ panel: 'roof', noun: 'the standby bus', supply: ['main', 'bus-b', 'main'] });
    const [source] = spare.attributes;
    expect(source).toMatchObject({ id: 'source', policy: 'first' });
    expect(source?.states.map(({ id, title, glyph }) => [id, title, glyph])).toEqual([
      ['from-main', 'from main bus', 'none'],
      ['from-bus-b', 'from bus B', 'none'],
      ['lost', 'lost', 'none'],
    ]);
    expect(source && rulesOf(source)).toEqual([
      'gear is up → lost',
      'not main.source is lost and switch is 2 → from-main',
      'not not bus-b is powered → from-bus-b',
      'not main.source is lost → from-main',
      'otherwise → lost',
    ]);
  });

  it('is powered, lost or fed from one of its feeders', () => {
    const claims = `- { sentence: One., holds: spare is powered or spare is lost }
- { sentence: Two., holds: spare is from-main implies spare is powered }
`;
    const { fleet, reported } = readItems({ after: SUPPLIES }, { 'claims.yaml': claims });
    expect(reported).toEqual([]);
    expect(fleet?.claims[0]?.expression).toMatchObject({ args: [{ values: ['from-main', 'from-bus-b'] }, {}] });
  });

  it('can feed items whose rules read it', () => {
    const fed = `  dome:
    kind: light
    title: Dome light
    supply: [spare, main]
    rules: [{ when: spare is lost, then: dark }, { otherwise: lit }]
`;
    expect(readItems({ items: fed, after: SUPPLIES }).reported).toEqual([]);
    const unread = fed.replace('spare is lost', 'switch is 1');
    expect(readItems({ items: unread, after: SUPPLIES }).reported.map(({ code }) => code)).toEqual(['SL326', 'SL326']);
  });

  it.each([
    ['a feeder without a normal value', '{ from: gear }', 'SL373', 'gear'],
    ['a control as feeder', '{ from: switch }', 'SL305', 'switch'],
    ['an unknown feeder', '{ from: bus-c }', 'SL304', 'bus-c'],
    ['a feeder under an unknown condition', '{ from: bus, when: gears are up }', 'SL204', 'gears'],
  ])('is refused with %s, and what reads it is not reported', (_, feeder, code, words) => {
    const after = `supplies:\n  main: { title: Main bus, fed: [${feeder}] }\n  next: { title: Next bus, fed: [{ from: main }] }\n`;
    const { fleet, reported } = readItems({ after });
    expect(reported).toEqual([{ code, words }]);
    expect(fleet?.items.map(({ id }) => id)).toEqual(['lamp', 'lamp-on']);
  });

  it('feeds nothing that feeds it', () => {
    const after = `supplies:
  main: { title: Main bus, fed: [{ from: next }] }
  next: { title: Next bus, fed: [{ from: main }] }
`;
    const { reported } = readItems({ after });
    expect(reported.map(({ code }) => code)).toEqual(['SL328']);
  });
});
