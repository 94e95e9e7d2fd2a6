import { brotliCompressSync, gzipSync, crc32 as nodesCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../src/logic/crc32.ts';
import { DigitReader, digitsOf } from '../../src/logic/digits.ts';
import { Diagrams, loadPacked, type Node, PackedError, pack, unpack } from '../../src/logic/index.ts';
import { checkOf, type PackedDiagrams } from '../../src/logic/packed.ts';
import { diagramOf, ruleList } from './rule-lists.ts';
import { allCases, seeded, variablesOf } from './truth-tables.ts';

/** Five levels of each size from 2 to 5. */
const SIZES = Array.from({ length: 20 }, (_, level) => 2 + Math.floor(level / 5));

interface Family {
  readonly diagrams: Diagrams;
  readonly roots: readonly Node[];
}

/** Rule lists of up to five variables, each list with variables of its own choice. */
function family(seed: number, items: number, order?: readonly number[]): Family {
  const diagrams = new Diagrams(variablesOf(SIZES), order ? { order } : {});
  const next = seeded(seed);
  const roots = Array.from({ length: items }, (_, item) => {
    const list = ruleList(1000 * seed + item, { variables: 5, size: 5, rules: 6 });
    const shift = next(5);
    const place = (level: number): number => 5 * ((list.variables[level]?.size as number) - 2) + ((level + shift) % 5);
    return diagramOf(diagrams, list, place);
  });
  return { diagrams, roots };
}

const families = fc.tuple(fc.nat(10_000), fc.integer({ min: 0, max: 12 })).map(([seed, items]) => family(seed, items));

function randomCases(seed: number, count: number): number[][] {
  const next = seeded(seed);
  return Array.from({ length: count }, () => SIZES.map((size) => next(size)));
}

/** Through the text, as a page gets it. */
const copied = (data: unknown): unknown => JSON.parse(JSON.stringify(data));

describe('packed diagrams', () => {
  test('say of every case what the diagrams say', () => {
    fc.assert(
      fc.property(families, fc.nat(), ({ diagrams, roots }, seed) => {
        const evaluator = unpack(copied(pack(diagrams, roots)));
        for (const each of randomCases(seed, 40)) {
          expect([...evaluator.evaluate(each)]).toEqual(roots.map((root) => diagrams.evaluate(root, each)));
        }
      }),
    );
  });

  test('hold every function of variables of any size', () => {
    const functions = fc.array(fc.integer({ min: 2, max: 11 }), { minLength: 1, maxLength: 3 }).chain((sizes) => {
      const cases = allCases(sizes);
      const outcomes = fc.array(fc.constantFrom(0, 1, 2, 2 ** 31 - 1), {
        minLength: cases.length,
        maxLength: cases.length,
      });
      return fc.record({ sizes: fc.constant(sizes), cases: fc.constant(cases), outcomes });
    });
    fc.assert(
      fc.property(functions, ({ sizes, cases, outcomes }) => {
        const diagrams = new Diagrams(variablesOf(sizes));
        const root = cases.reduce<Node>(
          (rest, each, at) =>
            diagrams.ite(
              diagrams.and(...each.map((value, level) => diagrams.literal(level, [value]))),
              diagrams.terminal(outcomes[at] as number),
              rest,
            ),
          diagrams.no,
        );
        const data = copied(pack(diagrams, [root]));
        const evaluator = unpack(data);
        expect(cases.map((each) => evaluator.evaluate(each)[0])).toEqual(outcomes);
        expect(loadPacked(diagrams, data)).toEqual([root]);
      }),
    );
  });

  test('are the same nodes again in their own manager, and the same text out of another one', () => {
    fc.assert(
      fc.property(families, ({ diagrams, roots }) => {
        const data = pack(diagrams, roots);
        expect(loadPacked(diagrams, copied(data))).toEqual(roots);
        const other = new Diagrams(diagrams.variables);
        other.literal(3, [1]);
        expect(pack(other, loadPacked(other, copied(data)))).toEqual(data);
        other.assertConsistent();
      }),
    );
  });

  test('are the same text however the functions were made', () => {
    const { diagrams, roots } = family(5, 30);
    const { diagrams: others, roots: otherRoots } = family(5, 30);
    const backwards = otherRoots.map((root) => others.not(others.casesOf(root, 1)));
    expect(pack(others, otherRoots)).toEqual(pack(diagrams, roots));
    expect(pack(others, backwards)).toEqual(
      pack(
        diagrams,
        roots.map((root) => diagrams.map('other than 1', root, (value) => (value === 1 ? 0 : 1))),
      ),
    );
  });

  test('can be loaded into a manager with another order', () => {
    const order = SIZES.map((_, level) => (7 * level) % SIZES.length);
    const { diagrams, roots } = family(6, 40);
    const { diagrams: others, roots: expected } = family(6, 40, order);
    expect(loadPacked(others, pack(diagrams, roots))).toEqual(expected);
    const packed = pack(others, expected);
    expect(packed.levels).toEqual(order);
    expect(loadPacked(diagrams, packed)).toEqual(roots);
  });

  test('of no roots, of terminals and of the same root twice', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const literal = diagrams.literal(1, [0, 2]);
    for (const roots of [[], [diagrams.terminal(7), diagrams.no], [literal, literal, diagrams.yes]]) {
      const data = copied(pack(diagrams, roots));
      expect(loadPacked(diagrams, data)).toEqual(roots);
      expect([...unpack(data).evaluate([1, 2])]).toEqual(roots.map((root) => diagrams.evaluate(root, [1, 2])));
    }
  });

  test('look as described', () => {
    const diagrams = new Diagrams(variablesOf([2, 3, 4]));
    const below = diagrams.literal(2, [1, 2]);
    const root = diagrams.ite(diagrams.literal(0, [1]), below, diagrams.literal(1, [1]));
    expect(pack(diagrams, [root, below])).toEqual({
      levels: [0, 1, 2],
      sizes: [2, 3, 4],
      terminals: [0, 1],
      roots: 2,
      // The root; its child at level 1 with 0 and 1; its child at level 2 likewise; then the one met before the root.
      nodes: '0012' + '012' + '4',
      tests: '001',
      // 1, 0 is 1 + 2 * 0; 1, 1, 0 is 1 + 2 * (1 + 3 * 0).
      splits: '13',
      check: nodesCrc32(['0 1 2', '2 3 4', '0 1', '2', '00120124', '001', '13'].join('\n')).toString(16),
    });
  });

  test('tell nodes apart whose children have numbers of the same digits', () => {
    const diagrams = new Diagrams(variablesOf([2, 12]));
    const first = diagrams.literal(0, [1]);
    const below = Array.from({ length: 12 }, (_, value) => diagrams.literal(1, [value]));
    // The children of the one are the nodes 1 and 11, those of the other 11 and 1.
    const [a, b] = [below[1] as Node, below[11] as Node];
    const roots = [...below, diagrams.ite(first, b, a), diagrams.ite(first, a, b)];
    expect(loadPacked(diagrams, pack(diagrams, roots))).toEqual(roots);
  });

  test('test up to 2000 levels', () => {
    const diagrams = new Diagrams(variablesOf(Array.from({ length: 2001 }, () => 2)));
    const from = (first: number): Node =>
      diagrams.variables.reduceRight<Node>(
        (rest, _, level) => (level < first ? rest : diagrams.and(diagrams.literal(level, [1]), rest)),
        diagrams.yes,
      );
    expect(loadPacked(diagrams, pack(diagrams, [from(1)]))).toEqual([from(1)]);
    expect(() => pack(diagrams, [from(0)])).toThrow(new RangeError('more than 2000 levels are tested'));
  });

  test('take few bytes', () => {
    const { diagrams, roots } = family(1, 200);
    const text = JSON.stringify(pack(diagrams, roots));
    expect(unpack(JSON.parse(text)).levels).toHaveLength(SIZES.length);
    expect(gzipSync(text, { level: 9 }).length).toBeLessThan(2600);
    expect(brotliCompressSync(text).length).toBeLessThan(2400);
  });

  test('refuse a case that gives a level no value', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const evaluator = unpack(pack(diagrams, [diagrams.literal(1, [1])]));
    expect([...evaluator.evaluate([9, 1])]).toEqual([1]);
    for (const values of [[0], [0, 3], [0, -1], [0, 0.5], []]) {
      expect(() => evaluator.evaluate(values)).toThrow(new RangeError(`level 1 has no value ${values[1]}`));
    }
  });

  test('refuse a manager whose variables are others', () => {
    const diagrams = new Diagrams(variablesOf([2, 3]));
    const data = pack(diagrams, [diagrams.literal(1, [1])]);
    for (const sizes of [[2], [2, 4], [3, 2]]) {
      const others = new Diagrams(variablesOf(sizes));
      expect(() => loadPacked(others, data)).toThrow(`level 1 has 3 values, not ${sizes[1] ?? 0}`);
      expect(() => loadPacked(others, data)).toThrow(PackedError);
    }
  });
});

describe('damaged packed diagrams', () => {
  const { diagrams, roots } = family(8, 25);
  const whole = pack(diagrams, roots);
  const characters = fc.constantFrom(...'0123456789AZaz-_!~" ');
  const texts = fc.constantFrom('nodes', 'tests', 'splits') satisfies fc.Arbitrary<keyof PackedDiagrams>;

  /** One character put in place of some. */
  const changedText = fc.record({ key: texts, at: fc.nat(), gone: fc.nat(3), by: characters }).map((change) => {
    const text = whole[change.key];
    const at = change.at % text.length;
    return { ...whole, [change.key]: text.slice(0, at) + change.by + text.slice(at + change.gone) };
  });
  const lists = fc.constantFrom('levels', 'sizes', 'terminals') satisfies fc.Arbitrary<keyof PackedDiagrams>;
  const numbers = fc.oneof(fc.integer({ min: -1, max: 25 }), fc.constantFrom(2 ** 31 - 1, 2 ** 31, 1e300, 0.5));
  const changedList = fc.record({ key: lists, at: fc.nat(), gone: fc.nat(2), by: numbers }).map((change) => {
    const list = whole[change.key];
    return { ...whole, [change.key]: list.toSpliced(change.at % list.length, change.gone, change.by) };
  });
  const changedRoots = numbers.map((count) => ({ ...whole, roots: count }));
  const damaged = fc
    .oneof({ weight: 6, arbitrary: changedText }, { weight: 3, arbitrary: changedList }, changedRoots)
    .filter((data) => checkOf(data) !== whole.check);

  test('are refused, whatever was damaged', () => {
    fc.assert(
      fc.property(damaged, (data) => {
        expect(() => unpack(data)).toThrow(PackedError);
        expect(() => loadPacked(diagrams, data)).toThrow(PackedError);
      }),
      { numRuns: 500 },
    );
  });

  test('are refused with a checksum that fits too, unless they are other diagrams as they would be packed', () => {
    let sound = 0;
    fc.assert(
      fc.property(damaged, (changed) => {
        const data = { ...changed, check: checkOf(changed) };
        const manager = new Diagrams(variablesOf(SIZES));
        let loaded: Node[];
        try {
          loaded = loadPacked(manager, data);
        } catch (error) {
          expect(error).toBeInstanceOf(PackedError);
          return;
        }
        sound += 1;
        // A level put in the place of another may be sound too: where the nodes test the levels in that order.
        const others = SIZES.map((_, level) => level).filter((level) => !data.levels.includes(level));
        const ordered = new Diagrams(variablesOf(SIZES), { order: [...data.levels, ...others] });
        expect(pack(ordered, loadPacked(ordered, data))).toEqual(data);
        expect([...unpack(data).evaluate(SIZES.map(() => 0))]).toEqual(
          loaded.map((root) =>
            manager.evaluate(
              root,
              SIZES.map(() => 0),
            ),
          ),
        );
      }),
      { numRuns: 2000 },
    );
    expect(sound).toBeGreaterThan(20);
    expect(sound).toBeLessThan(1000);
  });

  test('are refused when they are cut off or of another shape', () => {
    const without = Object.keys(whole).map((key) => ({ ...whole, [key]: undefined }));
    for (const data of [[], {}, ...without]) expect(() => unpack(data)).toThrow(PackedError);
    for (const data of [undefined, null, 'text']) expect(() => unpack(data)).toThrow('it is no object');
    expect(() => unpack({ ...whole, nodes: 5 })).toThrow('nodes is no text');
    expect(() => unpack({ ...whole, levels: '1' })).toThrow('levels is no list of numbers');
  });

  test.each([
    ['nodes ends too early', { nodes: '01' }],
    ['tests ends too early', { tests: '' }],
    ['nodes has a wrong character at 1', { nodes: '0 2' }],
    ['splits has a wrong character at 0', { sizes: [3], splits: ' ' }],
    ['nodes has too large a number at 7', { nodes: `0${'~'.repeat(8)}02` }],
    ['levels is no list of numbers', { levels: [-1] }],
    ['terminals is no list of numbers', { terminals: [0, 0.5] }],
    ['terminals is no list of numbers', { terminals: [0, 2 ** 31] }],
    ['names a node that is not there', { nodes: '013' }],
    ['tests a level that is not there', { tests: '1' }],
    ['is left over', { nodes: '0120' }],
    ['is left over', { splits: '0' }],
    ['a child stands twice', { nodes: '011' }],
    ['a node stands twice', { nodes: '012012', tests: '00', roots: 2 }],
    ['a terminal is never reached', { terminals: [0, 1, 5] }],
    ['a level is never tested', { levels: [0, 1], sizes: [2, 2] }],
    ['a level stands twice', { levels: [0, 0], sizes: [2, 2] }],
    ['sizes are wrong', { sizes: [1] }],
    ['sizes are wrong', { sizes: [2, 2] }],
    ['out of order', { terminals: [1, 0] }],
    ['out of order', { terminals: [0, 0] }],
    ['number of roots', { roots: 4 }],
    ['a node tests nothing', { sizes: [3], splits: '0', nodes: '01', terminals: [0] }],
    ['a split is wrong', { sizes: [3], splits: '6' }],
    ['too many levels', { levels: Array.from({ length: 2001 }, (_, at) => at) }],
  ])('are told what is wrong: %s', (what, change) => {
    const sound = { levels: [0], sizes: [2], terminals: [0, 1], roots: 1, nodes: '012', tests: '0', splits: '' };
    expect([...unpack({ ...sound, check: checkOf(sound) }).evaluate([1])]).toEqual([1]);
    const data = { ...sound, ...change };
    expect(() => unpack({ ...data, check: checkOf(data) })).toThrow(what);
    expect(() => unpack({ ...data, check: 'f00d' })).toThrow(PackedError);
  });

  test('are told that the checksum is another, in a message with the name of the error', () => {
    let message = '';
    try {
      unpack({ ...whole, check: 'f00d' });
    } catch (error) {
      message = String(error);
    }
    expect(message).toBe("PackedError: the packed diagrams can't be read: the checksum is another");
  });
});

describe('the parts of the form', () => {
  test('digits are read as they were written, one number after the other', () => {
    const numbers = fc.array(fc.oneof(fc.nat(100), fc.nat(2 ** 31 - 1), fc.constant(2 ** 31 - 1)));
    fc.assert(
      fc.property(numbers, (list) => {
        const reader = new DigitReader(list.map(digitsOf).join(''), (what) => new Error(what));
        expect(list.map(() => reader.next())).toEqual(list);
        expect(reader.done).toBe(true);
      }),
    );
    expect([0, 9, 10, 63, 64, 65, 64 + 23].map(digitsOf)).toEqual(['0', '9', 'A', '_', '!0', '#0', '!1']);
  });

  test('the checksum is that of the runtime', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => crc32(text) === nodesCrc32(text)));
  });
});
