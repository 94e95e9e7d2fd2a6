/** The search for the column order whose table has the fewest rows. */
import { Fewest } from './fewest.ts';
import { RowJoiner } from './join-rows.ts';
import { type DoneRow, RowBlock } from './row-block.ts';
import type { TableSpace } from './table-space.ts';

/** One order with its table. */
export interface Candidate {
  readonly order: readonly number[];
  readonly rows: readonly DoneRow[];
}

/** An order is left once it has so many times the rows to join that the best one had. */
const WORTH_JOINING = 1.1;

/**
 * The best order of the columns 0, 1, ... of `space` that is found, and its rows. `base` is the order of preference and
 * `previous` an order to be kept while none has fewer rows. Columns are moved one by one for as long as that helps; of
 * equally good orders the first stands. The search ends after `budget` steps with the best found so far.
 */
export function bestOrder(
  space: TableSpace,
  base: readonly number[],
  previous: readonly number[] | undefined,
  budget: number,
): Candidate {
  const search = new Search(space, budget);
  if (previous) search.keep(previous);
  search.tryOrder(base);
  search.moveColumns();
  return search.improved();
}

class Search {
  readonly #space: TableSpace;
  readonly #budget: number;
  readonly #fewest: Fewest;
  #best: Candidate | undefined;
  /** The most rows to join of an order that is not left. */
  #most = Number.POSITIVE_INFINITY;
  #kept: Candidate | undefined;
  #isProven = false;
  /** The columns that were split on last, and the rows after so many of them. */
  readonly #last: number[] = [];
  readonly #blocks: RowBlock[];
  readonly #joined: RowBlock;
  readonly #joiner: RowJoiner;

  constructor(space: TableSpace, budget: number) {
    this.#space = space;
    this.#budget = space.steps + budget;
    this.#fewest = new Fewest(space);
    this.#blocks = Array.from({ length: space.levels.length + 1 }, () => new RowBlock(space.levels.length));
    this.#blocks[0]?.startWith(space.root, space.leastOf(space.root));
    this.#joined = new RowBlock(space.levels.length);
    this.#joiner = new RowJoiner(space);
  }

  get best(): Candidate {
    if (!this.#best) throw new Error('no order was tried');
    return this.#best;
  }

  /** Tries an order that stands as long as it costs no row. */
  keep(order: readonly number[]): void {
    this.tryOrder(order);
    this.#kept = this.#best;
  }

  /** The best order, its rows replaced where no order of splits finds the fewest. */
  improved(): Candidate {
    if (this.#isProven) return this.best;
    const improve = ({ order, rows }: Candidate): Candidate => ({ order, rows: this.#fewest.improved(rows) });
    const best = improve(this.best);
    const kept = this.#kept && improve(this.#kept);
    return kept && kept.rows.length <= best.rows.length ? kept : best;
  }

  /**
   * Keeps `order` when it has fewer rows than the best so far. It is left where it would have far more rows to join than that
   * had: these mostly come to more in the end.
   */
  tryOrder(order: readonly number[]): void {
    for (const [place, column] of order.entries()) {
      const [rows, parts] = [this.#block(place), this.#block(place + 1)];
      // What the last order began with is not split anew.
      if (this.#last[place] !== column) {
        this.#last.length = place;
        if (!this.#space.split(rows, column, parts, this.#most)) return;
        this.#last.push(column);
      }
      if (parts.least > this.#most) return;
    }
    this.#offer(order, this.#block(order.length));
  }

  /** Moves one column at a time to where it saves most rows, over and over until no move saves any. */
  moveColumns(): void {
    const tried = new Set<string>();
    for (let before: Candidate | undefined; before !== this.#best && !this.#isOver; ) {
      before = this.#best;
      for (const column of this.best.order) {
        const others = this.best.order.filter((other) => other !== column);
        for (let place = 0; place <= others.length && !this.#isOver; place += 1) {
          const order = others.toSpliced(place, 0, column);
          const name = order.join(' ');
          if (tried.has(name)) continue;
          tried.add(name);
          this.tryOrder(order);
        }
      }
    }
  }

  get #isOver(): boolean {
    return this.#space.steps >= this.#budget || this.#isProven;
  }

  #block(columns: number): RowBlock {
    return this.#blocks[columns] as RowBlock;
  }

  #offer(order: readonly number[], split: RowBlock): void {
    const joined = this.#joined;
    joined.become(split);
    this.#joiner.join(joined);
    if (this.#best && joined.count >= this.#best.rows.length) return;
    const rows = joined.rows();
    this.#best = { order, rows };
    this.#most = WORTH_JOINING * split.count;
    this.#isProven = this.#fewest.isProven(rows);
  }
}
