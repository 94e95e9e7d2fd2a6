/** The search for fewer rows of one outcome than any order of splits makes, such as three pairs in a ring of six cells. */
import { fewestTiles } from './fewest-tiles.ts';
import type { Box, OutcomeGrid } from './outcome-grid.ts';
import { allTiles } from './tiles.ts';

/**
 * The most cells that are parted, the most boxes that are gathered, and the most work without finding fewer: looks at a box,
 * each of which takes the longer the more cells there are. Counts, so that results never vary.
 */
const MOST_CELLS = 150;
const MOST_BOXES = 2000;
const MOST_WORK = 1_200_000;

/**
 * Boxes that part `cells` among them, fewer than `known`, or undefined where the search finds none. All cells have the
 * same outcome, and no row holds one of them together with a cell of that outcome that is not given. The boxes may overlap
 * where nothing can happen. The deepest cut comes first: the cell that the fewest boxes hold is decided next.
 */
export function fewerRows(grid: OutcomeGrid, cells: readonly number[], known: number): readonly Box[] | undefined {
  const tiles = cells.length > MOST_CELLS ? undefined : allTiles(grid, cells, MOST_BOXES);
  const fewest = tiles && fewestTiles(tiles, cells.length, known, MOST_WORK / cells.length);
  return fewest?.map((tile) => {
    const inside = cells.filter((_, cell) => (tiles?.bits[tile * tiles.words + (cell >>> 5)] as number) & (1 << cell));
    return widened(grid, cells, grid.around(inside));
  });
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
