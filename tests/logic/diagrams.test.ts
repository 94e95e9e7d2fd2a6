import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Diagrams, LimitError, type Node, TERMINAL_LEVEL } from '../../src/logic/index.ts';
import { allCases, printed, variablesOf } from './truth-tables.ts';

const SIZES = [2, 3];
const CASES = allCases(SIZES);

/** Every Boolean function of the two variables, as the list of its values over `CASES`. */
const FUNCTIONS = allCases(CASES.map(() => 2));

function fromValues(diagrams: Diagrams, values: readonly number[]): Node {
  return CASES.reduce<Node>((rest, each, index) => {
    const here = diagrams.and(...each.map((value, level) => diagrams.literal(level, [value])));
    return diagrams.ite(here, diagrams.terminal(values[index] as number), rest);
  }, diagrams.no);
}

function valuesOf(diagrams: Diagrams, f: Node): number[] {
  return CASES.map((each) => diagrams.evaluate(f, each));
}

describe('all 64 functions of a two-valued and a three-valued variable', () => {
  const diagrams = new Diagrams(variablesOf(SIZES));
  const nodes = FUNCTIONS.map((values) => fromValues(diagrams, values));

  test('evaluate to their truth tables, and each is one node of its own', () => {
    nodes.forEach((node, index) => {
      expect(valuesOf(diagrams, node)).toEqual(FUNCTIONS[index]);
    });
    expect(new Set(nodes).size).toBe(64);
    diagrams.assertConsistent();
  });

  test('are found again as the same node by every operation on pairs', () => {
    const node = new Map(FUNCTIONS.map((values, index) => [values.join(''), nodes[index]]));
    for (const [i, f] of nodes.entries()) {
      for (const [j, g] of nodes.entries()) {
        const expected = (combine: (a: number, b: number) => number): Node | undefined =>
          node.get(FUNCTIONS[i]?.map((a, at) => combine(a, FUNCTIONS[j]?.[at] as number)).join('') as string);
        expect(diagrams.and(f, g)).toBe(expected((a, b) => a & b));
        expect(diagrams.or(f, g)).toBe(expected((a, b) => a | b));
        expect(diagrams.implies(f, g)).toBe(expected((a, b) => (1 - a) | b));
        expect(diagrams.apply('differ', f, g, (a, b) => a ^ b)).toBe(expected((a, b) => a ^ b));
      }
    }
    diagrams.assertConsistent();
  });

  test('are changed, restricted, quantified, counted and picked from as the truth tables say', () => {
    nodes.forEach((f, index) => {
      const values = FUNCTIONS[index] as number[];
      const at = (x: number, y: number): number => values[3 * x + y] as number;
      const table = `\n${printed(SIZES, ([x, y]) => at(x as number, y as number))}`;
      const says = (result: Node, value: (x: number, y: number) => number): void => {
        expect(valuesOf(diagrams, result), table).toEqual(CASES.map(([x, y]) => value(x as number, y as number)));
      };
      says(diagrams.not(f), (x, y) => 1 - at(x, y));
      says(
        diagrams.map('plus three', f, (a) => a + 3),
        (x, y) => at(x, y) + 3,
      );
      says(diagrams.casesOf(f, 0), (x, y) => (at(x, y) === 0 ? 1 : 0));
      says(diagrams.restrict(f, 0, 1), (_, y) => at(1, y));
      says(diagrams.restrict(f, 1, 2), (x) => at(x, 2));
      says(diagrams.restrictAll(f, new Map([[1, 0]])), (x) => at(x, 0));
      says(
        diagrams.restrictAll(
          f,
          new Map([
            [0, 1],
            [1, 2],
          ]),
        ),
        () => at(1, 2),
      );
      says(diagrams.exists(f, [0]), (_, y) => Math.max(at(0, y), at(1, y)));
      says(diagrams.exists(f, [1]), (x) => Math.max(at(x, 0), at(x, 1), at(x, 2)));
      says(diagrams.forAll(f, [1]), (x) => Math.min(at(x, 0), at(x, 1), at(x, 2)));
      says(diagrams.exists(f, [0, 1]), () => Math.max(...values));
      says(diagrams.forAll(f, [0, 1]), () => Math.min(...values));
      const count = values.filter((value) => value === 1).length;
      expect(diagrams.satCount(f, [0, 1]), table).toBe(BigInt(count));
      expect(diagrams.terminals(f)).toEqual([0, 1].filter((value) => values.includes(value)));
      const dependsOnX = [0, 1, 2].some((y) => at(0, y) !== at(1, y));
      const dependsOnY = [0, 1].some((x) => at(x, 0) !== at(x, 1) || at(x, 0) !== at(x, 2));
      expect(diagrams.support(f), table).toEqual([...(dependsOnX ? [0] : []), ...(dependsOnY ? [1] : [])]);
      const picked = diagrams.pick(f);
      const least = CASES.find((_, place) => values[place] === 1);
      expect(least && SIZES.map((_, level) => picked?.get(level) ?? 0), table).toEqual(least);
      expect(picked === undefined).toBe(count === 0);
    });
    diagrams.assertConsistent();
  });
});

type Formula =
  | { op: 'literal'; level: number; values: number[] }
  | { op: 'not'; a: Formula }
  | { op: 'and' | 'or' | 'implies'; a: Formula; b: Formula }
  | { op: 'ite'; a: Formula; b: Formula; c: Formula }
  | { op: 'exists' | 'forAll'; a: Formula; level: number }
  | { op: 'restrict'; a: Formula; level: number; value: number };

/** Read as the operators are defined: no diagram anywhere. */
function holds(formula: Formula, each: readonly number[], sizes: readonly number[]): boolean {
  const sub = (part: Formula, at = each): boolean => holds(part, at, sizes);
  const choices = (level: number): number[][] =>
    Array.from({ length: sizes[level] as number }, (_, value) => each.with(level, value));
  switch (formula.op) {
    case 'literal':
      return formula.values.includes(each[formula.level] as number);
    case 'not':
      return !sub(formula.a);
    case 'and':
      return sub(formula.a) && sub(formula.b);
    case 'or':
      return sub(formula.a) || sub(formula.b);
    case 'implies':
      return !sub(formula.a) || sub(formula.b);
    case 'ite':
      return sub(formula.a) ? sub(formula.b) : sub(formula.c);
    case 'exists':
      return choices(formula.level).some((at) => sub(formula.a, at));
    case 'forAll':
      return choices(formula.level).every((at) => sub(formula.a, at));
    case 'restrict':
      return sub(formula.a, each.with(formula.level, formula.value));
  }
}

function compiled(diagrams: Diagrams, formula: Formula): Node {
  const sub = (part: Formula): Node => compiled(diagrams, part);
  switch (formula.op) {
    case 'literal':
      return diagrams.literal(formula.level, formula.values);
    case 'not':
      return diagrams.not(sub(formula.a));
    case 'and':
      return diagrams.and(sub(formula.a), sub(formula.b));
    case 'or':
      return diagrams.or(sub(formula.a), sub(formula.b));
    case 'implies':
      return diagrams.implies(sub(formula.a), sub(formula.b));
    case 'ite':
      return diagrams.ite(sub(formula.a), sub(formula.b), sub(formula.c));
    case 'exists':
      return diagrams.exists(sub(formula.a), [formula.level]);
    case 'forAll':
      return diagrams.forAll(sub(formula.a), [formula.level]);
    case 'restrict':
      return diagrams.restrict(sub(formula.a), formula.level, formula.value);
  }
}

function formulas(sizes: readonly number[]): fc.Arbitrary<Formula> {
  const level = fc.nat(sizes.length - 1);
  const levelAndValue = level.chain((at) =>
    fc.record({ level: fc.constant(at), value: fc.nat((sizes[at] as number) - 1) }),
  );
  const literal = level.chain((at) =>
    fc
      .subarray(Array.from({ length: sizes[at] as number }, (_, value) => value))
      .map((values): Formula => ({ op: 'literal', level: at, values })),
  );
  return fc.letrec<{ formula: Formula }>((tie) => ({
    formula: fc.oneof(
      { maxDepth: 5, withCrossShrink: true },
      literal,
      fc.record({ op: fc.constant('not' as const), a: tie('formula') }),
      fc.record({ op: fc.constantFrom('and' as const, 'or', 'implies'), a: tie('formula'), b: tie('formula') }),
      fc.record({ op: fc.constant('ite' as const), a: tie('formula'), b: tie('formula'), c: tie('formula') }),
      fc.record({ op: fc.constantFrom('exists' as const, 'forAll'), a: tie('formula'), level }),
      fc.record({ a: tie('formula'), at: levelAndValue }).map(({ a, at }): Formula => ({ op: 'restrict', a, ...at })),
    ),
  })).formula;
}

const families = fc
  .array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 5 })
  .chain((sizes) => fc.record({ sizes: fc.constant(sizes), f: formulas(sizes), g: formulas(sizes) }));

describe('random formulas over variables of one to four values', () => {
  test('hold in the diagram exactly where they hold when read', () => {
    fc.assert(
      fc.property(families, ({ sizes, f }) => {
        const diagrams = new Diagrams(variablesOf(sizes));
        const node = compiled(diagrams, f);
        const cases = allCases(sizes);
        const read = (each: readonly number[]): number => (holds(f, each, sizes) ? 1 : 0);
        const table = `\n${printed(sizes, (each) => `${read(each)} ${diagrams.evaluate(node, each)}`)}`;
        expect(
          cases.map((each) => diagrams.evaluate(node, each)),
          table,
        ).toEqual(cases.map(read));
        const levels = sizes.map((_, level) => level);
        expect(diagrams.satCount(node, levels), table).toBe(BigInt(cases.filter((each) => read(each) === 1).length));
        const matters = levels.filter((level) => cases.some((each) => read(each) !== read(each.with(level, 0))));
        expect(diagrams.support(node), table).toEqual(matters);
        diagrams.assertConsistent();
      }),
      { numRuns: 500 },
    );
  });

  test('are one node exactly when they hold in the same cases', () => {
    fc.assert(
      fc.property(families, ({ sizes, f, g }) => {
        const diagrams = new Diagrams(variablesOf(sizes));
        const equal = allCases(sizes).every((each) => holds(f, each, sizes) === holds(g, each, sizes));
        expect(compiled(diagrams, f) === compiled(diagrams, g)).toBe(equal);
      }),
      { numRuns: 300 },
    );
  });

  test('merge exactly when they agree wherever both are possible', () => {
    fc.assert(
      fc.property(families, families, ({ sizes, f, g }, { f: seed }) => {
        const diagrams = new Diagrams(variablesOf(sizes));
        const cases = allCases(sizes);
        const bits = JSON.stringify(seed).length;
        const free = 7;
        // Each side is impossible where a fixed sample of cases says so.
        const holed = (formula: Formula, skip: number): Node =>
          cases.reduce<Node>(
            (rest, each, index) => {
              if ((index * bits + skip) % 3 !== 0) return rest;
              const here = diagrams.and(...each.map((value, level) => diagrams.literal(level, [value])));
              return diagrams.ite(here, diagrams.terminal(free), rest);
            },
            compiled(diagrams, formula),
          );
        const [a, b] = [holed(f, 0), holed(g, 1)];
        const pairs = cases.map((each) => [diagrams.evaluate(a, each), diagrams.evaluate(b, each)] as const);
        const agree = pairs.every(([x, y]) => x === y || x === free || y === free);
        const merged = diagrams.merge(a, b, free);
        expect(merged !== undefined).toBe(agree);
        if (merged === undefined) return;
        expect(cases.map((each) => diagrams.evaluate(merged, each))).toEqual(
          pairs.map(([x, y]) => (x === free ? y : x)),
        );
        diagrams.assertConsistent();
      }),
      { numRuns: 300 },
    );
  });
});

describe('the manager', () => {
  test('stops with the limit instead of making one node too many, and stays consistent', () => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 12 }, () => 2)), { nodeLimit: 40 });
    const parity = (): Node =>
      diagrams.variables.reduce<Node>(
        (f, _, level) => diagrams.apply('parity', f, diagrams.literal(level, [1]), (a, b) => a ^ b),
        diagrams.no,
      );
    expect(parity).toThrow(new LimitError('nodes', 40, true));
    expect(diagrams.nodeCount).toBe(40);
    diagrams.assertConsistent();
    expect(diagrams.evaluate(diagrams.literal(0, [1]), [1])).toBe(1);
  });

  test('does the same work for the same requests', () => {
    const run = (): unknown => {
      const diagrams = new Diagrams(variablesOf([3, 3, 3, 3]));
      const sum = diagrams.variables.reduce<Node>(
        (f, _, level) =>
          diagrams.ite(
            diagrams.literal(level, [1, 2]),
            diagrams.map('next', f, (a) => a + 1),
            f,
          ),
        diagrams.no,
      );
      return { work: diagrams.work, size: diagrams.size(sum) };
    };
    expect(run()).toEqual(run());
    // A change here is a change of how much work an operation does: pinned so that it is made on purpose.
    expect(run()).toMatchInlineSnapshot(`
      {
        "size": 15,
        "work": {
          "applyCalls": 49,
          "cacheHits": 19,
          "nodes": 31,
        },
      }
    `);
  });

  test('counts beyond the range of numbers', () => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 80 }, () => 3)));
    const levels = diagrams.variables.map((_, level) => level);
    expect(diagrams.satCount(diagrams.literal(40, [0, 2]), levels)).toBe(2n * 3n ** 79n);
  });

  test('keeps hundreds of values of one variable apart', () => {
    const diagrams = new Diagrams(variablesOf([1500, 2]));
    const odd = Array.from({ length: 750 }, (_, index) => 2 * index + 1);
    const f = diagrams.and(diagrams.literal(0, odd), diagrams.literal(1, [1]));
    expect(diagrams.satCount(f, [0, 1])).toBe(750n);
    expect(diagrams.evaluate(f, [1499, 1])).toBe(1);
    expect(diagrams.evaluate(f, [1498, 1])).toBe(0);
    diagrams.assertConsistent();
  });

  test('places terminals below every variable and tells their values', () => {
    const diagrams = new Diagrams(variablesOf([2]));
    expect(diagrams.level(diagrams.terminal(5))).toBe(TERMINAL_LEVEL);
    expect(diagrams.valueOf(diagrams.terminal(5))).toBe(5);
    expect(diagrams.terminal(5)).toBe(diagrams.terminal(5));
    expect([diagrams.no, diagrams.yes]).toEqual([diagrams.terminal(0), diagrams.terminal(1)]);
    const x = diagrams.literal(0, [1]);
    expect(diagrams.valueOf(x)).toBeUndefined();
    expect([diagrams.level(x), diagrams.child(x, 0), diagrams.child(x, 1)]).toEqual([0, diagrams.no, diagrams.yes]);
    expect([diagrams.and(), diagrams.or()]).toEqual([diagrams.yes, diagrams.no]);
  });

  test('takes no operation for another, whatever was asked for before', () => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 13 }, () => 2)));
    const [x, y] = [diagrams.literal(1, [1]), diagrams.literal(12, [1])];
    const both = diagrams.and(x, y);
    const either = diagrams.or(x, y);
    const values = (f: Node): number[] =>
      [0, 1].flatMap((a) =>
        [0, 1].map((b) =>
          diagrams.evaluate(
            f,
            Array.from({ length: 13 }, (_, at) => (at === 1 ? a : b)),
          ),
        ),
      );
    const applied = (key: string, combine: (a: number, b: number) => number): number[] =>
      values(diagrams.apply(key, x, y, combine));
    expect(applied('sum', (a, b) => a + b)).toEqual([0, 1, 1, 2]);
    expect(applied('twice the first', (a) => 2 * a)).toEqual([0, 0, 2, 2]);
    expect(applied('twice the second', (_, b) => 2 * b)).toEqual([0, 2, 0, 2]);
    expect(applied('alike', (a, b) => (a === b ? 1 : 0))).toEqual([1, 0, 0, 1]);
    expect(values(diagrams.map('three more', either, (a) => a + 3))).toEqual([3, 4, 4, 4]);
    expect(values(diagrams.map('four times', either, (a) => 4 * a))).toEqual([0, 4, 4, 4]);
    expect(diagrams.fold('greatest', both, [1], Math.max)).toBe(y);
    expect(diagrams.fold('least', both, [1], Math.min)).toBe(diagrams.no);
    // Written one after the other, the levels 1 and 2 look like level 12.
    expect(diagrams.exists(both, [1, 2])).toBe(y);
    expect(diagrams.exists(both, [12])).toBe(x);
  });

  test('picks the least case that holds, without the variables that do not matter to it', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const either = diagrams.or(diagrams.literal(0, [0]), diagrams.literal(1, [2]));
    expect(diagrams.pick(either)).toEqual(new Map([[0, 0]]));
    expect(diagrams.pick(diagrams.and(either, diagrams.literal(0, [1])))).toEqual(
      new Map([
        [0, 1],
        [1, 2],
      ]),
    );
  });

  test('refuses an order that is not one of all its levels', () => {
    for (const order of [[0], [0, 0], [0, 1, 2], [1, 2]]) {
      expect(() => new Diagrams(variablesOf([2, 3]), { order })).toThrow(
        new RangeError('the order is not one of all levels'),
      );
    }
  });

  test('refuses what no variable has and what is not Boolean', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const x = diagrams.literal(0, [1]);
    expect(() => new Diagrams(variablesOf([2, 0]))).toThrow('x1 has no values');
    expect(() => diagrams.literal(2, [0])).toThrow('no level 2');
    for (const value of [3, -1, 0.5]) expect(() => diagrams.literal(1, [value])).toThrow(`no value ${value}`);
    expect(() => diagrams.restrict(x, 0, 2)).toThrow('no value 2');
    expect(() => diagrams.restrictAll(x, new Map([[0, 2]]))).toThrow('no value 2');
    expect(() => diagrams.evaluate(x, [])).toThrow('level 0 has no value');
    expect(() => diagrams.evaluate(x, [2])).toThrow('no value 2');
    expect(() => diagrams.child(diagrams.yes, 0)).toThrow('is a terminal');
    expect(() => diagrams.child(x, 2)).toThrow('no value 2');
    for (const value of [-1, 0.5, 2 ** 31]) expect(() => diagrams.terminal(value)).toThrow(`not ${value}`);
    expect(() => diagrams.satCount(x, [1])).toThrow('tested but not counted');
    const notBoolean = new TypeError('a Boolean diagram has the terminals 0 and 1 only');
    expect(() => diagrams.and(x, diagrams.terminal(2))).toThrow(notBoolean);
    expect(() => diagrams.or(x, diagrams.terminal(2))).toThrow(notBoolean);
    expect(() => diagrams.not(diagrams.terminal(2))).toThrow(TypeError);
    expect(() => diagrams.ite(diagrams.terminal(2), x, x)).toThrow('has the terminals 0 and 1, not 2');
  });
});
