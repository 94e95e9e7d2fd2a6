/** Expressions in the form in which they are easiest to say: nothing is denied but single facts, nothing is said twice. */
import type { Comparison, Expression } from '../language/index.ts';

/** The same, with every "not" moved to the single facts, and without what another part of an "and" says already. */
export function plainForm(expression: Expression): Expression {
  return tidy(pushed(expression, false));
}

type Of<Op extends Expression['op']> = Extract<Expression, { readonly op: Op }>;

/** The expression, or its opposite, with every "not" moved inwards. */
function pushed(expression: Expression, denied: boolean): Expression {
  switch (expression.op) {
    case 'and':
    case 'or': {
      const op = denied ? OPPOSITE[expression.op] : expression.op;
      return { ...expression, op, args: expression.args.map((arg) => pushed(arg, denied)) };
    }
    case 'not':
      return pushed(expression.arg, !denied);
    case 'implies': {
      const { premise, conclusion, place } = expression;
      return { op: denied ? 'and' : 'or', args: [pushed(premise, !denied), pushed(conclusion, denied)], place };
    }
    case 'constant':
      return denied ? { ...expression, value: !expression.value } : expression;
    case 'compare':
      return denied && expression.by !== '='
        ? { ...expression, by: INVERSE[expression.by] }
        : deniedIf(denied, expression);
    case 'level':
      return denied ? { ...expression, by: INVERSE[expression.by] } : expression;
    default:
      return deniedIf(denied, expression);
  }
}

function deniedIf(denied: boolean, arg: Expression): Expression {
  return denied ? { op: 'not', arg, place: arg.place } : arg;
}

const OPPOSITE = { and: 'or', or: 'and' } as const;
const INVERSE = { '<': '>=', '<=': '>', '>': '<=', '>=': '<' } as const satisfies Record<
  Exclude<Comparison, '='>,
  Exclude<Comparison, '='>
>;

/** "fitted(a) and a is ON" is "a is ON": what stands at a position is fitted. Lists within lists of their kind are one list. */
function tidy(expression: Expression): Expression {
  if (expression.op !== 'and' && expression.op !== 'or') return expression;
  const all = expression.args.map(tidy).flatMap((arg) => (arg.op === expression.op ? arg.args : [arg]));
  const args = [...new Map(all.map((arg) => [withoutPlaces(arg), arg])).values()];
  if (expression.op === 'or') return args.length === 1 ? (args[0] as Expression) : { ...expression, args };
  const left = args.filter((arg) => arg.op !== 'fitted' || !args.some((other) => impliesFitted(other, arg)));
  return left.length === 1 ? (left[0] as Expression) : { ...expression, args: left };
}

/** The same for expressions that say the same, wherever they stand. */
function withoutPlaces(expression: Expression): string {
  return JSON.stringify(expression, (key, value) => (key === 'place' ? undefined : value));
}

function impliesFitted(fact: Expression, { of, position }: Of<'fitted'>): boolean {
  if (fact.op !== 'among' || fact.of.kind !== of.kind || fact.of.id !== of.id) return false;
  return position === undefined || fact.values.every((value) => value === position);
}
