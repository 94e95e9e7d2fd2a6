/** The same work for everybody: rule lists over variables, on several fits, with cases that cannot happen. */

export type Formula =
  | { readonly op: 'in'; readonly variable: number; readonly values: readonly number[] }
  | { readonly op: 'not'; readonly of: Formula }
  | { readonly op: 'all' | 'some'; readonly of: readonly Formula[] };

export interface Variable {
  readonly id: string;
  readonly size: number;
  /** Its values are cells between thresholds: who reads few thresholds needs few cells. */
  readonly isNumber: boolean;
}

/** The first rule that holds gives the outcome. */
export interface Item {
  readonly id: string;
  readonly rules: readonly { readonly when: Formula; readonly then: number }[];
  readonly otherwise: number;
}

export interface Problem {
  /** The options first. */
  readonly variables: readonly Variable[];
  readonly options: number;
  /** By fit, the value of each option; no two are the same. */
  readonly fits: readonly (readonly number[])[];
  /** What holds in every case that can happen. */
  readonly constraints: readonly Formula[];
  readonly items: readonly Item[];
  /** The outcome of what is not fitted: an item that has no other on two fits is alike there, whatever can happen. */
  readonly missing?: number;
}

/** The outcome of each item in one case, as a reader of the rules would find it. */
export function interpreterOf(problem: Problem): (values: readonly number[]) => number[] {
  const items = problem.items.map(({ rules, otherwise }) => ({
    rules: rules.map(({ when, then }) => ({ holds: predicateOf(when), then })),
    otherwise,
  }));
  return (values) =>
    items.map(({ rules, otherwise }) => {
      for (const { holds, then } of rules) if (holds(values)) return then;
      return otherwise;
    });
}

export function predicateOf(formula: Formula): (values: readonly number[]) => boolean {
  switch (formula.op) {
    case 'in': {
      const { variable, values: wanted } = formula;
      const [only] = wanted;
      if (wanted.length === 1) return (values) => values[variable] === only;
      return (values) => wanted.includes(values[variable] as number);
    }
    case 'not': {
      const holds = predicateOf(formula.of);
      return (values) => !holds(values);
    }
    case 'all': {
      const parts = formula.of.map(predicateOf);
      return (values) => parts.every((holds) => holds(values));
    }
    case 'some': {
      const parts = formula.of.map(predicateOf);
      return (values) => parts.some((holds) => holds(values));
    }
  }
}

/** The variables that it reads, ascending. */
export function readBy(formulas: readonly Formula[]): number[] {
  const found = new Set<number>();
  const visit = (formula: Formula): void => {
    if (formula.op === 'in') found.add(formula.variable);
    else if (formula.op === 'not') visit(formula.of);
    else formula.of.forEach(visit);
  };
  formulas.forEach(visit);
  return [...found].sort((a, b) => a - b);
}

/** The formula where some variables have known values: shorter, or decided. */
export function fixed(formula: Formula, known: (variable: number) => number | undefined): Formula | boolean {
  switch (formula.op) {
    case 'in': {
      const value = known(formula.variable);
      return value === undefined ? formula : formula.values.includes(value);
    }
    case 'not': {
      const of = fixed(formula.of, known);
      return typeof of === 'boolean' ? !of : { op: 'not', of };
    }
    default: {
      const decides = formula.op === 'some';
      const parts = formula.of.map((each) => fixed(each, known));
      if (parts.includes(decides)) return decides;
      const of = parts.filter((each) => typeof each !== 'boolean');
      return of.length === 0 ? !decides : { op: formula.op, of };
    }
  }
}

/** Values of each variable for a case of a fit that can happen: what stands against a constraint is drawn anew. */
export function possibleCase(problem: Problem, fit: number, below: (count: number) => number): number[] {
  const options = problem.fits[fit] as readonly number[];
  const values = problem.variables.map(({ size }, at) => options[at] ?? below(size));
  const constraints = problem.constraints.map((each) => ({ holds: predicateOf(each), read: readBy([each]) }));
  for (let round = 0; round < 10_000; round += 1) {
    const broken = constraints.filter(({ holds }) => !holds(values));
    if (broken.length === 0) return values;
    for (const { read } of broken) {
      for (const variable of read) {
        if (variable >= problem.options) values[variable] = below(problem.variables[variable]?.size as number);
      }
    }
  }
  throw new Error('no case was found');
}
