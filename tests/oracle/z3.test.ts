import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { smallFleet } from '../helpers/content.ts';
import { loadOracle } from './index.ts';
import { light, small } from './small.ts';
import { type Judge, type JudgedTable, startJudge, type TableCell } from './z3.ts';

const oracle = loadOracle(smallFleet);
let judge: Judge;
beforeAll(async () => {
  judge = await startJudge(oracle);
});
afterAll(() => judge.end());

const values = (...ids: string[]): TableCell => ({ values: ids });

/** The turn-off lights of QQ-OAA with all buses powered, by hand. */
const turnOff: JudgedTable = {
  item: 'turn-off-lights',
  attribute: 'lamp',
  fit: 'manual/single/fixed/struts',
  part: 'normal',
  columns: ['turn-off', 'landing-gear', 'main-gear', 'parking-brake', 'airspeed'],
  rows: [
    { cells: [values('OFF'), null, null, null, null], state: 'dark' },
    { cells: [values('AUTO'), null, values('compressed'), values('set'), null], state: 'dark' },
    { cells: [values('AUTO'), null, values('compressed'), values('released'), { to: '79' }], state: 'lit' },
    { cells: [values('AUTO'), null, values('compressed'), values('released'), { from: '80' }], state: 'dark' },
    { cells: [values('AUTO'), null, values('extended'), null, null], state: 'dark' },
    { cells: [values('ON'), values('down'), null, null, null], state: 'lit' },
    { cells: [values('ON'), values('travelling', 'up'), null, null, null], state: 'dark' },
  ],
};
const withRow = (at: number, row: Partial<JudgedTable['rows'][number]>): JudgedTable => ({
  ...turnOff,
  rows: turnOff.rows.map((one, place) => (place === at ? { ...one, ...row } : one)),
});
const abnormal: JudgedTable = {
  ...turnOff,
  part: 'abnormal',
  columns: ['ac-bus-2'],
  rows: [{ cells: [null], state: 'dark' }],
};

describe('a table before the judge', () => {
  test('a right table has no fault', async () => {
    expect(await judge.table(turnOff)).toEqual([]);
    expect(await judge.table(abnormal)).toEqual([]);
  });

  test('both parts together are right on all cases', async () => {
    const rows = turnOff.rows.map((row) => ({ ...row, cells: [...row.cells, values('powered')] }));
    const lost = { cells: [null, null, null, null, null, values('lost')], state: 'dark' };
    const whole: JudgedTable = {
      ...turnOff,
      part: 'all',
      columns: [...turnOff.columns, 'ac-bus-2'],
      rows: [...rows, lost],
    };
    expect(await judge.table(whole)).toEqual([]);
  });

  test('a missing row is a gap, shown by a case of it', async () => {
    const [fault, ...others] = await judge.table({ ...turnOff, rows: turnOff.rows.slice(0, -1) });
    expect(others).toEqual([]);
    expect(fault).toMatchObject({ kind: 'gap', given: { 'turn-off': 'ON' } });
    expect(fault?.given?.['landing-gear']).not.toBe('down');
  });

  test('two rows that share one step of a number overlap', async () => {
    const cells = [values('AUTO'), null, values('compressed'), values('released'), { from: '79' }];
    const faults = await judge.table(withRow(3, { cells }));
    expect(faults.map(({ kind, rows }) => [kind, rows])).toEqual([
      ['overlap', [2, 3]],
      ['wrong state', [3]],
    ]);
    expect(faults[0]?.given?.['airspeed']).toBe('79');
  });

  test('a wrong state is found in its row', async () => {
    const [fault, ...others] = await judge.table(withRow(4, { state: 'lit' }));
    expect(others).toEqual([]);
    expect(fault).toMatchObject({
      kind: 'wrong state',
      rows: [4],
      given: { 'main-gear': 'extended', 'turn-off': 'AUTO' },
    });
  });

  test('a threshold that is one step out is found', async () => {
    const rows = turnOff.rows.map((row) => ({
      ...row,
      cells: row.cells.map((cell) =>
        cell && 'to' in cell ? { to: '80' } : cell && 'from' in cell ? { from: '81' } : cell,
      ),
    }));
    const faults = await judge.table({ ...turnOff, rows });
    expect(faults).toMatchObject([{ kind: 'wrong state', rows: [2], given: { airspeed: '80' } }]);
  });

  test('a row of impossible cases only is a fault, a row that runs over some is not', async () => {
    const impossible = { cells: [null, values('up'), values('compressed'), null, null], state: 'lit' };
    expect(await judge.table({ ...turnOff, rows: [...turnOff.rows, impossible] })).toEqual([
      { kind: 'empty row', rows: [7] },
    ]);
  });
});

describe('the judge and the oracle', () => {
  test.each(oracle.content.claims)('agree that it is true: $sentence', async ({ holds }) => {
    for (const fit of oracle.fits) expect(await judge.counterexample(fit, holds)).toBeUndefined();
  });

  test('agree on every item, fit and case: one row a case is a right table', async () => {
    for (const item of oracle.content.items.values()) {
      for (const { id: attribute } of item.attributes.values()) {
        const columns = oracle.ownVariables(item.id, attribute);
        // Here a row holds one case, which would be hundreds of rows for a number or many variables.
        if (columns.length > 4 || columns.some((name) => oracle.content.conditions.get(name)?.number)) continue;
        for (const fit of oracle.fits.filter((one) => oracle.isFitted(one, item.id))) {
          const shown = columns.filter((name) => oracle.valuesOn(fit, name).length > 0);
          const rows = new Map<string, { cells: TableCell[]; state: string }>();
          for (const given of oracle.cases(fit, oracle.variables(item.id, attribute))) {
            const cells = shown.map((name) => values(given[name]!));
            rows.set(JSON.stringify(cells), { cells, state: oracle.state(fit, item.id, attribute, given) as string });
          }
          const table = { item: item.id, attribute, fit: fit.id, part: 'all' as const, columns: shown };
          expect(await judge.table({ ...table, rows: [...rows.values()] })).toEqual([]);
        }
      }
    }
  });

  test('find the same counterexample to a claim that is one step too bold', async () => {
    const claim = 'airspeed > 221 kt implies landing-lights-speed is not-shown';
    const fit = oracle.fitOf('QQ-OAK');
    expect((await judge.counterexample(fit, claim))?.['airspeed']).toMatch(/^22[2-9]$|^230$/);
    expect(await judge.counterexample(fit, claim.replace('221', '230'))).toBeUndefined();
    expect(oracle.holds(claim)).toBe(false);
  });
});

describe('lamps, detectors, supplies and overrides', () => {
  const whole = small({
    conditions: `bus: { title: Bus, normal: powered, values: { powered: {}, lost: {} } }
speed: { title: Speed, number: { unit: kt, from: 0, to: 20, step: 1 } }`,
    detectors: `fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }
faster: { title: Faster, trips: speed >= 12 kt, tolerance: 3 }
slow: { title: Slow, trips: speed < 10 kt, tolerance: 1 }`,
    inOrder: '- [fast, faster]',
    never: '- slow and knob is HIGH',
    items: `wing:
  kind: light
  title: Wing
  rules: [{ when: main is powered and fast, then: lit }, { otherwise: dark }]
  lamps:
    left: { title: left, supply: [main] }
    right: { title: right, when: not wing.left is failed }
${light('count', ['when: at least 2 lamps of wing are lit, then: lit', 'when: exactly 1 lamp of wing is failed, then: lit', 'otherwise: dark'], 'first')}`,
    panel: 'supplies: { main: { title: Main, fed: [{ from: bus, when: knob is not OFF }] } }',
    files: {
      'overrides.yaml': `
- { id: all, title: All, scope: { items: [wing] }, when: faster and bus is lost, then: lit }
- { id: none, title: None, scope: { kinds: [light] }, when: bus is lost, then: dark }`,
    },
  });
  const claims = [
    'faster implies fast',
    'fast implies faster',
    'not (fast and slow)',
    'wing is lit implies fast',
    'wing is dark implies not faster',
    'wing.left is lit implies main is powered',
    'wing.left is dark or wing.right is dark',
    'any lamp of wing is lit implies wing is lit',
    'count is lit implies at most 1 lamps of wing are failed',
    'count is lit implies (bus is powered and at most 1 lamps of wing are failed)',
    'all lamps of wing are not lit implies count is dark',
    'speed >= 11 kt implies not slow',
    'speed >= 10 kt implies not slow',
    'main is from-bus implies not slow or knob is LOW',
  ];

  test('are the same to the judge as to the oracle', async () => {
    const judged = await startJudge(whole);
    const found: boolean[] = [];
    for (const claim of claims) found.push((await judged.counterexample(whole.fits[0]!, claim)) === undefined);
    expect(found).toEqual(claims.map((claim) => whole.holds(claim)));
    expect(found.filter((holds) => holds).length).toBeGreaterThan(4);
    expect(found.filter((holds) => !holds).length).toBeGreaterThan(4);
  });

  test('a row that may be either is right only where the detector can answer either way', async () => {
    const judged = await startJudge(
      small({
        conditions: 'speed: { title: Speed, number: { unit: kt, from: 0, to: 20, step: 1 } }',
        detectors: 'fast: { title: Fast, trips: speed > 10 kt, tolerance: 2 }',
        items: light('lamp', ['when: fast, then: lit', 'otherwise: dark']),
      }),
    );
    const rows = (low: string, high: string) => ({
      ...{ item: 'lamp', attribute: 'lamp', fit: 'plain', part: 'all' as const, columns: ['speed'] },
      rows: [
        { cells: [{ to: low }], state: 'dark' },
        { cells: [{ from: String(Number(low) + 1), to: high }], state: ['dark', 'lit'] },
        { cells: [{ from: String(Number(high) + 1) }], state: 'lit' },
      ],
    });
    const kinds = async (low: string, high: string) => (await judged.table(rows(low, high))).map(({ kind }) => kind);
    expect(await kinds('8', '12')).toEqual([]);
    expect(await kinds('7', '12')).toEqual(['state that cannot be']);
    expect(await kinds('8', '13')).toEqual(['state that cannot be']);
    expect(await kinds('9', '12')).toEqual(['wrong state']);
  });
});
