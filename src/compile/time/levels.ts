/** The stores of a run: levels that change evenly between two events. */
import type { LevelComparison } from '../../language/index.ts';
import type { Store } from '../../model/index.ts';
import { add, compare, divide, type Fraction, fraction, multiply, ofDecimal, subtract, ZERO } from './fraction.ts';

/** A point of time itself, or the time just after it, in which levels have begun to move on. */
export type Phase = 'at' | 'after';

interface Level {
  readonly store: Store;
  readonly capacity: Fraction;
  /** Levels that something compares it with, with both ends. */
  readonly marks: readonly Fraction[];
  level: Fraction;
  /** Per second, as its flows say, whether or not there is room. */
  rate: Fraction;
}

export class Levels {
  readonly #levels: ReadonlyMap<string, Level>;

  /** @param marks by store: the levels that expressions compare it with. */
  constructor(stores: readonly Store[], marks: ReadonlyMap<string, readonly string[]>) {
    this.#levels = new Map(
      stores.map((store) => {
        const capacity = ofDecimal(store.capacity);
        const named = (marks.get(store.id) ?? []).map(ofDecimal);
        return [
          store.id,
          { store, capacity, marks: [ZERO, capacity, ...named], level: ofDecimal(store.start), rate: ZERO },
        ];
      }),
    );
  }

  /** Takes the levels of others of the same stores. */
  copy(others: Levels): void {
    for (const [id, each] of this.#levels) {
      const { level, rate } = others.#levels.get(id) as Level;
      Object.assign(each, { level, rate });
    }
  }

  set(store: string, level: string): void {
    const found = this.#levels.get(store);
    if (found) found.level = ofDecimal(level);
  }

  /** Works out the rates anew; `flows` says whether a flow runs. */
  steer(flows: (flow: Store['flows'][number]) => boolean): void {
    for (const each of this.#levels.values()) {
      each.rate = each.store.flows.filter(flows).reduce((sum, { kind, perMinute }) => {
        const rate = divide(ofDecimal(perMinute), fraction(60n));
        return kind === 'fills' ? add(sum, rate) : subtract(sum, rate);
      }, ZERO);
    }
  }

  /** Lets time pass, no longer than `untilMark`. */
  advance(seconds: Fraction): void {
    for (const each of this.#levels.values()) each.level = add(each.level, multiply(moving(each), seconds));
  }

  /** The time until the first store reaches a level that is named, or an end; undefined if none ever does. */
  untilMark(): Fraction | undefined {
    const times = [...this.#levels.values()].flatMap((each) => {
      const rate = moving(each);
      if (compare(rate, ZERO) === 0) return [];
      return each.marks
        .map((mark) => divide(subtract(mark, each.level), rate))
        .filter((time) => compare(time, ZERO) > 0);
    });
    return times.reduce<Fraction | undefined>((a, b) => (a === undefined || compare(b, a) < 0 ? b : a), undefined);
  }

  /** Whether a comparison holds at a point of time or just after it. A store that is not there fulfils none. */
  compares(store: string, by: LevelComparison, value: string, phase: Phase): boolean {
    const found = this.#levels.get(store);
    if (!found) return false;
    const exact = compare(found.level, ofDecimal(value));
    const sign = exact === 0 && phase === 'after' ? compare(moving(found), ZERO) : exact;
    switch (by) {
      case '<':
        return sign < 0;
      case '<=':
        return sign <= 0;
      case '>':
        return sign > 0;
      case '>=':
        return sign >= 0;
    }
  }

  /** The levels as one text, to tell states apart. */
  get key(): string {
    return [...this.#levels.values()].map(({ level }) => `${level.over}/${level.under}`).join(' ');
  }
}

/** The rate at which the level really moves: a full store takes no more, an empty one gives no more. */
function moving({ level, rate, capacity }: Level): Fraction {
  const full = compare(level, capacity) >= 0 && compare(rate, ZERO) > 0;
  const empty = compare(level, ZERO) <= 0 && compare(rate, ZERO) < 0;
  return full || empty ? ZERO : rate;
}
