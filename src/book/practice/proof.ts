/** What the facts that a question states make sure of: nothing else is asked, and nothing else is called wrong. */
import { type Behaviour, type Compiled, IMPOSSIBLE, inputForm, NOT_FITTED, normalValues } from '../../compile/index.ts';
import type { Node } from '../../logic/index.ts';
import { type Facts, isAbsent, type Scene, type Subject } from './scene.ts';

/** Terminals of what is asked: for certain so, for certain not so, or neither; 0 where the case cannot happen. */
export const SO = 2;
export const NOT_SO = 3;
const UNSURE = 4;

/** Questions with more facts than so many are hard to read, not hard. */
const MOST_FACTS = 6;

/** Forms are asked for again and again. */
const KNOWN = new WeakMap<Behaviour, Map<number, Node>>();

/** What an item is on an aircraft, by the cases that inputs permit there: readers need not know how sequences run. */
export function formOn(compiled: Compiled, behaviour: Behaviour, { settled }: Subject): Node {
  const known = KNOWN.get(behaviour) ?? new Map<number, Node>();
  KNOWN.set(behaviour, known);
  const form = known.get(settled.index) ?? inputForm(compiled, behaviour, settled);
  known.set(settled.index, form);
  return form;
}

/** Whether something is there on an aircraft. */
export function isThere({ diagrams }: Compiled, { settledForms }: Behaviour, { settled }: Subject): boolean {
  return settledForms[settled.index] !== diagrams.terminal(NOT_FITTED);
}

/** Whether an item is in one of some states. */
export function isIn({ diagrams, outcomes }: Compiled, form: Node, states: readonly string[]): Node {
  return diagrams.map(`practice: in ${states.join(' ')}`, form, (outcome) => {
    if (outcome === IMPOSSIBLE) return IMPOSSIBLE;
    const state = outcomes.state(outcome);
    return state === undefined ? UNSURE : states.includes(state) ? SO : NOT_SO;
  });
}

/** Whether two forms say another state of one case that can happen in both. */
export function isOtherwise({ diagrams, outcomes }: Compiled, here: Node, there: Node): Node {
  return diagrams.apply('practice: otherwise', here, there, (a, b) => {
    if (a === IMPOSSIBLE || b === IMPOSSIBLE) return IMPOSSIBLE;
    if (outcomes.state(a) === undefined || outcomes.state(b) === undefined) return UNSURE;
    return a === b ? NOT_SO : SO;
  });
}

/** What a whole scene makes sure of, or one with something else in place of what is otherwise there. */
export function surely(
  { diagrams }: Compiled,
  asked: Node,
  values: readonly number[],
): typeof SO | typeof NOT_SO | undefined {
  const found = diagrams.evaluate(asked, values);
  return found === SO || found === NOT_SO ? found : undefined;
}

/** The one state that something is in in a whole scene. */
export function stateIn({ diagrams, outcomes }: Compiled, form: Node, { values }: Scene): string | undefined {
  return outcomes.state(diagrams.evaluate(form, values));
}

/** What some facts make sure of: `SO` or `NOT_SO`, and undefined where they leave it open or cannot be together. */
export function sure({ diagrams }: Compiled, asked: Node, facts: Facts): typeof SO | typeof NOT_SO | undefined {
  const [only, ...others] = diagrams
    .terminals(diagrams.restrictAll(asked, facts))
    .filter((each) => each !== IMPOSSIBLE);
  return others.length === 0 && (only === SO || only === NOT_SO) ? only : undefined;
}

/**
 * Facts of a case, none of which can be left out, that make sure of what is asked; undefined where all of them don't. What is normal is left
 * out first, then what was declared last; the levels to `keep` last of all.
 */
export function reasons(
  compiled: Compiled,
  asked: Node,
  facts: Facts,
  keep: readonly number[] = [],
): Facts | undefined {
  const { diagrams, space } = compiled;
  const levels = diagrams.support(asked).filter((level) => facts.has(level));
  const only = (some: readonly number[]): Facts => new Map(some.map((level) => [level, facts.get(level) as number]));
  const wanted = sure(compiled, asked, only(levels));
  if (wanted === undefined) return undefined;
  const rank = (level: number): number => {
    if (keep.includes(level)) return 3;
    if (isAbsent(compiled, level, facts.get(level) as number)) return 0;
    return normalValues(space.meanings[level])?.includes(facts.get(level) as number) ? 1 : 2;
  };
  const order = levels.toSorted((a, b) => rank(a) - rank(b) || b - a);
  const kept = order.reduce<readonly number[]>((rest, level) => {
    const fewer = rest.filter((each) => each !== level);
    return sure(compiled, asked, only(fewer)) === wanted ? fewer : rest;
  }, levels);
  return only(kept.toSorted((a, b) => a - b));
}

/** All facts that several answers rest on, in declared order; undefined where a question cannot state them. */
export function stated(
  compiled: Compiled,
  subjects: readonly Subject[],
  parts: readonly (Facts | undefined)[],
): Facts | undefined {
  const all = new Map<number, number>();
  for (const part of parts) {
    if (part === undefined) return undefined;
    for (const [level, value] of part) all.set(level, value);
  }
  if (all.size === 0 || all.size > MOST_FACTS) return undefined;
  if ([...all].some(([level, value]) => isAbsent(compiled, level, value) || isUnseen(compiled, level)))
    return undefined;
  return canBe(compiled, subjects, all) ? new Map([...all].toSorted(([a], [b]) => a - b)) : undefined;
}

/** Whether some facts can be together on each of some aircraft. */
export function canBe({ diagrams, possible }: Compiled, subjects: readonly Subject[], facts: Facts): boolean {
  return subjects.every(({ settled }) => possible[settled.index]?.only([], facts) !== diagrams.no);
}

/** Whether something would be so if one of the stated facts were otherwise: what makes a wrong answer a near miss. */
export function isNear(compiled: Compiled, subjects: readonly Subject[], asked: Node, facts: Facts): boolean {
  return without(facts).some((fewer) => leftOpen(compiled, subjects, asked, fewer).includes(SO));
}

/** The states that an item could be in if one of the stated facts were otherwise, and the one that it is in. */
export function nearStates(compiled: Compiled, subject: Subject, form: Node, facts: Facts): string[] {
  const all = without(facts).flatMap((fewer) => leftOpen(compiled, [subject], form, fewer));
  return [...new Set(all.flatMap((outcome) => compiled.outcomes.state(outcome) ?? []))];
}

function without(facts: Facts): Facts[] {
  return [...facts.keys()].map((level) => new Map([...facts].filter(([each]) => each !== level)));
}

/** The terminals of a diagram in the cases that can be with some facts on each of some aircraft. */
function leftOpen({ diagrams, possible }: Compiled, subjects: readonly Subject[], asked: Node, facts: Facts): number[] {
  const left = diagrams.restrictAll(asked, facts);
  const levels = diagrams.support(left);
  const cases = diagrams.and(
    ...subjects.map(({ settled }) => possible[settled.index]?.only(levels, facts) ?? diagrams.no),
  );
  return diagrams
    .terminals(left)
    .filter((outcome) => diagrams.and(cases, diagrams.casesOf(left, outcome)) !== diagrams.no);
}

/** Whether a fact is one that crews cannot see, so that no question rests on it: a single lamp works, a message is latched. */
function isUnseen({ fleet, space }: Compiled, level: number): boolean {
  const meaning = space.meanings[level];
  if (meaning?.kind === 'sequence') return fleet.items.some(({ latch }) => latch === meaning.sequence.id);
  return meaning?.kind === 'lamp';
}
