/** Whether the benchmark works and says what it should; how long things take is no matter of tests. */
import { describe, expect, test } from 'vitest';
import { benchmark, SMALLEST } from './benchmark.ts';
import { exponentOf, median, race } from './measure.ts';
import { reportText, time } from './report.ts';

describe('the benchmark of the logic', async () => {
  const said: string[] = [];
  const report = await benchmark(SMALLEST, (line) => said.push(line));

  test('measures every family, by everybody who can do the work', () => {
    expect(report.families.map(({ name }) => name)).toEqual(['mixed', 'eight', 'fleet']);
    for (const { name, figures, meanSupport, meanRows, medianTables, longestTables, packed } of report.families) {
      const by = Map.groupBy(figures, ({ work }) => work);
      const names = [...by].map(([work, list]) => `${work}: ${list.map((figure) => figure.by).join(', ')}`);
      const tables = name === 'fleet' ? '' : ', truth tables';
      expect(names).toEqual([
        `diagrams of all items: diagrams, bit sets${tables}`,
        `normal forms on all fits: diagrams,${name === 'fleet' ? ' compileFleet, which judges too,' : ''} bit sets${tables}`,
        'compare an item on two fits: diagrams, bit sets, kept',
        'the same from the rules: bit sets, z3-solver, push and pop',
        'all comparisons, forms made for them, each: diagrams, bit sets',
        'tables of an item: diagrams',
        ...(name === 'fleet' ? ['difference table of two unlike fits: diagrams'] : []),
        'evaluate all items for one case: packed diagrams, diagrams one by one, interpreting the rules',
      ]);
      for (const { cold, warm, ratio } of figures) {
        for (const number of [cold, warm, ratio]) expect(number).toBeGreaterThan(0);
      }
      expect(meanSupport).toBeGreaterThan(1);
      expect(meanRows).toBeGreaterThan(1);
      expect(medianTables).toBeGreaterThan(0);
      expect(longestTables).toBeGreaterThanOrEqual(medianTables);
      expect(packed.brotli).toBeLessThan(packed.bytes);
    }
    expect(said).toHaveLength(4);
  });

  test('says of every aim whether it is met', () => {
    expect(report.aims.length).toBeGreaterThan(10);
    for (const { is, aim, figure, met } of report.aims) {
      expect(met).toBe(is === 'at least' ? figure >= aim : figure <= aim);
    }
  });

  test('finds the growth that is known', () => {
    expect(report.growth.map(({ over, work }) => `${over} ${work}`)).toEqual(
      ['options', 'conditions', 'items', 'aircraft'].flatMap((over) => [`${over} compile`, `${over} evaluate`]),
    );
    expect(report.order.together.map(({ nodes }) => nodes)).toEqual([6, 8]);
    expect(report.order.apart.map(({ nodes }) => nodes)).toEqual([8, 16]);
    expect(report.order.factorApart).toBeCloseTo(2);
  });

  test('is readable as text, and the same as data', () => {
    const text = reportText(report);
    expect(text.split('\n').every((line) => line.length <= 160)).toBe(true);
    for (const { name, about } of report.families) expect(text).toContain(`Family "${name}": ${about}\n`);
    expect(text.match(/^ {2}(met|missed) /gm)).toHaveLength(report.aims.length);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});

describe('measuring', () => {
  test('takes the first run as cold and the median of the others as warm, in turns', async () => {
    const order: string[] = [];
    const contender = (name: string) => ({ name, prepare: () => order.push(`(${name})`), run: () => order.push(name) });
    const timings = await race([contender('a'), contender('b')], {
      rounds: 3,
      budget: Number.POSITIVE_INFINITY,
      atLeast: 0,
    });
    expect(order.join(' ')).toBe('(a) a (b) b (a) a (b) b (a) a (b) b');
    expect([...timings.values()].map(({ runs }) => runs)).toEqual([3, 3]);
  });

  test('leaves out who has used up the budget', async () => {
    const timings = await race([{ name: 'a', run: () => new Promise((done) => setTimeout(done, 5)) }], {
      rounds: 3,
      budget: 1,
      atLeast: 0,
    });
    expect(timings.get('a')).toMatchObject({ runs: 1 });
    expect(timings.get('a')?.warm).toBe(timings.get('a')?.cold);
  });

  test('does short work over and over, but only once cold', async () => {
    let runs = 0;
    const run = () => new Promise((done) => setTimeout(done, 2)).then(() => (runs += 1));
    const pace = { rounds: 2, budget: Number.POSITIVE_INFINITY, atLeast: 10 };
    const timings = await race([{ name: 'a', run }], pace);
    expect(timings.get('a')?.runs).toBe(2);
    expect(runs).toBeGreaterThan(2);
    expect(runs).toBeLessThan(8);
  });

  test('knows medians and exponents', () => {
    expect([[3], [1, 9, 2], [4, 1, 3, 2]].map(median)).toEqual([3, 2, 2.5]);
    expect(exponentOf([1, 2, 4, 8].map((x) => [x, 5 * x ** 1.5]))).toBeCloseTo(1.5);
    expect([2500, 12.3456, 0.25, 0.0000251].map(time)).toEqual(['2.5 s', '12.3 ms', '250 us', '25.1 ns']);
  });
});
