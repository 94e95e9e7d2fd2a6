import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { catalogue, Diagnostics, type Facts } from '../../src/diagnostics/index.ts';
import { print } from '../../src/language/index.ts';
import { readFleet } from '../../src/model/index.ts';
import { edited, FITS } from './fit-content.ts';
import { read } from './small-content.ts';

const [AIRCRAFT, CHANGES, OPTIONS] = ['aircraft.csv', 'modifications.csv', 'options.yaml'];

function served(...edits: readonly (readonly [string, string, string])[]) {
  const { fleet, reported } = read(edited(...edits));
  expect(reported).toEqual([]);
  return (fleet?.aircraft ?? []).map(({ serial, registration, kind, fit, changes }) => ({
    serial,
    registration,
    kind,
    fit: [...fit.values()],
    changes: changes.map(({ date, option, value, document }) => [date, option, value, document]),
  }));
}

describe('the aircraft of a fleet with changes', () => {
  it('stand as of the date of the book, with the later changes in order of their dates, then as written', () => {
    expect(served()).toEqual([
      {
        serial: '101',
        registration: 'QQ-OAA',
        kind: 'aircraft',
        fit: ['high', 'none'],
        changes: [
          ['2026-11-01', 'registration', 'QQ-OAX', undefined],
          ['2026-12-01', 'motor', 'twin', 'SB-12'],
          ['2026-12-01', 'mount', 'low', 'SB-12'],
        ],
      },
      { serial: '102', registration: 'QQ-OAB', kind: 'aircraft', fit: ['unknown', 'single'], changes: [] },
      { serial: '104', registration: 'FTD-1', kind: 'device', fit: ['low', 'twin'], changes: [] },
    ]);
  });

  it.each([
    ['2026-10-31', 'QQ-OAA', ['high', 'none'], 3],
    ['2026-11-01', 'QQ-OAX', ['high', 'none'], 2],
    ['2026-12-01', 'QQ-OAX', ['low', 'twin'], 0],
  ])('count a change from its very day: on %s', (date, registration, fit, later) => {
    const [first] = served(['book.yaml', '2026-10-01', date]);
    expect([first?.registration, first?.fit, first?.changes.length]).toEqual([registration, fit, later]);
  });

  it('take a change on the first day of service as a part of how they entered it', () => {
    const [gone] = served(['book.yaml', '2026-10-01', '2019-06-01'], ['book.yaml', '"101"', '"103"']);
    expect([gone?.serial, gone?.registration]).toEqual(['103', 'QQ-OAA']);
  });

  it('need no file of modifications and no column of kinds', () => {
    const without = edited(
      [AIRCRAFT, ',kind', ''],
      [AIRCRAFT, ',,,high', ',,high'],
      [AIRCRAFT, ',aircraft', ''],
      [AIRCRAFT, '2019-12-31,,', '2019-12-31,'],
      [AIRCRAFT, ',device', ''],
    ).filter(({ path }) => path !== CHANGES);
    const { fleet, reported } = read(without);
    expect(reported).toEqual([]);
    expect(fleet?.aircraft.map(({ kind, fit }) => [kind, fit.get('mount')])).toEqual([
      ['aircraft', 'high'],
      ['aircraft', 'low'],
      ['aircraft', 'unknown'],
    ]);
  });

  it('may hand a registration on from one day to the next', () => {
    const line = '102,mount,unknown,2022-03-01,';
    served([CHANGES, line, `${line}\n102,registration,QQ-OAA,2026-11-01,`]);
  });

  it('have what their values require and exclude as expressions over options', () => {
    const { fleet } = read(edited());
    expect(fleet?.constraints.map(({ expression, place: _, ...each }) => ({ ...each, is: print(expression) }))).toEqual(
      [
        { option: 'mount', value: 'high', kind: 'excludes', is: 'motor is twin' },
        { option: 'motor', value: 'twin', kind: 'requires', is: 'mount is low' },
      ],
    );
  });
});

describe('an aircraft with any changes', () => {
  const DAYS = ['2026-01-01', '2026-01-02', '2026-06-30', '2026-12-31', '2027-01-01'];
  const change = fc.record({
    date: fc.constantFrom(...DAYS),
    option: fc.constantFrom('mount', 'motor', 'registration'),
    value: fc.constantFrom(0, 1),
  });
  const VALUES: Readonly<Record<string, readonly [string, string]>> = {
    mount: ['high', 'low'],
    motor: ['none', 'unknown'],
    registration: ['QQ-OAA', 'QQ-OAZ'],
  };

  it('is on each day what the last change of each option up to then says, wherever its line stands', () => {
    fc.assert(
      fc.property(
        fc.array(change, { maxLength: 12 }),
        fc.constantFrom(...DAYS),
        fc.infiniteStream(fc.nat()),
        (drawn, day, keys) => {
          // By day and option one change at most, and only those that change something.
          const now: Record<string, string> = { mount: 'high', motor: 'none', registration: 'QQ-OAA' };
          const kept: { date: string; option: string; value: string }[] = [];
          const onDay = { ...now };
          for (const date of DAYS) {
            for (const option of Object.keys(VALUES)) {
              const found = drawn.find((each) => each.date === date && each.option === option);
              const value = found && VALUES[option]?.[found.value];
              if (value === undefined || now[option] === value) continue;
              now[option] = value;
              kept.push({ date, option, value });
            }
            if (date <= day) Object.assign(onDay, now);
          }
          const shuffled = kept
            .map((each) => [keys.next().value, each] as const)
            .sort(([a], [b]) => a - b)
            .map(([, { date, option, value }]) => `101,${option},${value},${date}\n`);
          const files = {
            ...FITS,
            'book.yaml': (FITS['book.yaml'] ?? '').replace('2026-10-01', day),
            'aircraft.csv': 'serial,registration,from,to,mount,motor\n101,QQ-OAA,2020-01-01,,high,none\n',
            'modifications.csv': `serial,option,value,date\n${shuffled.join('')}`,
          };
          const { fleet, reported } = read(Object.entries(files).map(([path, text]) => ({ path, text })));
          expect(reported).toEqual([]);
          const [aircraft] = fleet?.aircraft ?? [];
          expect([aircraft?.registration, ...(aircraft?.fit ?? [])]).toEqual([
            onDay['registration'],
            ['mount', onDay['mount']],
            ['motor', onDay['motor']],
          ]);
          const sorted = (list: readonly { date: string; option: string; value: string }[]): string[] =>
            list.map(({ date, option, value }) => `${date} ${option} ${value}`).sort();
          expect(sorted(aircraft?.changes ?? [])).toEqual(sorted(kept.filter(({ date }) => date > day)));
          const dates = aircraft?.changes.map(({ date }) => date) ?? [];
          expect(dates).toEqual([...dates].sort());
        },
      ),
    );
  });
});

describe('a mistake in the fleet is reported once, at its words', () => {
  it.each([
    [OPTIONS, '    none: {}', '    unknown: {}\n    none: {}', 'SL340', 'unknown'],
    [OPTIONS, 'requires: mount is low', 'requires: bus is lost', 'SL218', 'bus'],
    [OPTIONS, 'requires: mount is low', 'requires: mount is lower', 'SL358', 'lower'],
    [AIRCRAFT, '102,QQ-OAB', '101,QQ-OAB', 'SL316', '101'],
    [AIRCRAFT, ',device', ',simulator', 'SL342', 'simulator'],
    [AIRCRAFT, 'kind,mount', 'kind,fixing', 'SL358', 'fixing'],
    [AIRCRAFT, 'kind,mount', 'kinds,mount', 'SL313', 'kinds'],
    [AIRCRAFT, '103,QQ-OAC,2015-01-01,2019-12-31,,low', '103,QQ-OAC,2015-01-01,2019-12-31,,lower', 'SL358', 'lower'],
    [AIRCRAFT, 'high,none', 'high,unknwn', 'SL315', 'unknwn'],
    [AIRCRAFT, 'low,none', 'high,twin', 'SL343', 'high'],
    [CHANGES, 'serial,option', 'serial,optoin', 'SL350', 'optoin'],
    [CHANGES, ',date', ',dates', 'SL350', 'dates'],
    [CHANGES, '103,registration', '113,registration', 'SL345', '113'],
    [CHANGES, '101,motor', '101,moter', 'SL346', 'moter'],
    [CHANGES, '104,mount', '104,fixing', 'SL358', 'fixing'],
    [CHANGES, '104,mount,low', '104,mount,lower', 'SL358', 'lower'],
    [CHANGES, '104,mount,low', '104,mount,', 'SL321', ''],
    [CHANGES, '104,mount,low', '104,mount,lo', 'SL315', 'lo'],
    [CHANGES, '104,mount,low', '104,mount,unknown', 'SL349', 'unknown'],
    [CHANGES, '2022-03-01', '2022-02-30', 'SL126', '2022-02-30'],
    [CHANGES, '2022-03-01', '2020-12-31', 'SL347', '2020-12-31'],
    [CHANGES, '2022-03-01', '2031-01-01', 'SL347', '2031-01-01'],
    [CHANGES, '102,mount,unknown,2022-03-01,', '101,mount,unknown,2026-12-01,', 'SL348', 'unknown'],
    [CHANGES, 'QQ-OAX,2026-11-01,', 'QQ-OAX,2026-11-01,SB-2', 'SL306', 'SB-2'],
    [CHANGES, '101,mount,low,2026-12-01', '101,mount,low,2026-12-02', 'SL343', 'twin'],
    [CHANGES, 'QQ-OAX,2026-11-01', 'QQ-OAB,2026-11-01', 'SL317', 'QQ-OAB'],
    [CHANGES, '104,mount,low', '104,mount,high', 'SL343', 'high'],
  ])('%s: %j becomes %j', (path, from, to, code, words) => {
    expect(read(edited([path ?? '', from, to])).reported).toEqual([{ code, words }]);
  });

  it('an option that has the name of a column', () => {
    const { reported } = read(
      edited([OPTIONS as string, 'mount:\n', 'kind: { title: Kind, values: { a: {}, b: {} } }\nmount:\n']),
    );
    expect(reported).toEqual([{ code: 'SL341', words: 'kind' }]);
  });

  it('a rule that asks for "unknown", with the advice to write a value', () => {
    const diagnostics = new Diagnostics();
    readFleet(edited(['panels/roof.yaml', 'when: bus is lost', 'when: bus is lost or mount is unknown']), diagnostics);
    expect(diagnostics.all.map(({ code }) => code)).toEqual(['SL205']);
    const facts = diagnostics.all[0]?.facts as Facts<'SL205'>;
    expect(catalogue.SL205.hint(facts)).toBe('Write one of its values: nobody can ask for what is not known.');
  });

  it('unknown options that can be nothing, at the cell', () => {
    const edits = [
      [OPTIONS, '    none: {}\n', '    none: { excludes: "mount in (high, low)" }\n'],
      [AIRCRAFT, '2019-12-31,,low,none', '2019-12-31,,unknown,none'],
      [AIRCRAFT, 'high,none', 'high,single'],
    ] as [string, string, string][];
    expect(read(edited(...edits)).reported).toEqual([{ code: 'SL344', words: 'unknown' }]);
  });
});
