/**
 * How an item behaves differently on two fits: computed on the diagrams of their normal forms, never on table text.
 */
import { type Diagrams, type Node, type StateTable, stateTable } from '../logic/index.ts';
import { IMPOSSIBLE, NOT_FITTED, type OutcomePair, type Outcomes } from './outcomes.ts';

export type Verdict =
  | 'alike'
  | 'differs'
  | 'not fitted here'
  | 'not fitted there'
  | 'only possible here'
  | 'only possible there'
  /** No case is common to both in which they disagree, but each has cases that the other lacks. */
  | 'other cases';

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
  const both = IMPOSSIBLE;
  const pairs = diagrams.apply('pair', here, there, (a, b) => (a === both && b === both ? both : outcomes.ofPair([a, b])));
  const differs = (outcome: number): boolean => {
    const [a, b] = outcomes.pair(outcome);
    return a !== b;
  };
  // Cases in which nothing differs are tabulated with the others, so that no row runs over them, and left out then.
  const same = diagrams.map('same', pairs, (outcome) => (outcome === both || differs(outcome) ? outcome : SAME));
  const table = stateTable(diagrams, same, { impossible: both, ...(own === undefined ? {} : { own }) });
  const rows = table.rows.filter(({ outcome }) => outcome !== SAME);
  return { verdict: verdictOf(rows.map(({ outcome }) => outcomes.pair(outcome))), table: { ...table, rows } };
}

/** No outcome has this number: it marks the cases in which nothing differs. */
const SAME = 2 ** 30;

function verdictOf(pairs: readonly OutcomePair[]): Verdict {
  if (pairs.some(([here, there]) => here !== IMPOSSIBLE && there !== IMPOSSIBLE)) return 'differs';
  if (pairs.every(([, there]) => there === IMPOSSIBLE)) return 'only possible here';
  return pairs.every(([here]) => here === IMPOSSIBLE) ? 'only possible there' : 'other cases';
}

function isNotFitted(diagrams: Diagrams, form: Node): boolean {
  return diagrams.terminals(form).every((outcome) => outcome === NOT_FITTED || outcome === IMPOSSIBLE);
}
