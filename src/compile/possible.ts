/** The cases that can happen on a fit, in parts that share no variable: what is asked of a few variables needs few of them. */
import type { Diagrams, Node } from '../logic/index.ts';

/** Constraints that hang together through variables; equal keys mean equal constraints. */
interface Part {
  readonly constraints: readonly Node[];
  readonly key: string;
  /** All that they read, ascending. */
  readonly levels: readonly number[];
}

/** A constraint with what it reads. */
interface Constraint {
  readonly node: Node;
  readonly levels: readonly number[];
}

const NOTHING_KEPT: ReadonlySet<number> = new Set();
const NOTHING_GIVEN: ReadonlyMap<number, number> = new Map();

/** What has been said of parts alone: many fits have the same parts. */
const onlysOf = new WeakMap<Diagrams, Map<string, Node>>();

export class Possible {
  readonly #diagrams: Diagrams;
  readonly #parts: readonly Part[];
  /** By level, the part that reads it. */
  readonly #partAt: ReadonlyMap<number, number>;
  readonly #about = new Map<string, Node>();
  readonly #onlys: Map<string, Node>;

  /** The cases in which all `constraints`, Boolean diagrams, hold. */
  constructor(diagrams: Diagrams, constraints: readonly Node[]) {
    this.#diagrams = diagrams;
    this.#onlys = onlysOf.get(diagrams) ?? new Map();
    onlysOf.set(diagrams, this.#onlys);
    const parts = constraints.reduce<{ constraints: Node[]; levels: ReadonlySet<number> }[]>((found, node) => {
      const levels = diagrams.support(node);
      const touched = found.filter((part) => levels.some((level) => part.levels.has(level)));
      const joined = {
        constraints: [...touched.flatMap((part) => part.constraints), node],
        levels: new Set([...touched.flatMap((part) => [...part.levels]), ...levels]),
      };
      return [...found.filter((part) => !touched.includes(part)), joined];
    }, []);
    this.#parts = parts.map((part) => ({
      constraints: part.constraints,
      key: part.constraints.join(' '),
      levels: [...part.levels].sort((a, b) => a - b),
    }));
    this.#partAt = new Map(this.#parts.flatMap(({ levels }, at) => levels.map((level) => [level, at])));
  }

  /** All that can happen, as one diagram, which can be large. */
  get whole(): Node {
    return this.#diagrams.and(...this.#parts.map((part) => this.#wholeOf(part)));
  }

  /** Boolean diagrams, all of which hold in exactly the cases that can happen. */
  get constraints(): readonly Node[] {
    return this.#parts.flatMap(({ constraints }) => constraints);
  }

  /** Whether nothing can happen at all. */
  get isEmpty(): boolean {
    return this.#parts.some((part) => this.#onlyOf(part, NOTHING_KEPT, NOTHING_GIVEN) === this.#diagrams.no);
  }

  /**
   * What can happen, as far as it has to do with some variables: the parts that read one of them. Of those variables it says
   * the same as the whole, unless nothing can happen at all.
   */
  about(levels: Iterable<number>): Node {
    const touched = this.#touched(levels);
    const key = touched.join(' ');
    const known = this.#about.get(key);
    if (known !== undefined) return known;
    const node = this.#diagrams.and(...touched.map((at) => this.#wholeOf(this.#parts[at] as Part)));
    this.#about.set(key, node);
    return node;
  }

  /**
   * What can happen where some facts are given, said of these variables alone. All others are removed one after another,
   * the one that brings the fewest variables together first, each out of the constraints that read it: the whole is not
   * made.
   */
  only(levels: Iterable<number>, given = NOTHING_GIVEN): Node {
    const keep = new Set(levels);
    const touched = this.#touched([...keep, ...given.keys()]);
    return this.#diagrams.and(...touched.map((at) => this.#onlyOf(this.#parts[at] as Part, keep, given)));
  }

  /** Whether a Boolean diagram without options holds in a case that can happen. There must be one. */
  allows(node: Node): boolean {
    const { no } = this.#diagrams;
    return node !== no && this.#diagrams.and(node, this.about(this.#diagrams.support(node))) !== no;
  }

  /** The parts that read one of the variables, in their order. */
  #touched(levels: Iterable<number>): readonly number[] {
    const found = new Set<number>();
    for (const level of levels) {
      const at = this.#partAt.get(level);
      if (at !== undefined) found.add(at);
    }
    return [...found].sort((a, b) => a - b);
  }

  #wholeOf(part: Part): Node {
    return this.#onlyOf(part, new Set(part.levels), NOTHING_GIVEN);
  }

  /** One part said of some of its variables; the same on all fits that have it. */
  #onlyOf(part: Part, keep: ReadonlySet<number>, given: ReadonlyMap<number, number>): Node {
    const kept = part.levels.filter((level) => keep.has(level));
    const facts = part.levels.filter((level) => given.has(level));
    const key = `${part.key} | ${kept.join(' ')} | ${facts.map((level) => `${level} ${given.get(level)}`).join(' ')}`;
    const known = this.#onlys.get(key);
    if (known !== undefined) return known;
    const node = this.#eliminate(
      part.constraints.map((each) => this.#diagrams.restrictAll(each, given)),
      keep,
    );
    this.#onlys.set(key, node);
    return node;
  }

  #eliminate(constraints: readonly Node[], keep: ReadonlySet<number>): Node {
    const diagrams = this.#diagrams;
    let open: Constraint[] = [...new Set(constraints)].map((node) => ({ node, levels: diagrams.support(node) }));
    /** How many variables come together, by the variable that is to be removed. */
    const met = new Map<number, number>();
    const meet = (levels: Iterable<number>): void => {
      for (const level of levels) {
        if (keep.has(level)) continue;
        const reading = open.filter((each) => each.levels.includes(level));
        if (reading.length === 0) met.delete(level);
        else met.set(level, new Set(reading.flatMap((each) => each.levels)).size);
      }
    };
    meet(new Set(open.flatMap(({ levels }) => levels)));
    for (;;) {
      let next: number | undefined;
      for (const [level, size] of met) {
        const least = next === undefined ? Number.POSITIVE_INFINITY : (met.get(next) as number);
        if (size < least || (size === least && level < (next as number))) next = level;
      }
      if (next === undefined) return diagrams.and(...open.map(({ node }) => node));
      const level = next;
      const reading = open.filter(({ levels }) => levels.includes(level));
      const node = diagrams.exists(diagrams.and(...reading.map((each) => each.node)), [level]);
      open = [...open.filter((each) => !reading.includes(each)), { node, levels: diagrams.support(node) }];
      meet(new Set(reading.flatMap(({ levels }) => levels)));
    }
  }
}
