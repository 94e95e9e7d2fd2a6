/** What is known of the fewest rows of one table, and the rows that no order of splits finds. */
import { Apartness, type Held } from './apartness.ts';
import { fewerRows } from './fewer-rows.ts';
import { type Box, OutcomeGrid } from './outcome-grid.ts';
import type { DoneRow } from './row-block.ts';
import type { TableSpace } from './table-space.ts';
import { ANY, type ValueSets } from './value-sets.ts';

/** A row with the cells of the grid that it holds. */
interface Part extends Held {
  readonly row: DoneRow;
}

/** Rows of each outcome are judged by themselves: no row of another is in their way. */
export class Fewest {
  readonly #space: TableSpace;
  readonly #grid: OutcomeGrid | undefined;
  readonly #apartness = new Map<number, Apartness>();
  /** By node and number of rows: what was found of these rows holds of as many others. */
  readonly #asked = new Map<string, boolean>();

  constructor(space: TableSpace) {
    this.#space = space;
    this.#grid = OutcomeGrid.of(space);
  }

  /** Whether no table has fewer rows than this one. */
  isProven(rows: readonly DoneRow[]): boolean {
    return this.#byOutcome(rows).every((some) => some.length === 1 || this.#provenParts(some));
  }

  /** The rows, some of them replaced where a search finds fewer. */
  improved(rows: readonly DoneRow[]): readonly DoneRow[] {
    const grid = this.#grid;
    if (!grid) return rows;
    return this.#byOutcome(rows).flatMap((some) => {
      const apartness = this.#apartnessOf(some, grid);
      return clusters(this.#parts(some, grid), apartness).flatMap((parts) => {
        const own = parts.map(({ row }) => row);
        const cells = parts.map((part) => part.cells);
        if (parts.length === 1 || apartness.isProvenFewest(cells)) return own;
        const boxes = fewerRows(grid, cells.flat(), parts.length);
        return boxes?.map((box) => this.#rowOf(box, (own[0] as DoneRow).node, grid)) ?? own;
      });
    });
  }

  #byOutcome(rows: readonly DoneRow[]): readonly (readonly DoneRow[])[] {
    return [...Map.groupBy(rows, ({ node }) => node).values()];
  }

  #provenParts(rows: readonly DoneRow[]): boolean {
    const grid = this.#grid;
    if (!grid) return false;
    const key = `${rows[0]?.node} ${rows.length}`;
    const known = this.#asked.get(key);
    if (known !== undefined) return known;
    const cells = this.#parts(rows, grid).map((part) => part.cells);
    const isProven = this.#apartnessOf(rows, grid).isProvenFewest(cells);
    this.#asked.set(key, isProven);
    return isProven;
  }

  #apartnessOf([row]: readonly DoneRow[], grid: OutcomeGrid): Apartness {
    const outcome = this.#space.diagrams.valueOf((row as DoneRow).node) as number;
    const known = this.#apartness.get(outcome);
    if (known) return known;
    const made = new Apartness(grid, outcome);
    this.#apartness.set(outcome, made);
    return made;
  }

  #parts(rows: readonly DoneRow[], grid: OutcomeGrid): readonly Part[] {
    const outcome = this.#space.diagrams.valueOf((rows[0] as DoneRow).node) as number;
    return rows.map((row) => {
      const box = this.#boxOf(row, grid);
      return { row, box, cells: grid.cellsIn(box, outcome) };
    });
  }

  #boxOf(row: DoneRow, grid: OutcomeGrid): Box {
    return row.cells.map((set, column) => {
      const values = set === ANY ? undefined : new Set((this.#space.sets[column] as ValueSets).values(set));
      return (grid.axes[column]?.places ?? []).reduce(
        (mask, [value = 0], place) => (values && !values.has(value) ? mask : mask | (1 << place)),
        0,
      );
    });
  }

  #rowOf(box: Box, node: DoneRow['node'], grid: OutcomeGrid): DoneRow {
    const cells = box.map((mask, column) => {
      const held = (grid.axes[column]?.places ?? []).filter((_, place) => mask & (1 << place)).flat();
      return (this.#space.sets[column] as ValueSets).intern(held.toSorted((a, b) => a - b));
    });
    return { cells, node };
  }
}

/** The rows in clusters: no row can hold a cell of one cluster together with a cell of another. */
function clusters(parts: readonly Part[], apartness: Apartness): readonly (readonly Part[])[] {
  return parts.reduce<readonly (readonly Part[])[]>((found, part) => {
    const touches = (others: readonly Part[]): boolean => others.some((other) => apartness.areTouching(other, part));
    const apart = found.filter((cluster) => !touches(cluster));
    return [...apart, [...found.filter(touches).flat(), part]];
  }, []);
}
