/** What is read of detectors, and which orders of them can hold. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { filesOf, read, SMALL } from './small-content.ts';

interface Given {
  readonly by: string;
  readonly value: number;
  readonly tolerance: number;
}

function detector(id: string, { by, value, tolerance }: Given): string {
  return `  ${id}:
    title: Detector ${id}
    trips: speed ${by} ${value} kt
    tolerance: ${tolerance}
    says: with ${id} tripped
    says-not: with ${id} not tripped
`;
}

/** The small content with detectors, and what else `conditions.yaml` says. */
function readWith(detectors: Readonly<Record<string, Given>>, more = ''): ReturnType<typeof read> {
  const written = Object.entries(detectors).map(([id, given]) => detector(id, given));
  const conditions = `${SMALL['conditions.yaml'] ?? ''}${more}detectors:\n${written.join('')}`;
  return read(filesOf({ 'conditions.yaml': conditions }));
}

const HIGH: Given = { by: '>', value: 100, tolerance: 5 };
const HIGHER: Given = { by: '>=', value: 108, tolerance: 10 };

describe('a detector', () => {
  it('is a threshold with a tolerance, in decimals as written', () => {
    const { fleet, reported } = readWith({ high: { by: '<=', value: 100.5, tolerance: 2.5 } });
    expect(reported).toEqual([]);
    expect(fleet?.detectors).toMatchObject([
      {
        id: 'high',
        title: 'Detector high',
        number: 'speed',
        by: '<=',
        value: '100.5',
        tolerance: '2.5',
        says: 'with high tripped',
        saysNot: 'with high not tripped',
      },
    ]);
  });

  it.each([
    ['has no tolerance below zero', { ...HIGH, tolerance: -5 }, 'SL361', '-5'],
    ['keeps to the steps of its number', { ...HIGH, tolerance: 0.25 }, 'SL361', '0.25'],
    ['may reach to the end of the range', { ...HIGH, tolerance: 100 }, undefined, undefined],
    ['may not reach beyond the end of the range', { ...HIGH, tolerance: 100.5 }, 'SL361', '100.5'],
    ['is no equality', { ...HIGH, by: '=' }, 'SL360', 'speed = 100 kt'],
  ])('%s', (_, given, code, words) => {
    expect(readWith({ high: given }).reported).toEqual(code === undefined ? [] : [{ code, words }]);
  });

  it('can be read by rules, signals, claims and by what never happens', () => {
    const roof = (SMALL['panels/roof.yaml'] ?? '').replace('switch is 2', 'high');
    const claims = '- { sentence: So it is., holds: high implies high }\n';
    const conditions = `${(SMALL['conditions.yaml'] ?? '').replace('speed > 300 kt', 'high')}detectors:\n${detector('high', HIGH)}`;
    const { fleet, reported } = read(
      filesOf({ 'conditions.yaml': conditions, 'panels/roof.yaml': roof, 'claims.yaml': claims }),
    );
    expect(reported).toEqual([]);
    expect(fleet?.never[0]?.expression).toMatchObject({ op: 'and', args: [{}, { op: 'detector', id: 'high' }] });
  });

  it('takes with it what reads it, where it cannot be used', () => {
    const files = filesOf({
      'conditions.yaml': `${SMALL['conditions.yaml'] ?? ''}detectors:\n${detector('high', { ...HIGH, tolerance: 0.25 })}`,
      'claims.yaml': '- { sentence: So it is., holds: high implies high }\n',
    });
    const { fleet, reported } = read(files);
    expect(reported).toEqual([{ code: 'SL361', words: '0.25' }]);
    expect(fleet?.claims ?? []).toEqual([]);
  });

  it('warns of words that do not fit into a sentence', () => {
    const said = detector('high', HIGH).replace('with high not tripped', 'high not tripped');
    const { reported } = read(filesOf({ 'conditions.yaml': `${SMALL['conditions.yaml'] ?? ''}detectors:\n${said}` }));
    expect(reported).toEqual([{ code: 'SL311', words: 'high not tripped' }]);
  });
});

describe('an order of detectors', () => {
  it('lists them as they trip', () => {
    const { fleet, reported } = readWith({ high: HIGH, higher: HIGHER }, 'in-order: [[high, higher]]\n');
    expect(reported).toEqual([]);
    expect(fleet?.detectorOrders).toMatchObject([{ detectors: ['high', 'higher'] }]);
  });

  it.each([
    ['names a detector once', '[[high, higher, high]]', 'high'],
    ['does not lead back', '[[high, higher], [higher, high]]', 'high'],
    ['does not lead back through another one', '[[high, higher], [higher, third], [third, high]]', 'high'],
    ['looks one way', '[[high, low]]', 'low'],
    ['does not put behind what trips before', '[[high, early]]', 'early'],
    ['does not put behind what trips before one further in front', '[[high, wide], [wide, early]]', 'early'],
    ['does not put in front what already has such a one behind it', '[[wide, early], [high, wide]]', 'wide'],
  ])('%s', (_, orders, words) => {
    const detectors = {
      high: HIGH,
      higher: HIGHER,
      third: { by: '>', value: 105, tolerance: 12 },
      low: { by: '<', value: 100, tolerance: 5 },
      early: { by: '>', value: 90, tolerance: 4 },
      wide: { by: '>', value: 100, tolerance: 50 },
    };
    const { fleet, reported } = readWith(detectors, `in-order: ${orders}\n`);
    expect(reported).toEqual([{ code: 'SL362', words }]);
    // Without the order, cases would be judged that it excludes.
    expect(fleet).toBeUndefined();
  });

  it('is refused exactly where at some value the second has certainly tripped and the first certainly not', () => {
    const anyDetector = (by: readonly string[]): fc.Arbitrary<Given> =>
      fc.record({
        by: fc.constantFrom(...by),
        value: fc.integer({ min: 20, max: 30 }),
        tolerance: fc.integer({ min: 0, max: 8 }).map((half) => half / 2),
      });
    const pairs = fc.constantFrom(['>', '>='], ['<', '<=']).chain((by) => fc.tuple(anyDetector(by), anyDetector(by)));
    fc.assert(
      fc.property(pairs, ([first, second]) => {
        const speeds = Array.from({ length: 101 }, (_, half) => half / 2);
        const contradicted = speeds.some((x) => surely(second, x) && surelyNot(first, x));
        const { reported } = readWith({ first, second }, 'in-order: [[first, second]]\n');
        expect(reported.map(({ code }) => code)).toEqual(contradicted ? ['SL362'] : []);
      }),
      { numRuns: 150 },
    );
  });
});

/** The guide's words: `x > a` with tolerance t is certainly tripped for x > a+t, and `>=`, `<`, `<=` likewise. */
function surely({ by, value: a, tolerance: t }: Given, x: number): boolean {
  switch (by) {
    case '>':
      return x > a + t;
    case '>=':
      return x >= a + t;
    case '<':
      return x < a - t;
    default:
      return x <= a - t;
  }
}

/** `x > a` is certainly not tripped for x <= a-t, `>=` not for x < a-t, and downwards likewise. */
function surelyNot({ by, value: a, tolerance: t }: Given, x: number): boolean {
  switch (by) {
    case '>':
      return x <= a - t;
    case '>=':
      return x < a - t;
    case '<':
      return x >= a + t;
    default:
      return x > a + t;
  }
}
