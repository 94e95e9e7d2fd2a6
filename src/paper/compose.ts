/** The largest type, then the fewest columns, with which blocks fill a stated number of sheets. Lengths are measured by the caller. */
import { type PackBlock, type Piece, pack } from './pack.ts';

export interface Limits {
  readonly from: number;
  readonly to: number;
}

/** What was measured in one type and one number of columns. */
export interface Measured {
  readonly blocks: readonly PackBlock[];
  /** The height of a column on the first page and on the others. */
  readonly heights: readonly [first: number, others: number];
  /** Something is wider than its column. */
  readonly tooWide: boolean;
  /** How much each row may be set apart, at most, where there is room. */
  readonly air: number;
}

export interface Wanted {
  /** How many sheets may be filled: the fewest on which all of it fits are. */
  readonly sheets: Limits;
  /** Pages on each sheet: one or two. */
  readonly perSheet: number;
  readonly type: Limits;
  readonly columns: Limits;
  /** Asked for each type, a multiple of STEP, and each number of columns at most once. */
  readonly measure: (type: number, columns: number) => Measured;
}

export interface Composed {
  readonly sheets: number;
  readonly type: number;
  readonly columns: number;
  /** What each row is set apart by. */
  readonly air: number;
  /** By page, then by column. */
  readonly pages: readonly (readonly (readonly Piece[])[])[];
}
export type Composition =
  | Composed
  /** `needs`: how many sheets would do; absent where no number that was tried does. */
  | { readonly fails: 'much'; readonly needs?: number }
  /** It fills no more than this many, in the largest type. */
  | { readonly fails: 'little'; readonly needs: number }
  /** Something is wider than its column in the smallest type, in whatever number of columns. */
  | { readonly fails: 'wide' };

/** In points. */
export const STEP = 0.25;
/** Beyond this nobody wants to hear how many sheets it would take. */
const MOST = 40;

export function compose(wanted: Wanted): Composition {
  const measure = remembered(wanted.measure);
  const { sheets, perSheet, type, columns } = wanted;
  const counts = range(columns);
  const least = Math.ceil(type.from / STEP) * STEP;
  const wide = counts.filter((count) => measure(least, count).tooWide);
  if (wide.length === counts.length) return { fails: 'wide' };
  const fits = (size: number, count: number, number: number): boolean => {
    const measured = measure(size, count);
    return !measured.tooWide && layOut(measured, count, number * perSheet) !== undefined;
  };
  const fitsOn = (number: number): boolean => counts.some((count) => fits(least, count, number));
  const number = range(sheets).find(fitsOn);
  if (number === undefined) {
    for (let more = sheets.to + 1; more <= MOST; more += 1) if (fitsOn(more)) return { fails: 'much', needs: more };
    return { fails: 'much' };
  }
  const most = Math.floor(type.to / STEP) * STEP;
  let best: { readonly size: number; readonly count: number } | undefined;
  for (const count of counts) {
    const size = largest(best ? best.size + STEP : least, most, (each) => fits(each, count, number));
    if (size !== undefined) best = { size, count };
  }
  if (!best) return { fails: 'much' };
  const fewer = number > 1 && number === sheets.from && best.size === most ? number - 1 : 0;
  if (fewer > 0 && counts.some((count) => fits(most, count, fewer))) {
    const needs = range({ from: 1, to: fewer }).find((some) => counts.some((count) => fits(most, count, some)));
    return { fails: 'little', needs: needs ?? fewer };
  }
  return spread(measure(best.size, best.count), best.size, best.count, number, perSheet);
}

/** Sets rows apart as far as there is room, then makes the columns end at the same height. */
function spread(measured: Measured, type: number, columns: number, sheets: number, perSheet: number): Composed {
  const pages = sheets * perSheet;
  const STEPS = 40;
  const airy = (steps: number): Measured => aired(measured, (measured.air * steps) / STEPS);
  const steps = largestWhole(STEPS, (some) => layOut(airy(some), columns, pages) !== undefined);
  const shorter = (part: number): Measured => {
    const { heights, ...rest } = airy(steps);
    return { ...rest, heights: [heights[0] * (1 - part / STEPS), heights[1] * (1 - part / STEPS)] };
  };
  const part = largestWhole(STEPS - 1, (some) => layOut(shorter(some), columns, pages) !== undefined);
  const laid = layOut(shorter(part), columns, pages) as Piece[][];
  return {
    sheets,
    type,
    columns,
    air: (measured.air * steps) / STEPS,
    pages: Array.from({ length: pages }, (_, page) =>
      Array.from({ length: columns }, (__, column) => laid[page * columns + column] ?? []),
    ),
  };
}

function layOut({ blocks, heights: [first, others] }: Measured, columns: number, pages: number): Piece[][] | undefined {
  return pack(
    blocks,
    Array.from({ length: columns * pages }, (_, at) => (at < columns ? first : others)),
  );
}

function aired(measured: Measured, air: number): Measured {
  return {
    ...measured,
    blocks: measured.blocks.map((block) => ({ ...block, rows: block.rows.map((row) => row + air) })),
  };
}

/** The largest multiple of STEP within limits for which a test holds; it holds below if it does above. */
function largest(from: number, to: number, holds: (size: number) => boolean): number | undefined {
  const steps = Math.round((to - from) / STEP);
  if (steps < 0 || !holds(from)) return undefined;
  return from + largestWhole(steps, (some) => holds(from + some * STEP)) * STEP;
}

/** The largest whole number up to `most` for which a test holds, which holds for 0. */
function largestWhole(most: number, holds: (some: number) => boolean): number {
  let low = 0;
  let high = most;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function range({ from, to }: Limits): number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => from + at);
}

function remembered(measure: Wanted['measure']): Wanted['measure'] {
  const known = new Map<string, Measured>();
  return (type, columns) => {
    const key = `${type}/${columns}`;
    const measured = known.get(key) ?? measure(type, columns);
    known.set(key, measured);
    return measured;
  };
}
