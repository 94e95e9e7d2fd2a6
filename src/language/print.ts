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
    case 'among': {
      const { of, values } = expression;
      return values.length === 1 ? `${name(of)} is ${values[0]}` : `${name(of)} in (${values.join(', ')})`;
    }
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
      const [first] = args;
      const values = first?.op === 'among' ? first.values : [];
      const said = values.length === 1 ? `is ${values[0]}` : `in (${values.join(', ')})`;
      return `${quantifier}${count === undefined ? '' : ` ${count}`} lamp${quantifier === 'any' || count === 1 ? '' : 's'} of ${item} ${said}`;
    }
  }
}

function operand(expression: Expression): string {
  const text = print(expression);
  return expression.op === 'and' || expression.op === 'or' || expression.op === 'implies' ? `(${text})` : text;
}

function name({ id, attribute }: Reference): string {
  return attribute === undefined ? id : `${id}.${attribute}`;
}
