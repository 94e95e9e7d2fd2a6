/** Blocks of rows into columns: no row is cut, no heading or row stands alone at an end, a heading is said again where its rows go on. */

/** A table under its heading. All lengths are in the same unit. */
export interface PackBlock {
  /** Heading and head of the table. */
  readonly lead: number;
  /** The same where the rows go on in another column. */
  readonly again: number;
  readonly rows: readonly number[];
  /** Room before it where it is not the first in its column. */
  readonly gap: number;
}

/** Rows of a block, from one up to but without another, in one column. */
export interface Piece {
  readonly block: number;
  readonly from: number;
  readonly to: number;
}

/** Fewer rows than this never stand alone, unless the block has no more. */
const TOGETHER = 2;

/** How a column may begin: what stands before it is placed. */
interface Reached {
  /** How many tables were broken on the way. */
  readonly breaks: number;
  readonly before: Reached | undefined;
  /** What the column before holds. */
  readonly pieces: readonly Piece[];
}

/**
 * What stands in each column, in order; undefined where it does not fit. Of all ways the one that breaks the fewest tables, then
 * the one that takes the fewest columns; columns that are left over are not in the answer. A column of its own is never left empty.
 */
export function pack(blocks: readonly PackBlock[], columns: readonly number[]): Piece[][] | undefined {
  let reached = new Map<string, Reached>([['0/0', { breaks: 0, before: undefined, pieces: [] }]]);
  const end = `${blocks.length}/0`;
  let best: Reached | undefined = blocks.length === 0 ? reached.get(end) : undefined;
  for (const height of columns) {
    const next = new Map<string, Reached>();
    for (const [place, state] of reached) {
      const [block = 0, row = 0] = place.split('/').map(Number);
      for (const { block: at, row: on, pieces } of fillings(blocks, block, row, height)) {
        const breaks = state.breaks + (on > 0 ? 1 : 0);
        const key = `${at}/${on}`;
        const known = next.get(key);
        if (!known || breaks < known.breaks) next.set(key, { breaks, before: state, pieces });
      }
    }
    const done = next.get(end);
    if (done && (!best || done.breaks < best.breaks)) best = done;
    next.delete(end);
    reached = next;
  }
  return best && traced(best);
}

interface Filling {
  /** Where the next column goes on. */
  readonly block: number;
  readonly row: number;
  readonly pieces: readonly Piece[];
}

/** Every way to fill a column of a height from a place on, except leaving it empty. */
function fillings(blocks: readonly PackBlock[], block: number, row: number, height: number): Filling[] {
  const found: Filling[] = [];
  const pieces: Piece[] = [];
  let used = 0;
  for (let at = block; at < blocks.length; at += 1) {
    const { lead, again, rows, gap } = blocks[at] as PackBlock;
    const from = at === block ? row : 0;
    used += (pieces.length > 0 ? gap : 0) + (from > 0 ? again : lead);
    for (let to = from + 1; to <= rows.length; to += 1) {
      used += rows[to - 1] as number;
      if (used > height) return found;
      const left = rows.length - to;
      const alone = to - from < TOGETHER || left < TOGETHER;
      if (left > 0 && !alone) found.push({ block: at, row: to, pieces: [...pieces, { block: at, from, to }] });
    }
    pieces.push({ block: at, from, to: rows.length });
    found.push({ block: at + 1, row: 0, pieces: [...pieces] });
  }
  return found;
}

function traced(last: Reached): Piece[][] {
  const columns: Piece[][] = [];
  for (let at: Reached | undefined = last; at?.before; at = at.before) columns.unshift([...at.pieces]);
  return columns;
}
