/** Seeded rule lists of the kind that authors write, with impossible cases, as truth tables and as diagrams. */
import { Diagrams, type Node, type Variable } from '../../src/logic/index.ts';
import { allCases, seeded, variablesOf } from './truth-tables.ts';

/** The terminal of impossible cases in these tests. */
export const IMPOSSIBLE = 9;

type Literals = readonly { readonly level: number; readonly values: readonly number[] }[];

/** The first rule that holds gives the outcome; a case in one of the cubes of `never` is impossible. */
export interface RuleList {
  readonly variables: readonly Variable[];
  readonly rules: readonly { readonly when: Literals; readonly outcome: number }[];
  readonly never: readonly Literals[];
}

export interface Bounds {
  readonly variables: number;
  readonly size: number;
  readonly rules: number;
}

/** Two to `bounds.variables` variables, ordered ones among them; the same seed gives the same list. */
export function ruleList(seed: number, bounds: Bounds): RuleList {
  const next = seeded(seed);
  for (let i = 0; i < 10; i += 1) next(2);
  const sizes = Array.from({ length: 2 + next(bounds.variables - 1) }, () => 2 + next(bounds.size - 1));
  const variables = variablesOf(
    sizes,
    sizes.map(() => next(4) === 0),
  );
  const literals = (most: number): Literals => {
    const levels = sizes.map((_, level) => level).filter(() => next(3) > 0);
    return levels.slice(0, most).map((level) => {
      const size = sizes[level] as number;
      const values = Array.from({ length: size }, (_, value) => value).filter(() => next(2) === 0);
      return { level, values: values.length > 0 && values.length < size ? values : [next(size)] };
    });
  };
  const rules = Array.from({ length: 1 + next(bounds.rules) }, () => ({ when: literals(3), outcome: next(3) }));
  const never = Array.from({ length: next(4) }, () => literals(2)).filter((cube) => cube.length > 0);
  return { variables, rules: [...rules, { when: [], outcome: next(3) }], never };
}

/** The outcome of each case by reading the rules, `IMPOSSIBLE` where it cannot happen. */
export function outcomeOf(list: RuleList, each: readonly number[]): number {
  const holds = (cube: Literals): boolean => cube.every(({ level, values }) => values.includes(each[level] as number));
  if (list.never.some(holds)) return IMPOSSIBLE;
  return list.rules.find(({ when }) => holds(when))?.outcome as number;
}

/** The same as a diagram. `place` says at which level of the manager each variable of the list stands. */
export function diagramOf(diagrams: Diagrams, list: RuleList, place = (level: number): number => level): Node {
  const cube = (literals: Literals): Node =>
    diagrams.and(...literals.map(({ level, values }) => diagrams.literal(place(level), values)));
  const outcome = list.rules.reduceRight<Node>(
    (rest, rule) => diagrams.ite(cube(rule.when), diagrams.terminal(rule.outcome), rest),
    diagrams.terminal(0),
  );
  return diagrams.ite(diagrams.or(...list.never.map(cube)), diagrams.terminal(IMPOSSIBLE), outcome);
}

/** The list's cases with their outcomes. */
export function truthTable(list: RuleList): { readonly each: readonly number[]; readonly outcome: number }[] {
  return allCases(list.variables.map(({ size }) => size)).map((each) => ({ each, outcome: outcomeOf(list, each) }));
}

/** The seeds from 1 up. */
export function seeds(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1);
}

/** How many variables a list depends on. */
export function supportOf(list: RuleList): number {
  const diagrams = new Diagrams(list.variables);
  return diagrams.support(diagramOf(diagrams, list)).length;
}
