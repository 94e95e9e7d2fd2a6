/** The search for fewer rows of one outcome than any order of splits makes, such as three pairs in a ring of six cells. */
import type { Box, OutcomeGrid } from './outcome-grid.ts';

/** A row in the making: the box, and its cells as a set of bits. */
interface Tile {
  readonly box: Box;
  readonly held: bigint;
}

/** The most cells that are parted, the most boxes that are gathered, and the most choices that are followed: counts of work, so that results never vary. */
const MOST_CELLS = 150;
const MOST_BOXES = 2000;
const MOST_CHOICES = 1000;

/**
 * Boxes that part `cells` among them, fewer than `known`, or undefined where the search finds none. All cells have the
 * same outcome, and no row holds one of them together with a cell of that outcome that is not given. The boxes may overlap
 * where nothing can happen. The deepest cut comes first: the cell that the fewest boxes hold is decided next.
 */
export function fewerRows(grid: OutcomeGrid, cells: readonly number[], known: number): readonly Box[] | undefined {
  const tiles = cells.length > MOST_CELLS ? undefined : allTiles(grid, cells);
  if (!tiles) return undefined;
  const holding = cells.map((_, index) => tiles.filter(({ held }) => held & (1n << BigInt(index))));
  const together = holding.map((some) => some.reduce((union, { held }) => union | held, 0n));
  let best: readonly Tile[] | undefined;
  let least = known;
  let choices = 0;
  const search = (open: bigint, used: readonly Tile[]): void => {
    if (!open) {
      best = used;
      least = used.length;
      return;
    }
    choices += 1;
    if (choices > MOST_CHOICES || used.length + cellsApart(open, together) >= least) return;
    for (const tile of fewestChoices(open, holding)) search(open & ~tile.held, [...used, tile]);
  };
  search((1n << BigInt(cells.length)) - 1n, []);
  return best?.map(({ box }) => {
    const inside = cells.filter((cell) => grid.isInside(cell, box));
    return widened(grid, cells, grid.around(inside));
  });
}

/** Every box without a case of another outcome, once for each set of cells that it holds; undefined when too many. */
function allTiles(grid: OutcomeGrid, cells: readonly number[]): readonly Tile[] | undefined {
  const outcome = grid.outcome(cells[0] as number);
  const byContent = new Map<bigint, Tile>();
  const seen = new Set<string>();
  const queue: Box[] = [];
  const everything = (1n << BigInt(cells.length)) - 1n;
  // By axis and place, the cells that stand there.
  const placed = grid.axes.map(({ places }, column) =>
    places.map((_, place) =>
      cells.reduce((set, cell, index) => (grid.place(cell, column) === place ? set | (1n << BigInt(index)) : set), 0n),
    ),
  );
  const add = (box: Box): void => {
    const key = box.join(' ');
    if (seen.has(key)) return;
    seen.add(key);
    if (!grid.isPure(box, outcome)) return;
    queue.push(box);
    const held = box.reduce((set, mask, column) => {
      let some = 0n;
      for (const [place, bits] of (placed[column] as readonly bigint[]).entries())
        if (mask & (1 << place)) some |= bits;
      return set & some;
    }, everything);
    if (!byContent.has(held)) byContent.set(held, { box, held });
  };
  for (const cell of cells) add(grid.around([cell]));
  // Every such box is reached by growing: what it is grown from is part of it.
  for (const box of queue) {
    if (queue.length > MOST_BOXES) return undefined;
    grid.axes.forEach(({ ordered, places }, column) => {
      const mask = box[column] as number;
      for (let place = 0; place < places.length; place += 1) {
        const beside = (mask << 1) | (mask >>> 1);
        const isNew = !(mask & (1 << place));
        if (isNew && (!ordered || beside & (1 << place))) add(box.with(column, mask | (1 << place)));
      }
    });
  }
  return [...byContent.values()].toSorted((a, b) => count(b.held) - count(a.held));
}

/** The tiles that fit the open cell for which there are fewest, the largest first. */
function fewestChoices(open: bigint, holding: readonly (readonly Tile[])[]): readonly Tile[] {
  let fewest: readonly Tile[] | undefined;
  holding.forEach((tiles, index) => {
    if (!(open & (1n << BigInt(index)))) return;
    const fitting = tiles.filter(({ held }) => (held & ~open) === 0n);
    if (!fewest || fitting.length < fewest.length) fewest = fitting;
  });
  return fewest ?? [];
}

/** So many rows at least are needed for the open cells: greedily chosen cells of which no two share a tile. */
function cellsApart(open: bigint, together: readonly bigint[]): number {
  let rest = open;
  let found = 0;
  while (rest) {
    let loneliest = 0n;
    let fewest = Number.POSITIVE_INFINITY;
    together.forEach((others, index) => {
      if (!(rest & (1n << BigInt(index)))) return;
      const shared = count(others & rest);
      if (shared < fewest) [loneliest, fewest] = [others, shared];
    });
    found += 1;
    rest &= ~loneliest;
  }
  return found;
}

/** The box with each axis freed, first to last, over which it then only lets through what cannot happen. */
function widened(grid: OutcomeGrid, cells: readonly number[], box: Box): Box {
  const outcome = grid.outcome(cells[0] as number);
  const inside = (each: Box): number => cells.filter((cell) => grid.isInside(cell, each)).length;
  return grid.axes.reduce((wide, { places }, column) => {
    const free = wide.with(column, 2 ** places.length - 1);
    return grid.isPure(free, outcome) && inside(free) === inside(wide) ? free : wide;
  }, box);
}

/** How many bits are set, 32 at a time. */
function count(bits: bigint): number {
  let found = 0;
  for (let rest = bits; rest; rest >>= 32n) {
    let word = Number(rest & 0xffffffffn);
    word -= (word >>> 1) & 0x55555555;
    word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
    found += Math.imul((word + (word >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return found;
}
