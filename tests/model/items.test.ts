/** What is read of items: lamps, what is not stated, decision tables, zones, legends and stations. */
import { describe, expect, it } from 'vitest';
import { ASKED, itemOf, readItems, rulesOf } from './item-content.ts';

const OWN_RULES = `    rules:
      - { when: switch is 2, then: lit }
      - { otherwise: dark }
`;

function light(id: string, lines: string): string {
  return `  ${id}:\n    kind: light\n    title: Light ${id}\n${lines}`;
}

describe('a light with lamps', () => {
  const lamps = `    control: switch
${OWN_RULES}    lamps:
      left: { title: left lamp, at: left wing tip, side: left, colour: red, supply: [bus, bus-b] }
      tail: { when: not tips.left is failed }
      own:
        supply: [spare]
        rules: [{ when: gear is up, then: lit }, { when: gear is down, then: dark }]
`;
  const supplies = 'supplies: { spare: { title: Spare bus, fed: [{ from: bus }] } }\n';
  const { fleet, reported } = readItems({ items: light('tips', lamps), after: supplies });

  it('has an attribute for each, beside the one that drives them', () => {
    expect(reported).toEqual([]);
    const { attributes } = itemOf(fleet, 'tips');
    expect(attributes.map(({ id, title, control, policy }) => [id, title, control, policy])).toEqual([
      ['lamp', 'lamp', 'switch', 'any'],
      ['left', 'left lamp', 'switch', 'first'],
      ['tail', 'tail', 'switch', 'first'],
      ['own', 'own', 'switch', 'first'],
    ]);
    expect(attributes.map(({ lamp }) => lamp)).toEqual([
      undefined,
      { at: 'left wing tip', side: 'left', colour: 'red', supply: ['bus', 'bus-b'] },
      { supply: [] },
      { supply: ['spare'] },
    ]);
  });

  it('leaves a lamp dark that has failed, has no supply or lacks what it needs, and else as it is driven', () => {
    const [, left, tail, own] = itemOf(fleet, 'tips').attributes;
    expect(left && rulesOf(left)).toEqual([
      'tips.left is failed → dark',
      'not bus is powered → dark',
      'not bus-b is powered → dark',
      'tips.lamp is lit → lit',
      'otherwise → dark',
    ]);
    expect(tail && rulesOf(tail)).toEqual([
      'tips.tail is failed → dark',
      'not not tips.left is failed → dark',
      'tips.lamp is lit → lit',
      'otherwise → dark',
    ]);
    expect(own && rulesOf(own)).toEqual([
      'tips.own is failed → dark',
      'spare.source is lost → dark',
      'gear is up → lit',
      'gear is down → dark',
    ]);
  });

  it('follows each state that is not dark, and the attribute called lamp where there are several', () => {
    const attributes = `    attributes:
      lamp:
        states: { dark: {}, dim: {}, bright: {} }
        rules: [{ when: switch is 2, then: bright }, { when: switch is 1, then: dim }, { otherwise: dark }]
      cover:
        states: { shut: {}, open: {} }
        rules: [{ when: gear is up, then: shut }, { otherwise: open }]
    lamps: { left: {} }
`;
    const read = readItems({ items: light('steps', attributes) });
    expect(read.reported).toEqual([]);
    const left = itemOf(read.fleet, 'steps').attributes[2];
    expect(left?.states.map(({ id }) => id)).toEqual(['dark', 'dim', 'bright']);
    expect(left && rulesOf(left).slice(1)).toEqual([
      'steps.lamp is dim → dim',
      'steps.lamp is bright → bright',
      'otherwise → dark',
    ]);
  });

  it.each([
    ['a supply that is not there', 'left: { supply: [buss] }', 'SL304', 'buss'],
    ['a condition as supply that is never called lost', 'left: { supply: [gear] }', 'SL373', 'gear'],
    ['a number as supply', 'left: { supply: [speed] }', 'SL373', 'speed'],
    ['a control as supply', 'left: { supply: [switch] }', 'SL305', 'switch'],
    ['a state that the light does not have', 'left: { rules: [{ otherwise: dim }] }', 'SL325', 'dim'],
    ['two lamps of one title', 'left: { title: right }, right: {}', 'SL307', 'right'],
  ])('reports %s', (_, written, code, words) => {
    const read = readItems({ items: light('tips', `${OWN_RULES}    lamps: { ${written} }\n`) });
    expect(read.reported).toEqual([{ code, words }]);
  });
});

describe('what is not stated', () => {
  it('names the query, in a rule and in what is left', () => {
    const rules = `    rules:
      - { when: switch is 2, then: lit, in-every-case: true }
      - { when: switch is 1, then: not stated, query: Q-1 }
      - { otherwise: not stated, query: Q-1 }
`;
    const { fleet, reported } = readItems({ items: light('dome', rules) }, ASKED);
    expect(reported).toEqual([]);
    const [lamp] = itemOf(fleet, 'dome').attributes;
    expect(lamp && rulesOf(lamp)).toEqual([
      'switch is 2 → lit',
      'switch is 1 → not stated Q-1',
      'otherwise → not stated Q-1',
    ]);
    expect(lamp?.rules.map(({ inEveryCase }) => inEveryCase)).toEqual([true, undefined, undefined]);
  });

  it('can be a state that an author calls so without meaning it', () => {
    const rules = '    rules: [{ when: switch is 2, then: not-stated }, { otherwise: dark }]\n';
    expect(readItems({ items: light('dome', rules) }).reported).toEqual([{ code: 'SL325', words: 'not-stated' }]);
  });

  it.each([
    ['no query', 'not stated }', 'SL369', 'not stated'],
    ['an unknown query', 'not stated, query: Q-3 }', 'SL367', 'Q-3'],
    ['an answered query', 'not stated, query: Q-2 }', 'SL368', 'Q-2'],
    ['a query about what is stated', 'dark, query: Q-1 }', 'SL369', 'Q-1'],
  ])('is an error with %s', (_, written, code, words) => {
    const rules = `    rules: [{ when: switch is 2, then: lit }, { otherwise: ${written}]\n`;
    const other = light('other', '    rules: [{ otherwise: not stated, query: Q-1 }]\n');
    const { reported } = readItems({ items: `${light('dome', rules)}${other}` }, ASKED);
    expect(reported).toEqual([{ code, words }]);
  });
});

describe('a decision table', () => {
  const asTable = light('dome', '    rules: { table: dome.csv }\n');
  const readTable = (table: string): ReturnType<typeof readItems> =>
    readItems({ items: asTable }, { 'tables/dome.csv': table, ...ASKED });

  it('is a rule for each row, with its tests joined', () => {
    const { fleet, reported } = readTable(`switch,gear,speed,burning,lamp,then,query
"2, AUTO",not up,> 240 kt,yes,lit,lit,
1,-,,,,dark,
,,,no,,not stated,Q-1
,-,,,,dark,
`);
    expect(reported).toEqual([]);
    const [lamp] = itemOf(fleet, 'dome').attributes;
    expect(lamp && rulesOf(lamp)).toEqual([
      'switch in (2, AUTO) and not gear is up and speed > 240 kt and burning and lamp.lamp is lit → lit',
      'switch is 1 → dark',
      'not burning → not stated Q-1',
      'otherwise → dark',
    ]);
  });

  it('can stand under attributes and messages, with a policy beside it', () => {
    const attributes = `    attributes:
      cover: { policy: first, states: { shut: {}, open: {} }, rules: { table: cover.csv } }
`;
    const message = '  told: { title: Told, text: TOLD, class: advisory, rules: { table: told.csv } }\n';
    const { fleet, reported } = readItems(
      { items: light('dome', attributes), messages: message },
      {
        'tables/cover.csv': 'lamp.lamp,then\nlit,open\n,shut\n',
        'tables/told.csv': 'dome.cover,then\nopen,shown\n,not-shown\n',
      },
    );
    expect(reported).toEqual([]);
    const [cover] = itemOf(fleet, 'dome').attributes;
    expect([cover?.policy, cover && rulesOf(cover)]).toEqual([
      'first',
      ['lamp.lamp is lit → open', 'otherwise → shut'],
    ]);
    const [display] = itemOf(fleet, 'told').attributes;
    expect(display && rulesOf(display)).toEqual(['dome.cover is open → shown', 'otherwise → not-shown']);
  });

  it('points at words within a quoted cell', () => {
    expect(readTable('switch,then\n"2, AUTP",lit\n,dark\n').reported).toEqual([{ code: 'SL205', words: 'AUTP' }]);
  });

  it.each([
    ['an unknown column', 'swich,then\n2,lit\n,dark\n', 'SL364', 'swich'],
    ['a column under a former name', 'toggle,then\n2,lit\n,dark\n', 'SL358', 'toggle'],
    ['a column behind the state', 'switch,then,gear\n2,lit,up\n,dark,\n', 'SL364', 'gear'],
    ['no column for the state', 'switch,state\n2,lit\n,dark\n', 'SL364', 'switch'],
    ['a row without a state', 'switch,then\n2,\n,dark\n', 'SL321', '2,'],
    ['an unknown state', 'switch,then\n2,dimm\n,dark\n', 'SL325', 'dimm'],
    ['rows below the one that takes the rest', 'switch,then\n,dark\n2,lit\n', 'SL323', ',dark'],
    ['a row that is too short', 'switch,gear,then\n2,lit\n,,dark\n', 'SL143', '2,lit'],
    ['a number without its unit', 'speed,then\n> 240,lit\n,dark\n', 'SL209', '240'],
  ])('is an error with %s, and nothing follows from it', (_, table, code, words) => {
    const side =
      'panel: side\ntitle: Side\ncontrols:\n  knob: { title: Knob, formerly: [toggle], form: knob, positions: { "2": {} } }\n';
    const { reported } = readItems({ items: asTable }, { 'tables/dome.csv': table, 'panels/side.yaml': side });
    expect(reported).toEqual([{ code, words }]);
  });

  it('has to be there', () => {
    const { reported } = readItems({ items: asTable }, { 'tables/other-name.csv': 'switch,then\n2,lit\n,dark\n' });
    // The other file may be the one that is meant: it is not reported too.
    expect(reported).toEqual([{ code: 'SL363', words: 'dome.csv' }]);
  });

  it.each(['table/dome.csv', 'tables/roof/dome.csv', 'dome.csv', 'tables/DOME.CSV'])(
    'is not missed where %s is reported',
    (path) => {
      const { reported } = readItems({ items: asTable }, { [path]: 'switch,then\n2,lit\n,dark\n' });
      expect(reported).toEqual([{ code: 'SL103', words: '' }]);
    },
  );

  it('has to be read', () => {
    const { reported } = readItems({}, { 'tables/dome.csv': 'switch,then\n2,lit\n,dark\n' });
    expect(reported).toEqual([{ code: 'SL365', words: '' }]);
  });
});

describe('an item', () => {
  it('may be in a zone, have legends by option, and be asked for by several controls', () => {
    const sign = `  exit:
    kind: sign
    title: Exit sign
    zone: cabin
    legend: EXIT
    legends: [{ when: lamp-control is automatic, legend: WAY OUT }]
    stations: [switch, other]
${OWN_RULES}`;
    const other = '  other: { title: Other, form: knob, positions: { OFF: {}, ON: {} } }\n';
    const { fleet, reported } = readItems(
      { items: sign },
      {
        'panels/side.yaml': `panel: side\ntitle: Side\ncontrols:\n${other}`,
      },
    );
    expect(reported).toEqual([]);
    const exit = itemOf(fleet, 'exit');
    expect(exit).toMatchObject({ zone: 'cabin', legend: 'EXIT', stations: ['switch', 'other'] });
    expect(exit.legends).toMatchObject([{ legend: 'WAY OUT', when: { of: { id: 'lamp-control' } } }]);
    expect(exit.attributes[0]?.control).toBe('switch');
  });

  it('has the control that it names among its stations', () => {
    const lines = `    control: switch\n    stations: [other]\n${OWN_RULES}`;
    const side = 'panel: side\ntitle: Side\ncontrols:\n  other: { title: Other, form: knob, positions: { OFF: {} } }\n';
    const { reported } = readItems({ items: light('dome', lines) }, { 'panels/side.yaml': side });
    expect(reported).toEqual([{ code: 'SL375', words: 'switch' }]);
  });
});
