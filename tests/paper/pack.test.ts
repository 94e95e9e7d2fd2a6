/** Packing into columns, held to rules that are read off the answer, and to a search by hand over all ways. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PackBlock, type Piece, pack } from '../../src/paper/index.ts';

const block = (rows: readonly number[], more: Partial<PackBlock> = {}): PackBlock => ({
  lead: 2,
  again: 1,
  gap: 1,
  rows,
  ...more,
});

/** What a column takes, added up anew. */
function heightOf(blocks: readonly PackBlock[], pieces: readonly Piece[]): number {
  return pieces.reduce((sum, { block: at, from, to }, index) => {
    const { lead, again, gap, rows } = blocks[at] as PackBlock;
    const own = rows.slice(from, to).reduce((a, b) => a + b, 0);
    return sum + (index > 0 ? gap : 0) + (from > 0 ? again : lead) + own;
  }, 0);
}

const blocksArb = fc.array(
  fc.record({
    lead: fc.integer({ min: 1, max: 4 }),
    again: fc.integer({ min: 1, max: 2 }),
    gap: fc.integer({ min: 0, max: 2 }),
    rows: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 7 }),
  }),
  { minLength: 1, maxLength: 4 },
);
const columnsArb = fc.array(fc.integer({ min: 4, max: 24 }), { minLength: 1, maxLength: 5 });

/** The fewest breaks of any way at all, by trying each end of each column; undefined where there is none. */
function fewestBreaks(blocks: readonly PackBlock[], columns: readonly number[]): number | undefined {
  const all = blocks.flatMap(({ rows }, at) => rows.map((_, row) => ({ at, row })));
  const search = (start: number, column: number): number | undefined => {
    if (start === all.length) return 0;
    if (column === columns.length) return undefined;
    let best: number | undefined;
    for (let end = start + 1; end <= all.length; end += 1) {
      const pieces = piecesOf(start, end);
      if (heightOf(blocks, pieces) > (columns[column] as number)) break;
      if (!pieces.every(isAllowed)) continue;
      const breaks = end < all.length && (all[end]?.row ?? 0) > 0 ? 1 : 0;
      const rest = search(end, column + 1);
      if (rest !== undefined && (best === undefined || rest + breaks < best)) best = rest + breaks;
    }
    return best;
  };
  const piecesOf = (start: number, end: number): Piece[] =>
    [...Map.groupBy(all.slice(start, end), ({ at }) => at)].map(([at, rows]) => ({
      block: at,
      from: rows[0]?.row ?? 0,
      to: (rows.at(-1)?.row ?? 0) + 1,
    }));
  const isAllowed = ({ block: at, from, to }: Piece): boolean => {
    const { length } = blocks[at]?.rows ?? [];
    return (from === 0 && to === length) || (to - from >= 2 && (to === length || length - to >= 2));
  };
  return search(0, 0);
}

describe('packing', () => {
  it('places every row once and in order, within its column, and leaves no row alone', () => {
    let packed = 0;
    fc.assert(
      fc.property(blocksArb, columnsArb, (blocks, columns) => {
        const laid = pack(blocks, columns);
        if (!laid) return;
        packed += 1;
        expect(laid.length).toBeLessThanOrEqual(columns.length);
        const placed = laid
          .flat()
          .flatMap(({ block: at, from, to }) => Array.from({ length: to - from }, (_, index) => [at, from + index]));
        expect(placed).toEqual(blocks.flatMap(({ rows }, at) => rows.map((_, index) => [at, index])));
        for (const [at, pieces] of laid.entries()) {
          expect(pieces.length).toBeGreaterThan(0);
          expect(heightOf(blocks, pieces)).toBeLessThanOrEqual(columns[at] as number);
          for (const { block: of, from, to } of pieces) {
            const whole = to - from === blocks[of]?.rows.length;
            expect(whole || to - from >= 2).toBe(true);
          }
        }
      }),
    );
    expect(packed).toBeGreaterThan(10);
  });

  it('finds a way wherever there is one, with the fewest broken tables', () => {
    fc.assert(
      fc.property(blocksArb, columnsArb, (blocks, columns) => {
        const laid = pack(blocks, columns);
        const breaks = laid?.flat().filter(({ block: at, to }) => to < (blocks[at]?.rows.length ?? 0)).length;
        expect(breaks).toBe(fewestBreaks(blocks, columns));
      }),
    );
  });

  it('says a heading again where a table goes on, and counts it', () => {
    // 2 + 4 rows of 1 in the first column; 1 + 2 rows in the second.
    expect(pack([block([1, 1, 1, 1, 1, 1])], [6, 3])).toEqual([
      [{ block: 0, from: 0, to: 4 }],
      [{ block: 0, from: 4, to: 6 }],
    ]);
    expect(pack([block([1, 1, 1, 1, 1, 1])], [6, 2])).toBeUndefined();
  });

  it('keeps three rows together, since one of them would stand alone', () => {
    expect(pack([block([1, 1, 1])], [4, 5])).toBeUndefined();
    expect(pack([block([1, 1, 1])], [5])).toEqual([[{ block: 0, from: 0, to: 3 }]]);
  });
});
