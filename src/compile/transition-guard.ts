/** What a transition waits for, as diagrams: where it can be taken, and whether it is taken at once. */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Transition } from '../model/index.ts';
import type { Expressions } from './expressions.ts';
import type { Space } from './space.ts';

/** A transition's guard over inputs and modes. */
export interface TransitionGuard {
  /** Where it is taken at once, whatever the levels of stores. */
  readonly now: Node;
  /** Where it may be taken: when a delay has elapsed, or when a store stands at the right level. */
  readonly later: Node;
  /** What must have happened in the mode, for `since`. */
  readonly event: Node;
}

/** The guard, with `here` applied to each of its diagrams: the restriction to a fit or to a case. */
export function transitionGuard(
  { guard, after, since }: Transition,
  space: Space,
  diagrams: Diagrams,
  expressions: Expressions,
  here: (node: Node) => Node,
): TransitionGuard {
  const whole = guard ? here(expressions.compile(guard.when, true)) : diagrams.yes;
  const stores = diagrams.support(whole).filter((level) => space.meanings[level]?.kind === 'store');
  const delayed = guard?.holds !== undefined || after !== undefined || since !== undefined;
  const now = delayed ? diagrams.no : diagrams.forAll(whole, stores);
  return {
    now,
    later: diagrams.and(diagrams.exists(whole, stores), diagrams.not(now)),
    event: since ? here(expressions.compile(since.event, true)) : diagrams.yes,
  };
}
