import { expect, test } from 'vitest';
import { isReservedWord, isSayable } from '../../src/language/index.ts';
import { soundExpression } from '../helpers/expressions.ts';

test('nothing may have a word as a value that would be read as a joint or a constant', () => {
  for (const word of ['and', 'or', 'not', 'implies', 'is', 'are', 'for', 'always', 'never'])
    expect(isSayable(word), word).toBe(false);
  for (const word of ['in', 'fitted', 'lit', 'NEVER']) expect(isSayable(word), word).toBe(true);
});

test('two reserved words may be values all the same, and are read as such', () => {
  expect(['in', 'fitted'].every(isReservedWord)).toBe(true);
  expect(soundExpression('slats are in')).toMatchObject({ op: 'among', values: ['in'] });
});
