import { describe, expect, test } from 'vitest';
import { light, small } from './small.ts';

const oracle = small({
  items:
    light('lamp', ['when: mount is folding and knob is HIGH, then: lit', 'otherwise: dark']) +
    light('graded', ['when: grade is full and knob is HIGH, then: lit', 'otherwise: dark']),
  claims: '- { sentence: Dark., holds: lamp is dark }\n',
  files: {
    'options.yaml': `
grade: { title: Grade, values: { plain: {}, full: {} } }
mount: { title: Mount, values: { fixed: {}, folding: { requires: grade is full } } }`,
    'aircraft.csv': `serial,registration,kind,from,to,grade,mount
1,QQ-A,,2020-01-01,,plain,fixed
2,QQ-B,,2020-01-01,2026-06-30,plain,fixed
3,SIM-1,device,2020-01-01,,full,unknown
4,QQ-D,,2019-01-01,2025-12-31,full,folding
5,QQ-E,,2020-01-01,,unknown,folding
`,
    'modifications.csv': `serial,option,value,date,document
1,mount,folding,2026-03-01,
1,grade,full,2025-05-01,
2,registration,QQ-Y,2026-04-01,
2,registration,QQ-X,2026-02-01,
5,grade,full,2026-05-01,
5,mount,fixed,2026-05-01,
2,grade,full,2026-08-01,
`,
  },
});
const named = (id: string) => oracle.fits.find((one) => one.id === id)!;

describe('fits in time', () => {
  test('those of the date come first, in the order of the aircraft, then those of later changes', () => {
    expect(oracle.fits.map(({ id, registrations }) => [id, ...registrations])).toEqual([
      ['full/fixed', 'QQ-A'],
      ['plain/fixed', 'QQ-B'],
      ['full/unknown', 'SIM-1'],
      ['unknown/folding', 'QQ-E'],
      ['full/folding'],
    ]);
  });

  test('each says which aircraft has it when', () => {
    expect(named('full/folding').holders).toEqual([
      { serial: '1', registration: 'QQ-A', from: '2026-03-01', until: undefined },
    ]);
    expect(named('full/fixed').holders).toMatchObject([
      { serial: '1', from: undefined, until: '2026-03-01' },
      { serial: '5', from: '2026-05-01', until: undefined },
    ]);
    expect(named('plain/fixed').holders).toEqual([
      { serial: '2', registration: 'QQ-B', from: undefined, until: '2026-02-01' },
      { serial: '2', registration: 'QQ-X', from: '2026-02-01', until: '2026-04-01' },
      { serial: '2', registration: 'QQ-Y', from: '2026-04-01', until: undefined },
    ]);
  });

  test('a training device is one', () => {
    expect(oracle.aircraft.map(({ kind }) => kind)).toEqual(['aircraft', 'aircraft', 'device', 'aircraft']);
  });
});

describe('unknown options', () => {
  test('leave open what is permitted', () => {
    const ids = (id: string) => oracle.candidates(named(id)).map((one) => one.id);
    expect(ids('full/unknown')).toEqual(['full/fixed', 'full/folding']);
    expect(ids('unknown/folding')).toEqual(['full/folding']);
    expect(ids('plain/fixed')).toEqual(['plain/fixed']);
  });

  test('decide only where those that are left differ', () => {
    const seen = (id: string, knob: string) => oracle.behaviour(named(id), 'lamp', 'lamp', { knob });
    expect(seen('full/unknown', 'HIGH')).toEqual({ outcomes: ['dark', 'lit'], depends: true });
    expect(seen('full/unknown', 'LOW')).toEqual({ outcomes: ['dark'], depends: false });
    expect(seen('unknown/folding', 'HIGH')).toEqual({ outcomes: ['lit'], depends: false });
  });

  test('are named where it depends on them', () => {
    const on = (id: string, item: string, knob: string) => oracle.dependsOn(named(id), item, 'lamp', { knob });
    expect(on('full/unknown', 'lamp', 'HIGH')).toEqual(['mount']);
    expect(on('full/unknown', 'lamp', 'LOW')).toEqual([]);
    expect(on('full/unknown', 'graded', 'HIGH')).toEqual([]);
  });

  test('are alike to what they may be where that is all the same', () => {
    const alike = (item: string, a: string, b: string) => oracle.alike(item, 'lamp', named(a), named(b));
    expect(alike('lamp', 'unknown/folding', 'full/folding')).toBe(true);
    expect(alike('lamp', 'full/unknown', 'full/folding')).toBe(false);
    expect(alike('lamp', 'full/unknown', 'full/fixed')).toBe(false);
    expect(alike('graded', 'full/unknown', 'full/fixed')).toBe(true);
  });

  test('leave the aircraft of a known fit to themselves', () => {
    expect(oracle.counterexample('grade is plain')?.fit.registrations).toEqual(['QQ-A']);
    expect(oracle.counterexample('mount is folding')?.fit.registrations).toEqual(['QQ-A']);
  });

  test('may be what a claim forbids', () => {
    expect(oracle.counterexample('mount is fixed')?.fit).toMatchObject({
      id: 'full/folding',
      registrations: ['SIM-1'],
    });
  });
});

test('legends follow the options', () => {
  const all = small({
    controls: `knob:
  title: Knob
  form: knob
  positions:
    OFF: {}
    ON: { legend: BRT, legends: [{ when: grade is full, legend: MAX }] }`,
    items: `sign:
  kind: sign
  title: Sign
  legend: EXIT
  legends: [{ when: grade is plain, legend: OUT }]
  rules: [{ otherwise: lit }]`,
    files: {
      'aircraft.csv':
        'serial,registration,from,to,grade\n1,QQ-A,2020-01-01,,plain\n2,QQ-B,2020-01-01,,full\n3,QQ-C,2020-01-01,,unknown\n',
    },
  });
  const on = (position?: string) =>
    all.fits.map((one) => all.legendsOn(one, position ? 'knob' : 'sign', position).join());
  expect(on('OFF')).toEqual(['OFF', 'OFF', 'OFF']);
  expect(on('ON')).toEqual(['BRT', 'MAX', 'BRT,MAX']);
  expect(on()).toEqual(['OUT', 'EXIT', 'OUT,EXIT']);
});

test('aircraft that depend on different options are not alike', () => {
  const of = (rule: string) =>
    small({
      items: light('lamp', [rule, 'otherwise: dark']),
      files: {
        'options.yaml':
          'grade: { title: G, values: { plain: {}, full: {} } }\nkit: { title: K, values: { old: {}, new: {} } }',
        'aircraft.csv':
          'serial,registration,from,to,grade,kit\n1,QQ-A,2020-01-01,,unknown,old\n2,QQ-B,2020-01-01,,plain,unknown\n',
      },
    });
  const either = of('when: grade is full or kit is new, then: lit');
  expect(either.alike('lamp', 'lamp', either.fits[0]!, either.fits[1]!)).toBe(false);
  const neither = of('when: grade is full and kit is new, then: lit');
  expect(neither.alike('lamp', 'lamp', neither.fits[0]!, neither.fits[1]!)).toBe(true);
});

describe('counterparts', () => {
  const controls = `knob:
  title: Knob
  form: knob
  fitted: grade is plain
  positions: { OFF: {}, HIGH: {} }
selector:
  title: Selector
  form: selector
  fitted: grade is full
  counterpart: knob
  positions:
    1: { as: HIGH }
    0: { as: OFF }`;
  const rules = (more: string) => [
    'when: fitted(knob) and knob is HIGH, then: lit',
    'when: fitted(selector) and selector is 1, then: lit',
    more,
    'otherwise: dark',
  ];
  const both = (items: string, positions = '') => {
    const all = small({ controls: controls + positions, items });
    return all.alike('lamp', 'lamp', all.fits[0]!, all.fits[1]!);
  };

  test('count as one control', () => {
    expect(both(light('lamp', rules('when: never, then: lit')))).toBe(true);
    expect(both(light('lamp', rules('when: fitted(selector) and selector is 0, then: lit')))).toBe(false);
  });

  test('keep a position that is like none', () => {
    expect(both(light('lamp', rules('when: never, then: lit')), '\n    2: {}')).toBe(false);
  });

  test('are compared position by position', () => {
    const all = small({
      controls: controls
        .replace('fitted: grade is plain', 'fitted: never')
        .replace('fitted: grade is full', 'fitted: always'),
      items: light('lamp', [
        'when: grade is plain and selector is 1, then: lit',
        'when: grade is full and selector is 0, then: lit',
        'otherwise: dark',
      ]),
    });
    expect(all.alike('lamp', 'lamp', all.fits[0]!, all.fits[1]!)).toBe(false);
  });

  test('count as one even where the rules name only one of them', () => {
    const all = small({
      controls,
      items: light('lamp', ['when: kit is new and fitted(knob) and knob is HIGH, then: lit', 'otherwise: dark']),
      files: {
        'options.yaml':
          'grade: { title: G, values: { plain: {}, full: {} } }\nkit: { title: K, values: { old: {}, new: {} } }',
        'aircraft.csv':
          'serial,registration,from,to,grade,kit\n1,QQ-A,2020-01-01,,plain,new\n2,QQ-B,2020-01-01,,plain,old\n3,QQ-C,2020-01-01,,full,old\n',
      },
    });
    const [newer, older, other] = all.fits;
    expect(all.alike('lamp', 'lamp', older!, other!)).toBe(true);
    expect(all.alike('lamp', 'lamp', newer!, older!)).toBe(false);
  });

  test('keep the order in which positions are written', () => {
    const all = small({ controls, items: light('lamp', ['otherwise: dark']) });
    expect(all.valuesOn(all.fits[1]!, 'selector')).toEqual(['1', '0']);
  });
});
