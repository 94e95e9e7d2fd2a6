/** How much a manager may do: nodes, steps and time. Whatever meets a limit ends in a `LimitError`, never in a hang. */

/** Nodes made, steps of recursive operations, time that passed. */
export type Resource = 'nodes' | 'steps' | 'seconds';

/** Raised instead of going beyond a limit. The manager stays usable; what was being computed is lost. */
export class LimitError extends Error {
  readonly resource: Resource;
  readonly limit: number;
  /** Whether it is the manager's own limit, so that nothing more can be done; not that of one piece of work. */
  readonly whole: boolean;

  constructor(resource: Resource, limit: number, whole: boolean) {
    super(`the diagrams need more than ${limit} ${resource}`);
    this.name = 'LimitError';
    this.resource = resource;
    this.limit = limit;
    this.whole = whole;
  }
}

export interface TimeLimit {
  readonly seconds: number;
  /** Milliseconds since any one point in time. */
  readonly now: () => number;
}

export interface Limits {
  /** The most nodes that the manager makes, terminals included. */
  readonly nodeLimit?: number;
  /** The most steps of recursive operations that it takes. */
  readonly stepLimit?: number;
  /** No limit unless given; results do not depend on it, only whether there are any. */
  readonly timeLimit?: TimeLimit;
}

/** What one piece of work may use of the whole. */
export interface Share {
  readonly nodes: number;
  readonly steps: number;
}

const DEFAULT_NODE_LIMIT = 8_000_000;
const DEFAULT_STEP_LIMIT = 1_000_000_000;
/** Asking for the time costs more than a step. */
const STEPS_BETWEEN_LOOKS = 1 << 16;

/** Counts, and stops what goes beyond a limit. */
export class Meter {
  nodes = 0;
  steps = 0;
  readonly #limits: { readonly nodes: number; readonly steps: number };
  readonly #time: (TimeLimit & { readonly until: number }) | undefined;
  /** The piece of work at hand: what it may use, and up to where that leads. */
  #share: Share;
  #nodeEnd: number;
  #stepEnd: number;
  /** The step at which something is to be done. */
  #nextLook = 0;

  constructor({ nodeLimit = DEFAULT_NODE_LIMIT, stepLimit = DEFAULT_STEP_LIMIT, timeLimit }: Limits) {
    this.#limits = { nodes: nodeLimit, steps: stepLimit };
    this.#time = timeLimit && { ...timeLimit, until: timeLimit.now() + 1000 * timeLimit.seconds };
    this.#share = this.#limits;
    this.#nodeEnd = nodeLimit;
    this.#stepEnd = stepLimit;
    this.#planLook();
  }

  /** Before a node is made. */
  countNode(): void {
    if (this.nodes >= this.#nodeEnd) throw this.#error('nodes');
    this.nodes += 1;
  }

  countStep(): void {
    this.steps += 1;
    if (this.steps >= this.#nextLook) this.#look();
  }

  /**
   * Does a piece of work that may use no more than its share. What a piece within it uses counts for that one alone.
   */
  within<T>(share: Share, work: () => T): T {
    const outer = { share: this.#share, nodes: this.#nodeEnd - this.nodes, steps: this.#stepEnd - this.steps };
    this.#share = share;
    this.#allow(share.nodes, share.steps);
    try {
      return work();
    } finally {
      this.#share = outer.share;
      this.#allow(outer.nodes, outer.steps);
    }
  }

  #allow(nodes: number, steps: number): void {
    this.#nodeEnd = Math.min(this.#limits.nodes, this.nodes + nodes);
    this.#stepEnd = Math.min(this.#limits.steps, this.steps + steps);
    this.#planLook();
  }

  #look(): void {
    if (this.steps > this.#stepEnd) throw this.#error('steps');
    if (this.#time && this.#time.now() > this.#time.until) throw new LimitError('seconds', this.#time.seconds, true);
    this.#planLook();
  }

  #planLook(): void {
    const end = this.#stepEnd + 1;
    this.#nextLook = this.#time ? Math.min(end, this.steps + STEPS_BETWEEN_LOOKS) : end;
  }

  #error(resource: 'nodes' | 'steps'): LimitError {
    const whole = this[resource] >= this.#limits[resource];
    return new LimitError(resource, (whole ? this.#limits : this.#share)[resource], whole);
  }
}
