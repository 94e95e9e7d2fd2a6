/**
 * How an item behaves differently on two fits: computed on the diagrams of their normal forms, never on table text.
 */
import { type Diagrams, type Node, type StateTable, stateTable } from '../logic/index.ts';
import { IMPOSSIBLE, NOT_FITTED, type OutcomePair, type Outcomes } from './outcomes.ts';

export type Verdict = 'alike' | 'differs' | 'not fitted here' | 'not fitted there' | 'only possible here' | 'only possible there';

export interface Difference {
  readonly verdict: Verdict;
  /** The cases that differ, each row's outcome a pair; absent when alike or not fitted on one. */
  readonly table?: StateTable;
}

/**
 * Compares the normal forms of one behaviour on two fits.
 *
 * `differs` when some case has two outcomes; `only possible …` when the behaviours agree wherever both can happen but one
 * fit has cases that the other lacks (a position, for instance).
 */
export function difference(
  diagrams: Diagrams,
  outcomes: Outcomes,
  here: Node,
  there: Node,
  own: number | undefined,
): Difference {
  if (here === there) return { verdict: 'alike' };
  if (isNotFitted(diagrams, here)) return { verdict: 'not fitted here' };
  if (isNotFitted(diagrams, there)) return { verdict: 'not fitted there' };
  const pairs = diagrams.apply('pair', here, there, (a, b) => (a === b ? IMPOSSIBLE : outcomes.ofPair([a, b])));
  const found = diagrams.terminals(pairs).filter((terminal) => terminal !== IMPOSSIBLE).map((each) => outcomes.pair(each));
  return {
    verdict: verdictOf(found),
    table: stateTable(diagrams, pairs, { impossible: IMPOSSIBLE, ...(own === undefined ? {} : { own }) }),
  };
}

function verdictOf(pairs: readonly OutcomePair[]): Verdict {
  if (pairs.some(([here, there]) => here !== IMPOSSIBLE && there !== IMPOSSIBLE)) return 'differs';
  return pairs.every(([, there]) => there === IMPOSSIBLE) ? 'only possible here'
    : pairs.every(([here]) => here === IMPOSSIBLE) ? 'only possible there' : 'differs';
}

function isNotFitted(diagrams: Diagrams, form: Node): boolean {
  return diagrams.terminals(form).every((outcome) => outcome === NOT_FITTED || outcome === IMPOSSIBLE);
}
