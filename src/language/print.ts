/** Expressions as text: reading what is printed gives the same expression again, apart from places. */
import type { Expression, Reference } from './expression.ts';

export function print(expression: Expression): string {
  switch (expression.op) {
    case 'constant':
      return expression.value ? 'always' : 'never';
    case 'and':
    case 'or':
      return expression.args.map(operand).join(` ${expression.op} `);
    case 'not':
      return `not ${operand(expression.arg)}`;
    case 'implies':
      return `${operand(expression.premise)} implies ${operand(expression.conclusion)}`;
    case 'among':
      return `${name(expression.of)} ${said(expression.values)}`;
    case 'compare':
      return `${expression.condition} ${expression.by} ${expression.value} ${expression.unit}`;
    case 'fitted':
      return `fitted(${expression.of.id}${expression.position === undefined ? '' : `.${expression.position}`})`;
    case 'signal':
    case 'detector':
      return expression.id;
    case 'level':
      return `${expression.store} ${expression.by} ${expression.value} ${expression.unit}`;
    case 'lamps': {
      const { quantifier, count, item, args } = expression;
      const values = args.flatMap((arg) => (arg.op === 'among' ? arg.values : []));
      const number = count === undefined ? '' : ` ${count}`;
      const one = quantifier === 'any' || count === 1;
      return `${quantifier}${number} ${one ? 'lamp' : 'lamps'} of ${item} ${said([...new Set(values)])}`;
    }
  }
}

function said(values: readonly string[]): string {
  return values.length === 1 ? `is ${values[0]}` : `in (${values.join(', ')})`;
}

function operand(expression: Expression): string {
  const text = print(expression);
  return expression.op === 'and' || expression.op === 'or' || expression.op === 'implies' ? `(${text})` : text;
}

function name({ id, attribute }: Reference): string {
  return attribute === undefined ? id : `${id}.${attribute}`;
}
