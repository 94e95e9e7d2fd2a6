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

/** With more columns than this, not all orders are tried. */
const EXHAUSTIVE = 6;

/**
 * The best order of the columns 0, 1, ... of `space`, and its rows. `base` is the order of preference and `previous` an
 * order to be kept while none has fewer rows. Up to six columns all orders are tried, in lexicographic order of `base`,
 * and of equally good ones the first stands; beyond that columns are moved one by one for as long as that helps.
 * The search ends after `budget` steps with the best found so far.
 */
export function bestOrder(
  space: TableSpace,
  base: readonly number[],
  previous: readonly number[] | undefined,
  budget: number,
): Candidate {
  const search = new Search(space, budget);
  if (previous) search.keep(previous);
  if (base.length <= EXHAUSTIVE) {
    search.tryAll([], base);
  } else {
    search.tryOrder(base);
    search.moveColumns();
  }
  return search.improved();
}

class Search {
  readonly #space: TableSpace;
  readonly #budget: number;
  readonly #fewest: Fewest;
  #best: Candidate | undefined;
  #kept: Candidate | undefined;
  #isProven = false;
  /** The rows after so many columns of the order that is tried. */
  readonly #blocks: RowBlock[];
  /** The columns that these were split on. */
  #last: readonly number[] = [];
  readonly #joined: RowBlock;
  readonly #joiner: RowJoiner;

  constructor(space: TableSpace, budget: number) {
    this.#space = space;
    this.#budget = space.steps + budget;
    this.#fewest = new Fewest(space);
    this.#blocks = Array.from({ length: space.levels.length + 1 }, () => new RowBlock(space.levels.length));
    this.#blocks[0]?.startWith(space.root);
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

  /** Keeps `order` when it has fewer rows than the best so far. */
  tryOrder(order: readonly number[]): void {
    const known = order.findIndex((column, place) => column !== this.#last[place]);
    for (const [place, column] of order.entries()) {
      // What the last order began with is not split anew, but counted.
      if (known < 0 || place < known) this.#space.steps += this.#block(place).count;
      else this.#split(place, column);
    }
    this.#last = order;
    this.#offer(order, this.#block(order.length));
  }

  /** Tries every order that starts with `prefix`, on which the rows are split, and goes on with the columns `rest`. */
  tryAll(prefix: readonly number[], rest: readonly number[]): void {
    const rows = this.#block(prefix.length);
    // Once all rows are done the columns to come change nothing: the first of these orders stands for all.
    if (this.#areDone(rows)) {
      this.#offer([...prefix, ...rest], rows);
      return;
    }
    for (const column of rest) {
      if (this.#best && this.#isOver) return;
      this.#split(prefix.length, column);
      this.tryAll(
        [...prefix, column],
        rest.filter((other) => other !== column),
      );
    }
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

  /** The rows after so many columns of the order that is tried, and with one column more. */
  #split(columns: number, column: number): void {
    this.#space.split(this.#block(columns), column, this.#block(columns + 1));
  }

  #block(columns: number): RowBlock {
    return this.#blocks[columns] as RowBlock;
  }

  #areDone({ count, nodes }: RowBlock): boolean {
    for (let row = 0; row < count; row += 1) if (!this.#space.isDone(nodes[row] as number)) return false;
    return true;
  }

  #offer(order: readonly number[], split: RowBlock): void {
    const joined = this.#joined;
    joined.become(split);
    this.#joiner.join(joined);
    if (this.#best && joined.count >= this.#best.rows.length) return;
    const rows = joined.rows();
    this.#best = { order, rows };
    this.#isProven = this.#fewest.isProven(rows);
  }
}
