/**
 * Fits with unknown options: what is certain of them, and what they may be. Only options that the expressions read are
 * ever tried, so that many unknown options cost nothing.
 */
import { type Expression, referencesOf } from '../language/index.ts';
import { type Constraint, type Option, UNKNOWN } from './fleet.ts';

/** Values of options by id, or `unknown`. */
export type FitValues = ReadonlyMap<string, string>;

/**
 * Whether an expression over options only holds on a fit; undefined where the known options don't decide it. With every
 * option known it is never undefined. True and false are certain; undefined may still turn out to be the same whatever
 * the unknown options are (Kleene's strong three-valued logic; S. C. Kleene, "Introduction to Metamathematics", 1952).
 */
export function holdsOnFit(expression: Expression, fit: FitValues): boolean | undefined {
  switch (expression.op) {
    case 'constant':
      return expression.value;
    case 'and':
      return all(expression.args.map((arg) => holdsOnFit(arg, fit)));
    case 'or':
      return not(all(expression.args.map((arg) => not(holdsOnFit(arg, fit)))));
    case 'not':
      return not(holdsOnFit(expression.arg, fit));
    case 'implies':
      return not(all([holdsOnFit(expression.premise, fit), not(holdsOnFit(expression.conclusion, fit))]));
    case 'among': {
      const value = fit.get(expression.of.id);
      return value === UNKNOWN ? undefined : expression.values.includes(value ?? '');
    }
    default:
      throw new Error(`an expression over options reads ${expression.op}`);
  }
}

function not(value: boolean | undefined): boolean | undefined {
  return value === undefined ? undefined : !value;
}

function all(values: readonly (boolean | undefined)[]): boolean | undefined {
  if (values.includes(false)) return false;
  return values.includes(undefined) ? undefined : true;
}

/** What must hold on every fit, as one expression: "option is value implies not excluded". */
export function constraintExpression({ option, value, kind, expression, place }: Constraint): Expression {
  const premise: Expression = { op: 'among', of: { kind: 'option', id: option }, values: [value], place };
  const conclusion: Expression = kind === 'requires' ? expression : { op: 'not', arg: expression, place };
  return { op: 'implies', premise, conclusion, place };
}

/**
 * A fit that `fit` may be and on which all the expressions hold, or undefined if there is none. Options on which nothing
 * depends stay unknown.
 */
export function possibleFit(
  fit: FitValues,
  options: readonly Option[],
  expressions: readonly Expression[],
): FitValues | undefined {
  const open: Expression[] = [];
  for (const expression of expressions) {
    const holds = holdsOnFit(expression, fit);
    if (holds === false) return undefined;
    if (holds === undefined) open.push(expression);
  }
  const [first] = open;
  if (first === undefined) return fit;
  const read = new Set(referencesOf(first).map(({ id }) => id));
  const next = options.find(({ id }) => read.has(id) && fit.get(id) === UNKNOWN);
  if (next === undefined) throw new Error('an expression over known options is undecided');
  for (const { id } of next.values) {
    const found = possibleFit(new Map([...fit, [next.id, id]]), options, open);
    if (found) return found;
  }
  return undefined;
}
