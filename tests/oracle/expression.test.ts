import { describe, expect, test } from 'vitest';
import { type Algebra, read } from './expression.ts';

/** Writes an expression with every bracket there is. */
const brackets: Algebra<string> = {
  constant: String,
  not: (a) => `!${a}`,
  and: (a, b) => `(${a} & ${b})`,
  or: (a, b) => `(${a} | ${b})`,
  implies: (a, b) => `(${a} > ${b})`,
  among: (name, attribute, values) => `[${name}${attribute ? `.${attribute}` : ''}: ${values.join(' ')}]`,
  compare: (name, by, value) => `[${name} ${by} ${value}]`,
  fitted: (name, position) => `{${name}${position ? `.${position}` : ''}}`,
  signal: (name) => name,
  lamps: ({ by, number }, item, values, negated) =>
    `<${by} ${number} ${item} ${negated ? 'not ' : ''}${values.join(' ')}>`,
};

describe('the reading of expressions', () => {
  test.each([
    ['logo is ON', '[logo: ON]'],
    ['slats are in', '[slats: in]'],
    ['logo is not OFF', '![logo: OFF]'],
    ['logo in (AUTO, ON)', '[logo: AUTO ON]'],
    ['logo is not in (OFF, ON)', '![logo: OFF ON]'],
    ['speed <= 240 kt', '[speed <= 240]'],
    ['speed = 88.5 %', '[speed = 88.5]'],
    ['speed>240kt', '[speed > 240]'],
    ['lights.stowage is extended', '[lights.stowage: extended]'],
    ['fitted(logo) and fitted(logo.AUTO)', '({logo} & {logo.AUTO})'],
    ['not a and b', '(!a & b)'],
    ['not (a or b)', '!(a | b)'],
    ['a and b and c', '((a & b) & c)'],
    ['a or b implies c and d', '((a | b) > (c & d))'],
    ['not logo is ON or never', '(![logo: ON] | false)'],
    ['a and (b or always)', '(a & (b | true))'],
    ['a or any lamp of wing is lit', '(a | <any 0 wing lit>)'],
    ['not all lamps of wing are not failed', '!<all 0 wing not failed>'],
    ['at least 2 lamps of wing are in (lit, dim) and a', '(<at least 2 wing lit dim> & a)'],
    ['exactly 1 lamp of wing is failed', '<exactly 1 wing failed>'],
    ['any is ON', '[any: ON]'],
    ['wing.left is failed', '[wing.left: failed]'],
  ])('%s', (text, expected) => expect(read(text, brackets)).toBe(expected));

  test.each(['a and b or c', 'a implies b implies c', 'a and', '(a', 'a b', 'speed > kt', 'fitted()', ''])(
    '"%s" is refused',
    (text) => expect(() => read(text, brackets)).toThrow('not an expression'),
  );
});
