/** Work counted in steps, never in time, so that what is out of reach is the same on every machine. */

/** Thrown when a computation would take more steps than it may. */
export class StepLimitError extends Error {}

export class StepBudget {
  readonly #limit: number;
  #spent = 0;

  constructor(limit = Number.POSITIVE_INFINITY) {
    this.#limit = limit;
  }

  get spent(): number {
    return this.#spent;
  }

  /** Throws a `StepLimitError` when the steps go beyond the limit. */
  spend(steps: number): void {
    this.#spent += steps;
    if (this.#spent > this.#limit) throw new StepLimitError(`more than ${this.#limit} steps`);
  }
}
