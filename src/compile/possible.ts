/** The cases that can happen on a fit, in parts that share no variable: what is asked of a few variables needs few of them. */
import type { Diagrams, Node } from '../logic/index.ts';

interface Part {
  readonly node: Node;
  readonly levels: ReadonlySet<number>;
}

export class Possible {
  /** All that can happen, as one diagram. */
  readonly whole: Node;
  readonly #diagrams: Diagrams;
  readonly #parts: readonly Part[];
  /** By level, the part that reads it. */
  readonly #partAt: ReadonlyMap<number, number>;
  readonly #about = new Map<string, Node>();

  /** The cases in which all `constraints`, Boolean diagrams, hold. */
  constructor(diagrams: Diagrams, constraints: readonly Node[]) {
    this.#diagrams = diagrams;
    this.#parts = constraints.reduce<Part[]>((parts, node) => {
      const levels = diagrams.support(node);
      const touched = parts.filter((part) => levels.some((level) => part.levels.has(level)));
      const joined = {
        node: diagrams.and(...touched.map((part) => part.node), node),
        levels: new Set([...touched.flatMap((part) => [...part.levels]), ...levels]),
      };
      return [...parts.filter((part) => !touched.includes(part)), joined];
    }, []);
    this.#partAt = new Map(this.#parts.flatMap(({ levels }, at) => [...levels].map((level) => [level, at])));
    this.whole = diagrams.and(...this.#parts.map(({ node }) => node));
  }

  /**
   * What can happen, as far as it has to do with some variables: the parts that read one of them. Of those variables it says
   * the same as the whole, unless nothing can happen at all.
   */
  about(levels: Iterable<number>): Node {
    const found = new Set<number>();
    for (const level of levels) {
      const at = this.#partAt.get(level);
      if (at !== undefined) found.add(at);
    }
    const touched = [...found].sort((a, b) => a - b);
    const key = touched.join(' ');
    const known = this.#about.get(key);
    if (known !== undefined) return known;
    const node = this.#diagrams.and(...touched.map((at) => this.#parts[at]?.node ?? this.#diagrams.yes));
    this.#about.set(key, node);
    return node;
  }

  /** Whether a Boolean diagram without options holds in a case that can happen. There must be one. */
  allows(node: Node): boolean {
    const { no } = this.#diagrams;
    return node !== no && this.#diagrams.and(node, this.about(this.#diagrams.support(node))) !== no;
  }
}
