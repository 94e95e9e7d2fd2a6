import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { Diagrams, type StateTable, stateTable, verifyTable } from '../../src/logic/index.ts';
import { fewestRows } from './fewest-rows.ts';
import { diagramOf, IMPOSSIBLE, type RuleList, ruleList, seeds, truthTable } from './rule-lists.ts';
import { printed, variablesOf } from './truth-tables.ts';

function tableOf(
  list: RuleList,
  options: { own?: number; previous?: readonly number[]; budget?: number } = {},
): StateTable {
  const diagrams = new Diagrams(list.variables);
  const table = stateTable(diagrams, diagramOf(diagrams, list), { impossible: IMPOSSIBLE, ...options });
  diagrams.assertConsistent();
  return table;
}

function rowsHolding(table: StateTable, each: readonly number[]): StateTable['rows'] {
  return table.rows.filter(({ cells }) =>
    cells.every((cell, index) => cell === undefined || cell.includes(each[table.columns[index] as number] as number)),
  );
}

/** What is wrong with the table, found by going through all cases. */
function faults(list: RuleList, table: StateTable): string[] {
  const held = new Set<unknown>();
  const wrong = truthTable(list).flatMap(({ each, outcome }) => {
    if (outcome === IMPOSSIBLE) return [];
    const rows = rowsHolding(table, each);
    for (const row of rows) held.add(row);
    if (rows.length !== 1) return [`${each.join(' ')} is in ${rows.length} rows`];
    return rows[0]?.outcome === outcome ? [] : [`${each.join(' ')} has outcome ${rows[0]?.outcome}`];
  });
  const idle = table.rows.filter((row) => !held.has(row)).map(() => 'a row holds only impossible cases');
  const gaps = table.rows.flatMap(({ cells }) =>
    cells.flatMap((cell, index) => {
      const ordered = list.variables[table.columns[index] as number]?.ordered;
      const whole = cell === undefined || (cell.at(-1) as number) - (cell[0] as number) === cell.length - 1;
      return ordered && !whole ? ['an interval has a gap'] : [];
    }),
  );
  return [...wrong, ...idle, ...gaps];
}

function show(list: RuleList, table: StateTable): string {
  const outcomes = new Map(truthTable(list).map(({ each, outcome }) => [each.join(), outcome]));
  const sizes = list.variables.map(({ size }) => size);
  return `${printed(sizes, (each) => outcomes.get(each.join()) as number)}\n${JSON.stringify(table)}`;
}

const LISTS = seeds(500).map((seed) => ruleList(seed, { variables: 5, size: 4, rules: 6 }));

describe('500 seeded rule lists of up to five variables', () => {
  test('are of the kind that the tables are made for', () => {
    const tables = LISTS.map((list) => tableOf(list));
    expect(tables.filter(({ rows }) => rows.length >= 3).length).toBeGreaterThan(250);
    expect(
      LISTS.filter((list) => truthTable(list).some(({ outcome }) => outcome === IMPOSSIBLE)).length,
    ).toBeGreaterThan(250);
    expect(LISTS.filter(({ variables }) => variables.some(({ ordered }) => ordered)).length).toBeGreaterThan(250);
  });

  test('have every possible case in exactly one row, with its outcome', () => {
    for (const list of LISTS) {
      const table = tableOf(list, { own: list.variables.length - 1 });
      expect(faults(list, table), show(list, table)).toEqual([]);
    }
  });

  test('show the own control first, no column that is any throughout, and rows in the order of their first values', () => {
    for (const list of LISTS) {
      const own = list.variables.length - 1;
      const { columns, split, rows } = tableOf(list, { own });
      if (columns.includes(own)) expect(columns[0]).toBe(own);
      const others = (levels: readonly number[]): number[] =>
        levels.filter((level) => level !== own && columns.includes(level));
      expect(others(columns)).toEqual(others(split));
      for (const index of columns.keys()) expect(rows.some(({ cells }) => cells[index] !== undefined)).toBe(true);
      const starts = rows.map(({ cells }) => cells.map((cell) => String.fromCharCode(cell?.[0] ?? 0)).join(''));
      expect(starts).toEqual(starts.toSorted());
    }
  });

  test('give the same table in two managers, and again with the order that they were split in', () => {
    for (const list of LISTS) {
      const table = tableOf(list);
      expect(tableOf(list)).toEqual(table);
      expect(tableOf(list, { previous: table.split })).toEqual(table);
    }
  });

  test('keep their table when variables that they do not read are added', () => {
    for (const list of LISTS.slice(0, 200)) {
      const place = (level: number): number => 2 * level + 1;
      const diagrams = new Diagrams(
        Array.from({ length: 2 * list.variables.length + 1 }, (_, level) =>
          level % 2 === 1
            ? (list.variables[(level - 1) / 2] as RuleList['variables'][number])
            : { id: `other${level}`, size: 3, ordered: level % 4 === 0 },
        ),
      );
      // Other work in the same manager must not show either.
      diagrams.and(...diagrams.variables.map((_, level) => diagrams.literal(level, [0])));
      const placed = stateTable(diagrams, diagramOf(diagrams, list, place), { impossible: IMPOSSIBLE });
      const table = tableOf(list);
      expect(placed).toEqual({ ...table, columns: table.columns.map(place), split: table.split.map(place) });
    }
  });
});

describe('a number that a rule elsewhere cuts more finely', () => {
  const halved = (values: readonly number[]): number[] => values.flatMap((value) => [2 * value, 2 * value + 1]);

  test('leaves every table as it was, in its rows, their order and its columns', () => {
    const lists = LISTS.filter(({ variables }) => variables.some(({ ordered }) => ordered));
    for (const list of lists) {
      const isCut = (level: number): boolean => list.variables[level]?.ordered === true;
      const literals = (cube: RuleList['never'][number]): RuleList['never'][number] =>
        cube.map(({ level, values }) => ({ level, values: isCut(level) ? halved(values) : values }));
      const cut: RuleList = {
        variables: list.variables.map((variable) =>
          variable.ordered ? { ...variable, size: 2 * variable.size } : variable,
        ),
        rules: list.rules.map(({ when, outcome }) => ({ when: literals(when), outcome })),
        never: list.never.map(literals),
      };
      const table = tableOf(list);
      const rows = table.rows.map(({ cells, outcome }) => ({
        cells: cells.map((cell, index) => (cell && isCut(table.columns[index] as number) ? halved(cell) : cell)),
        outcome,
      }));
      expect(tableOf(cut)).toEqual({ ...table, rows });
    }
  });
});

describe('the number of rows', () => {
  // The search may become faster; what it finds may not change unnoticed, not even where its budget ends it.
  test('and all else of the tables of 600 lists stays what it was: a change is made on purpose', () => {
    const tables = seeds(600).flatMap((seed) => {
      const list = ruleList(seed, { variables: 5, size: 3, rules: 10 });
      const previous = list.variables.map((_, level) => level).toReversed();
      return [{}, { own: list.variables.length - 1 }, { previous }, { budget: 50 }].map((each) => tableOf(list, each));
    });
    expect(createHash('sha256').update(JSON.stringify(tables)).digest('hex')).toMatchInlineSnapshot(
      `"af8889f923d0715645d803d6dd6ffb152f6222c01f492b73093504edd1b86a7d"`,
    );
  });

  test('is 2228 in all for the 500 lists: a change is made on purpose', () => {
    expect(LISTS.reduce((sum, list) => sum + tableOf(list).rows.length, 0)).toBe(2228);
  });

  test('is proven for a pinwheel, which no order of splits makes', () => {
    const list: RuleList = {
      variables: variablesOf([2, 2, 2]),
      rules: [
        { when: [0, 1, 2].map((level) => ({ level, values: [0] })), outcome: 1 },
        { when: [0, 1, 2].map((level) => ({ level, values: [1] })), outcome: 1 },
        { when: [], outcome: 0 },
      ],
      never: [],
    };
    // Two corners, and the ring around them in three pairs.
    expect(tableOf(list).rows).toHaveLength(5);
    expect(fewestRows(list.variables, truthTable(list), IMPOSSIBLE)).toEqual({ least: 5, lowerBound: 5 });
  });

  test('is not left at one too many when a later order does without', () => {
    const list = ruleList(2867, { variables: 5, size: 4, rules: 6 });
    expect(tableOf(list, { budget: 0 }).rows).toHaveLength(9);
    expect(tableOf(list).rows).toHaveLength(6);
  });

  test('is the outcome count where one column after another decides', () => {
    // A chain: the first variable that is 1 gives the outcome.
    for (const count of [2, 5, 9, 12, 60]) {
      const diagrams = new Diagrams(variablesOf(Array.from({ length: count }, () => 2)));
      const chain = diagrams.variables.reduceRight<number>(
        (rest, _, level) => diagrams.ite(diagrams.literal(level, [1]), diagrams.terminal(level + 10), rest),
        diagrams.terminal(1),
      );
      expect(stateTable(diagrams, chain, { impossible: 0 }).rows).toHaveLength(count + 1);
    }
  });

  test('is what the orders come to where there are more cases than are looked at one by one', () => {
    // 8,192 cases; the first variable that is 1 decides, for two outcomes in turn.
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 13 }, () => 2)));
    const inTurn = diagrams.variables.reduceRight<number>(
      (rest, _, level) => diagrams.ite(diagrams.literal(level, [1]), diagrams.terminal(1 + (level % 2)), rest),
      diagrams.terminal(2),
    );
    expect(stateTable(diagrams, inTurn, { impossible: 0 }).rows).toHaveLength(14);
  });

  test('is found by search among nine variables whose declared order is a bad one', () => {
    // Variable 8 says which of the two halves counts; declared last, it would have to be asked below all others.
    const diagrams = new Diagrams(variablesOf([2, 2, 2, 2, 2, 2, 2, 2, 2]));
    const all = (levels: readonly number[]): number =>
      diagrams.and(...levels.map((level) => diagrams.literal(level, [1])));
    const f = diagrams.ite(diagrams.literal(8, [1]), all([0, 2, 4, 6]), all([1, 3, 5, 7]));
    // Two conjunctions of four, each one row that holds and four that do not.
    expect(stateTable(diagrams, f, { impossible: 9 }).rows).toHaveLength(10);
    expect(stateTable(diagrams, f, { impossible: 9, budget: 0 }).rows.length).toBeGreaterThan(20);
  });

  test('is still right, if larger, when the search is cut short', () => {
    for (const list of LISTS.slice(0, 100)) {
      const short = tableOf(list, { budget: 0 });
      expect(faults(list, short)).toEqual([]);
      expect(tableOf(list, { budget: 0 })).toEqual(short);
      expect(short.rows.length).toBeGreaterThanOrEqual(tableOf(list).rows.length);
    }
  });
});

describe('a state table', () => {
  const diagrams = new Diagrams([
    { id: 'switch', size: 3, ordered: false },
    { id: 'ground', size: 2, ordered: false },
    { id: 'speed', size: 4, ordered: true },
  ]);
  const [off, , on] = [0, 1, 2].map((value) => diagrams.literal(0, [value])) as [number, number, number];
  const ground = diagrams.literal(1, [1]);
  const outcome = (value: number): number => diagrams.terminal(value);

  test('of one outcome is one row without a cell, and of no possible case is empty', () => {
    expect(stateTable(diagrams, outcome(4), { impossible: 0 }).rows).toEqual([{ cells: [], outcome: 4 }]);
    expect(stateTable(diagrams, outcome(0), { impossible: 0 })).toEqual({ columns: [], split: [], rows: [] });
    const partly = diagrams.ite(ground, outcome(4), outcome(0));
    expect(stateTable(diagrams, partly, { impossible: 0 })).toMatchObject({
      columns: [],
      rows: [{ cells: [], outcome: 4 }],
    });
  });

  test('joins positions that do the same, and asks below a position only what matters there', () => {
    const f = diagrams.ite(on, outcome(1), diagrams.ite(off, outcome(2), diagrams.ite(ground, outcome(2), outcome(1))));
    expect(stateTable(diagrams, f, { impossible: 9, own: 0 })).toEqual({
      columns: [0, 1],
      split: [0, 1],
      rows: [
        { cells: [[0], undefined], outcome: 2 },
        { cells: [[1], [0]], outcome: 1 },
        { cells: [[1], [1]], outcome: 2 },
        { cells: [[2], undefined], outcome: 1 },
      ],
    });
  });

  test('leaves a position without a possible case out of a set', () => {
    const f = diagrams.ite(diagrams.literal(0, [1]), outcome(9), diagrams.ite(on, outcome(1), outcome(2)));
    expect(stateTable(diagrams, f, { impossible: 9 }).rows).toEqual([
      { cells: [[0]], outcome: 2 },
      { cells: [[2]], outcome: 1 },
    ]);
  });

  test('says any where rows of all positions that can happen are joined', () => {
    const inAir = diagrams.ite(off, outcome(2), outcome(3));
    const f = diagrams.ite(diagrams.literal(0, [1]), outcome(9), diagrams.ite(ground, outcome(1), inAir));
    expect(stateTable(diagrams, f, { impossible: 9, own: 0 }).rows).toEqual([
      { cells: [[0], [0]], outcome: 2 },
      { cells: [undefined, [1]], outcome: 1 },
      { cells: [[2], [0]], outcome: 3 },
    ]);
  });

  test('lets an interval run over impossible cells, so that it has no gap', () => {
    const f = diagrams.ite(
      diagrams.literal(2, [1]),
      outcome(9),
      diagrams.ite(diagrams.literal(2, [0, 2]), outcome(1), outcome(2)),
    );
    expect(stateTable(diagrams, f, { impossible: 9 }).rows).toEqual([
      { cells: [[0, 1, 2]], outcome: 1 },
      { cells: [[3]], outcome: 2 },
    ]);
  });

  test('gives impossible cells at the ends of a range to the intervals next to them', () => {
    const f = diagrams.ite(
      diagrams.literal(2, [0, 3]),
      outcome(9),
      diagrams.ite(diagrams.literal(2, [1]), outcome(1), outcome(2)),
    );
    expect(stateTable(diagrams, f, { impossible: 9 }).rows).toEqual([
      { cells: [[0, 1]], outcome: 1 },
      { cells: [[2, 3]], outcome: 2 },
    ]);
  });

  test('keeps two intervals of one outcome apart where another lies between', () => {
    const f = diagrams.ite(diagrams.literal(2, [1, 2]), outcome(2), outcome(1));
    expect(stateTable(diagrams, f, { impossible: 9 }).rows).toEqual([
      { cells: [[0]], outcome: 1 },
      { cells: [[1, 2]], outcome: 2 },
      { cells: [[3]], outcome: 1 },
    ]);
  });

  test('tells sets of values apart that are written with the same digits', () => {
    const list: RuleList = {
      variables: variablesOf([2, 13]),
      rules: [
        {
          when: [
            { level: 0, values: [0] },
            { level: 1, values: [0, 1, 2] },
          ],
          outcome: 1,
        },
        {
          when: [
            { level: 0, values: [1] },
            { level: 1, values: [0, 12] },
          ],
          outcome: 1,
        },
        { when: [], outcome: 0 },
      ],
      never: [],
    };
    expect(faults(list, tableOf(list))).toEqual([]);
  });

  test('stays in the previous order while that costs no row, and leaves it when it does', () => {
    const either = diagrams.or(on, ground);
    const tied = diagrams.ite(either, outcome(1), outcome(2));
    expect(stateTable(diagrams, tied, { impossible: 9 }).split).toEqual([0, 1]);
    expect(stateTable(diagrams, tied, { impossible: 9, previous: [1, 0] }).split).toEqual([1, 0]);
    expect(stateTable(diagrams, tied, { impossible: 9, own: 1 }).split).toEqual([1, 0]);
    // Speed mattered in the earlier table and no longer does.
    expect(stateTable(diagrams, tied, { impossible: 9, previous: [2, 1, 0] }).split).toEqual([1, 0]);
    const nested = diagrams.ite(
      ground,
      diagrams.ite(off, outcome(1), diagrams.ite(on, outcome(2), outcome(3))),
      outcome(4),
    );
    expect(stateTable(diagrams, nested, { impossible: 9, previous: [0, 1] }).rows).toHaveLength(4);
  });
});

describe('the proof of a table', () => {
  const diagrams = new Diagrams([
    { id: 'a', size: 2, ordered: false },
    { id: 'b', size: 3, ordered: true },
  ]);
  // b = 2 cannot happen when a = 1.
  const impossible = diagrams.and(diagrams.literal(0, [1]), diagrams.literal(1, [2]));
  const f = diagrams.ite(
    impossible,
    diagrams.terminal(9),
    diagrams.ite(diagrams.literal(1, [0]), diagrams.terminal(1), diagrams.terminal(2)),
  );
  const fault = (rows: StateTable['rows'], columns: readonly number[] = [0, 1]): string | undefined =>
    verifyTable(diagrams, f, { columns, split: columns, rows }, 9);
  const low = { cells: [undefined, [0]], outcome: 1 };
  const high = { cells: [undefined, [1, 2]], outcome: 2 };

  test('finds nothing wrong with a right one', () => {
    expect(fault([low, high])).toBeUndefined();
    expect(fault([low, { cells: [[0], [1, 2]], outcome: 2 }, { cells: [[1], [1]], outcome: 2 }])).toBeUndefined();
  });

  test.each([
    ['a case left out', [low], 'a possible case is in no row'],
    ['a case twice', [low, high, { cells: [[0], [2]], outcome: 2 }], 'row 3 holds a case of an earlier row'],
    ['a case twice under any', [low, high, { cells: [[1], [1]], outcome: 2 }], 'row 3 holds a case of an earlier row'],
    ['a wrong outcome', [low, { ...high, outcome: 1 }], 'row 2 holds a case of another outcome'],
    ['an impossible row', [low, high, { cells: [[1], [2]], outcome: 2 }], 'row 3 holds only impossible cases'],
    ['a gap', [{ cells: [[0], [0, 2]], outcome: 1 }], 'row 1 has a gap in b'],
    ['an empty set', [{ cells: [[], undefined], outcome: 1 }], 'row 1 has no proper set of values of a'],
    [
      'a value that does not exist',
      [{ cells: [[2], undefined], outcome: 1 }],
      'row 1 has no proper set of values of a',
    ],
    ['values out of order', [{ cells: [[1, 0], undefined], outcome: 1 }], 'row 1 has no proper set of values of a'],
    ['a value twice', [{ cells: [[1, 1], undefined], outcome: 1 }], 'row 1 has no proper set of values of a'],
    ['a negative value', [{ cells: [[-1], undefined], outcome: 1 }], 'row 1 has no proper set of values of a'],
    ['a missing cell', [{ cells: [undefined], outcome: 1 }], 'row 1 has not one cell for each column'],
  ])('finds %s', (_, rows, expected) => {
    expect(fault(rows)).toBe(expected);
  });

  test('finds a case twice under values beyond the width of a word', () => {
    const wide = new Diagrams([{ id: 'w', size: 40, ordered: false }]);
    const g = wide.ite(wide.literal(0, [3, 35]), wide.terminal(1), wide.terminal(2));
    const rest = Array.from({ length: 40 }, (_, value) => value).filter((value) => value !== 3 && value !== 35);
    const faultOf = (...sets: readonly (readonly number[])[]): string | undefined => {
      const rows = [...sets.map((set) => ({ cells: [set], outcome: 1 })), { cells: [rest], outcome: 2 }];
      return verifyTable(wide, g, { columns: [0], split: [0], rows }, 9);
    };
    // 3 and 35 are as far apart as a word has bits.
    expect(faultOf([3], [35])).toBeUndefined();
    expect(faultOf([3, 35], [35])).toBe('row 2 holds a case of an earlier row');
  });

  test('finds columns that stand twice or do not exist', () => {
    expect(fault([low], [1, 1])).toBe('a column stands twice');
    expect(fault([low], [0, 5])).toBe('row 1 has a cell under level 5, which does not exist');
  });

  test('finds every table from which a row was taken or whose outcomes were changed', () => {
    for (const list of LISTS.slice(0, 150)) {
      const own = new Diagrams(list.variables);
      const g = diagramOf(own, list);
      const table = stateTable(own, g, { impossible: IMPOSSIBLE });
      table.rows.forEach((row, index) => {
        expect(verifyTable(own, g, { ...table, rows: table.rows.toSpliced(index, 1) }, IMPOSSIBLE)).toBeDefined();
        const changed = table.rows.with(index, { ...row, outcome: row.outcome + 1 });
        expect(verifyTable(own, g, { ...table, rows: changed }, IMPOSSIBLE)).toBeDefined();
      });
    }
  });
});
