/** What may be said of a name, and what an author is told of what may not. */
import { describe, expect, test } from 'vitest';
import { ownAttribute, saidBy, wordsOf } from '../../src/language/said.ts';
import { readText } from '../helpers/expressions.ts';

const word = (text: string) => ({ text, start: 0, end: text.length });
const silent = (): undefined => undefined;

describe('the words that may follow', () => {
  test('are each told once, also where a group is called like a value', () => {
    const groups = new Map([
      ['lost', ['lost', 'shed']],
      ['powered', ['fed']],
    ]);
    expect(wordsOf({ values: ['fed', 'shed', 'lost'], groups })).toEqual(['fed', 'shed', 'lost', 'powered']);
  });

  test('are those of its lamp too', () => {
    expect(wordsOf({ values: ['dark', 'lit'], lamp: true })).toEqual(['dark', 'lit', 'serviceable', 'failed']);
  });
});

test.each<[text: string, facts: object]>([
  // The same letters come before a nearer word.
  ['dome is set-2', { name: 'dome', value: 'set-2', nearest: 'SET-2' }],
  ['logo is on', { name: 'logo', value: 'on', nearest: 'ON' }],
  ['logo is off', { name: 'logo', value: 'off', nearest: 'OFF' }],
  ['logo is AUT', { name: 'logo', value: 'AUT', nearest: 'AUTO' }],
  ['logo in (ON, ON)', { value: 'ON' }],
  ['position-lights.left in (lit, failed)', { name: 'position-lights.left', word: 'failed' }],
])('"%s" is told with what was meant', (text, facts) => {
  expect(readText(text).found.map((each) => each.facts)).toEqual([expect.objectContaining(facts)]);
});

test('a state called like what is said of lamps is a state where there is no lamp', () => {
  const pump = { values: ['running', 'failed'] };
  expect(saidBy('pump', [word('failed')], pump, silent)).toEqual({ values: ['failed'], works: false });
  expect(saidBy('pump', [word('failed'), word('running')], pump, silent)).toEqual({
    values: ['failed', 'running'],
    works: false,
  });
  expect(saidBy('left', [word('failed')], { values: ['lit'], lamp: true }, silent)).toEqual({
    values: ['failed'],
    works: true,
  });
});

test('an item stands for its lamp where it has lamps, for its one attribute where it has none', () => {
  const item = { kind: 'item', id: 'flap', attributes: new Map([['place', ['in', 'out']]]) } as const;
  expect(ownAttribute(item)).toBe('place');
  expect(ownAttribute({ ...item, lamps: [] })).toBe('place');
  expect(ownAttribute({ ...item, lamps: ['left'] })).toBe('lamp');
});
