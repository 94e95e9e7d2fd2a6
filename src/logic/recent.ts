/** Lists in which what was used last stands first, so that what is used often has small numbers (move to front). */
export class Recent {
  /** The most recent one last. */
  readonly #entries: number[];

  /** Starts with these, the last one being the most recent. */
  constructor(entries: number[] = []) {
    this.#entries = entries;
  }

  add(entry: number): void {
    this.#entries.push(entry);
  }

  /** How many of the allowed entries are more recent than `entry`, which is there; it becomes the most recent. */
  use(entry: number, allowed: (entry: number) => boolean): number {
    let rank = 0;
    for (let at = this.#entries.length - 1; at >= 0; at -= 1) {
      const here = this.#entries[at] as number;
      if (here === entry) {
        this.#toFront(at);
        return rank;
      }
      if (allowed(here)) rank += 1;
    }
    throw new Error(`${entry} has not been there before`);
  }

  /** The allowed entry that `use` would give this rank, if there is one; it becomes the most recent. */
  find(rank: number, allowed: (entry: number) => boolean): number | undefined {
    let left = rank;
    for (let at = this.#entries.length - 1; at >= 0; at -= 1) {
      const here = this.#entries[at] as number;
      if (!allowed(here)) continue;
      if (left === 0) {
        this.#toFront(at);
        return here;
      }
      left -= 1;
    }
    return undefined;
  }

  #toFront(at: number): void {
    const [entry] = this.#entries.splice(at, 1);
    this.#entries.push(entry as number);
  }
}

/** For each depth, -1 above all, the depths below it: at the start the nearest first. */
export class RecentDepths {
  readonly #depths: number;
  readonly #below = new Map<number, Recent>();

  constructor(depths: number) {
    this.#depths = depths;
  }

  below(depth: number): Recent {
    const known = this.#below.get(depth);
    if (known) return known;
    const count = this.#depths - depth - 1;
    const made = new Recent(Array.from({ length: count }, (_, at) => this.#depths - 1 - at));
    this.#below.set(depth, made);
    return made;
  }
}
