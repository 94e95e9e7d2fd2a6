/** The search for the column order whose table has the fewest rows. */
import { Fewest } from './fewest.ts';
import { joinRows } from './join-rows.ts';
import type { PartialRow, TableSpace } from './table-space.ts';

/** One order with its table. */
export interface Candidate {
  readonly order: readonly number[];
  readonly rows: readonly PartialRow[];
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
    search.tryAll([], base, [space.root]);
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
  /** The order that was tried last, and the rows after each of its columns. */
  #last: readonly { readonly column: number; readonly rows: readonly PartialRow[] }[] = [];

  constructor(space: TableSpace, budget: number) {
    this.#space = space;
    this.#budget = space.steps + budget;
    this.#fewest = new Fewest(space);
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
    const known = order.findIndex((column, place) => column !== this.#last[place]?.column);
    const last = this.#last.slice(0, known < 0 ? order.length : known);
    // What the last order began with is not split anew, but counted.
    let rows: readonly PartialRow[] = [this.#space.root];
    for (const split of last) {
      this.#space.steps += rows.length;
      rows = split.rows;
    }
    for (const column of order.slice(last.length)) {
      rows = this.#space.split(rows, column);
      last.push({ column, rows });
    }
    this.#last = last;
    this.#offer(order, rows);
  }

  /** Tries every order that starts with `prefix`, whose split is `rows`, and goes on with the columns `rest`. */
  tryAll(prefix: readonly number[], rest: readonly number[], rows: readonly PartialRow[]): void {
    // Once all rows are done the columns to come change nothing: the first of these orders stands for all.
    if (rows.every((row) => this.#space.isDone(row))) {
      this.#offer([...prefix, ...rest], rows);
      return;
    }
    for (const column of rest) {
      if (this.#best && this.#isOver) return;
      const others = rest.filter((other) => other !== column);
      this.tryAll([...prefix, column], others, this.#space.split(rows, column));
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

  #offer(order: readonly number[], split: readonly PartialRow[]): void {
    const rows = joinRows(this.#space, split);
    if (this.#best && rows.length >= this.#best.rows.length) return;
    this.#best = { order, rows };
    this.#isProven = this.#fewest.isProven(rows);
  }
}
