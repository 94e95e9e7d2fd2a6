/** What a transition waits for, as diagrams: where it can be taken, and whether it is taken at once. */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Transition } from '../model/index.ts';
import type { Expressions } from './expressions.ts';
import type { Space } from './space.ts';

/** A transition's guard over inputs and modes, with stores at any level. */
export interface TransitionGuard {
  readonly when: Node;
  /** What must have happened in the mode, for `since`. */
  readonly event: Node;
  /** Taken at once when the guard holds, or only some time later, if at all. */
  readonly delayed: boolean;
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
  return {
    when: diagrams.exists(whole, stores),
    event: since ? here(expressions.compile(since.event, true)) : diagrams.yes,
    delayed: stores.length > 0 || guard?.holds !== undefined || after !== undefined || since !== undefined,
  };
}
