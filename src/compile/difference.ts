/**
 * How an item behaves differently on two fits: computed on the diagrams of their normal forms, never on table text.
 */
import type { Diagrams, Node, StateTable } from '../logic/index.ts';
import type { Comparable, Formed, Worded } from './comparable.ts';
import type { Fit } from './fits.ts';
import { knownTable } from './known-tables.ts';
import type { LoneSetting } from './lone-settings.ts';
import { IMPOSSIBLE, NOT_FITTED, type OutcomePair, type Outcomes } from './outcomes.ts';
import { settingsOn } from './positions.ts';
import { absentValue, levelOf } from './space.ts';

export type Verdict =
  | 'alike'
  | 'differs'
  /** Unlike sets of states that have one in common. */
  | 'may differ'
  | 'stated here only'
  | 'stated there only'
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
 * Compares one behaviour on two fits. Cases with one of the settings `aside` are left out: they are told by themselves.
 *
 * A control that only one of them has stands in some position there and nowhere on the other, which therefore behaves the
 * same whatever that position. Positions that only one control has are cases that the other fit cannot be in.
 */
export function difference(
  compiled: Pick<Comparable, 'space' | 'diagrams' | 'outcomes' | 'ignoresPossibility'>,
  behaviour: Pick<Formed, 'attribute' | 'forms'>,
  hereFit: Fit,
  thereFit: Fit,
  aside: readonly LoneSetting[] = [],
): Difference {
  const { diagrams, outcomes, space } = compiled;
  const formOn = (fit: Fit): Node => behaviour.forms[fit.index] as Node;
  if (formOn(hereFit) === formOn(thereFit)) return { verdict: 'alike' };
  if (isNotFitted(diagrams, formOn(hereFit))) return { verdict: 'not fitted here' };
  if (isNotFitted(diagrams, formOn(thereFit))) return { verdict: 'not fitted there' };
  const here = lifted(compiled, formOn(hereFit), hereFit, thereFit);
  const there = lifted(compiled, formOn(thereFit), thereFit, hereFit);
  const { control } = behaviour.attribute;
  const own = control === undefined ? undefined : levelOf(space, control);
  const both = IMPOSSIBLE;
  const pairs = diagrams.apply('pair', here, there, (a, b) =>
    a === both && b === both ? both : outcomes.ofPair([a, b]),
  );
  const differs = (outcome: number): boolean => {
    const [a, b] = outcomes.pair(outcome);
    return a !== b && !(compiled.ignoresPossibility && [a, b].includes(IMPOSSIBLE));
  };
  // Cases in which nothing differs are tabulated with the others, so that no row runs over them, and left out then.
  const same = diagrams.map('same', pairs, (outcome) => (outcome === both || differs(outcome) ? outcome : SAME));
  const told = diagrams.or(...aside.map(({ level, value }) => diagrams.literal(level, [value])));
  const table = knownTable(diagrams, diagrams.ite(told, diagrams.terminal(both), same), own);
  const rows = table.rows.filter(({ outcome }) => outcome !== SAME);
  // Only a control that one of them lacks told their forms apart, which changes nothing on the other, or what is told apart.
  if (rows.length === 0) return { verdict: 'alike' };
  return {
    verdict: verdictOf(
      outcomes,
      rows.map(({ outcome }) => outcomes.pair(outcome)),
    ),
    table: { ...table, rows },
  };
}

/** No outcome has this number: it marks the cases in which nothing differs. */
const SAME = 2 ** 30;

/** The form on a fit, said over the controls of another: those that it lacks may stand in any of their positions. */
function lifted({ space, diagrams }: Pick<Worded, 'space' | 'diagrams'>, form: Node, fit: Fit, other: Fit): Node {
  return space.meanings.reduce((node, meaning, level) => {
    if (meaning.kind !== 'control' || !diagrams.support(node).includes(level)) return node;
    const absent = absentValue(meaning);
    const on = (each: Fit): number[] => [...new Set(each.settled.flatMap((one) => settingsOn(space, level, one)))];
    const onOther = on(other);
    const bothLack = onOther.every((value) => value === absent);
    if (bothLack || on(fit).some((value) => value !== absent)) return node;
    const without = diagrams.restrict(node, level, absent);
    return diagrams.ite(diagrams.literal(level, onOther), without, diagrams.terminal(IMPOSSIBLE));
  }, form);
}

/** The strongest of what is said of single cases. */
function verdictOf(outcomes: Outcomes, pairs: readonly OutcomePair[]): Verdict {
  const common = pairs.filter(([here, there]) => here !== IMPOSSIBLE && there !== IMPOSSIBLE);
  if (common.length > 0) {
    const verdicts = new Set(common.map((pair) => caseVerdict(outcomes, pair)));
    const order = ['differs', 'may differ', 'stated here only', 'stated there only'] as const;
    return order.find((verdict) => verdicts.has(verdict)) ?? 'differs';
  }
  if (pairs.every(([, there]) => there === IMPOSSIBLE)) return 'only possible here';
  return pairs.every(([here]) => here === IMPOSSIBLE) ? 'only possible there' : 'other cases';
}

/** What one case that can happen on both says. */
export function caseVerdict(
  outcomes: Outcomes,
  [here, there]: OutcomePair,
): Extract<Verdict, 'differs' | 'may differ' | 'stated here only' | 'stated there only'> {
  const unstated = (outcome: number): boolean => outcomes.meaning(outcome).kind === 'not stated';
  if (unstated(here) !== unstated(there)) return unstated(here) ? 'stated there only' : 'stated here only';
  const states = new Set(outcomes.statesIn(here));
  return outcomes.statesIn(there).some((state) => states.has(state)) ? 'may differ' : 'differs';
}

function isNotFitted(diagrams: Diagrams, form: Node): boolean {
  return diagrams.terminals(form).every((outcome) => outcome === NOT_FITTED || outcome === IMPOSSIBLE);
}
