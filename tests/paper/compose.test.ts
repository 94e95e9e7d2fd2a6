/** The choice of type and columns, over measurements that grow as type does. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Composed, compose, type Measured, pack, STEP, type Wanted } from '../../src/paper/index.ts';

/** Tables of as many rows as the numbers say, each row as high as its words need in a column of the page's share. */
function measuring(tables: readonly number[], room = 700, widest = 0): Wanted['measure'] {
  return (type, columns): Measured => {
    const lines = Math.ceil((type * 24) / (500 / columns));
    return {
      blocks: tables.map((rows) => ({
        lead: type * 3,
        again: type * 2,
        gap: type,
        rows: Array.from({ length: rows }, () => type * 1.3 * lines),
      })),
      heights: [room - 60, room],
      tooWide: widest * type > 500 / columns,
      air: type * 0.5,
    };
  };
}

const wanted = (tables: readonly number[], more: Partial<Wanted> = {}): Wanted => ({
  sheets: { from: 1, to: 1 },
  perSheet: 1,
  type: { from: 7, to: 11 },
  columns: { from: 1, to: 4 },
  measure: measuring(tables),
  ...more,
});
const isComposed = (composition: ReturnType<typeof compose>): composition is Composed => 'pages' in composition;

describe('composing', () => {
  it('chooses the largest type that fits, and of equals the fewest columns', () => {
    let composed = 0;
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 14 }),
        fc.integer({ min: 1, max: 2 }),
        (tables, perSheet) => {
          const asked = wanted(tables, { perSheet });
          const found = compose(asked);
          if (!isComposed(found)) return;
          composed += 1;
          expect(found.pages.length).toBe(perSheet);
          expect(found.type / STEP).toBe(Math.round(found.type / STEP));
          const fits = (type: number, columns: number): boolean => {
            const { blocks, heights, tooWide } = asked.measure(type, columns);
            const room = Array.from({ length: columns * perSheet }, (_, at) => heights[at < columns ? 0 : 1]);
            return !tooWide && pack(blocks, room) !== undefined;
          };
          expect(fits(found.type, found.columns)).toBe(true);
          for (let columns = 1; columns <= 4; columns += 1) {
            if (found.type + STEP <= 11) expect(fits(found.type + STEP, columns)).toBe(false);
            if (columns < found.columns) expect(fits(found.type, columns)).toBe(false);
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(composed).toBeGreaterThan(10);
  });

  it('fills all the sheets that were asked for', () => {
    const found = compose(wanted([20, 20, 20, 20], { sheets: { from: 2, to: 2 } }));
    expect(isComposed(found) && found.pages.every((page) => page.some((column) => column.length > 0))).toBe(true);
  });

  it('takes the fewest sheets of a range on which all of it fits', () => {
    const found = compose(wanted([30, 30, 30, 30, 30], { sheets: { from: 1, to: 4 }, columns: { from: 1, to: 1 } }));
    expect(isComposed(found) && found.sheets).toBe(3);
  });

  it('says how many sheets would do where it does not fit', () => {
    expect(compose(wanted([30, 30, 30, 30, 30], { columns: { from: 1, to: 1 } }))).toEqual({ fails: 'much', needs: 3 });
  });

  it('says that it fills fewer sheets in the largest type', () => {
    expect(compose(wanted([2], { sheets: { from: 3, to: 3 } }))).toEqual({ fails: 'little', needs: 1 });
  });

  it('says that a table is wider than the page, and takes fewer columns where it is wider than one of several', () => {
    expect(compose(wanted([5], { measure: measuring([5], 700, 80) }))).toEqual({ fails: 'wide' });
    const found = compose(wanted([5, 5], { measure: measuring([5, 5], 700, 40) }));
    expect(isComposed(found) && found.columns).toBe(1);
  });

  it('finds no number of sheets for a row that is higher than a page', () => {
    const high: Wanted['measure'] = (type, columns) => ({ ...measuring([2])(type, columns), heights: [20, 20] });
    expect(compose(wanted([2], { measure: high }))).toEqual({ fails: 'much' });
  });
});
