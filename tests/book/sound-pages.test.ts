/** What the pages of sounds say, worked by hand, and how items come to be in their states. */
import { describe, expect, test } from 'vitest';
import { type ItemPage, plain, type SoundPage } from '../../src/book/index.ts';
import { inTimeBook, pageAt } from './in-time.ts';

const { book } = inTimeBook();

/** "QQ-AAA: sentence" and the rows under it. */
function said({ groups }: SoundPage): string[] {
  return groups.flatMap(({ effectivity, tables }) => [
    ...(tables.length === 0 ? [`${effectivity.text}: none`] : []),
    ...tables.flatMap(({ sentence, rows }) => [
      `${effectivity.text}: ${plain(sentence)}`,
      ...rows.map(
        ({ moves, from, to, cases, heard }) =>
          `  ${plain(moves)} ${plain(from)} > ${plain(to)} ${plain(cases)}: ${heard}`,
      ),
    ]),
  ]);
}

test('a sound says on which aircraft what sets it off, plainly where it is plain', () => {
  expect(said(pageAt(book, 'sound', 'sounds/sign-change.html'))).toEqual([
    'QQ-AAA and QQ-AAB, 2 aircraft: Heard at each movement of the sign switch. Nothing else sets it off.',
    '  Sign switch OFF > AUTO or ON in every case: heard',
    '  Sign switch AUTO > OFF or ON in every case: heard',
    '  Sign switch ON > OFF or AUTO in every case: heard',
    'QQ-AAC: Set off by movements of the sign switch alone.',
    '  Sign switch OFF > AUTO or ON with the gear down: heard',
    '  Sign switch AUTO > OFF or ON with the gear down: heard',
    '  Sign switch ON > OFF or AUTO with the gear down: heard',
    'QQ-AAD: none',
  ]);
});

test('a sound that a mode sets off says so', () => {
  expect(said(pageAt(book, 'sound', 'sounds/ready-tone.html'))).toEqual([
    'the whole fleet: Set off by movements of the unit alone.',
    '  Unit starting > running with the gear down: heard',
  ]);
});

describe('how an item comes to be so', () => {
  /** "state | example | enough | from: steps" */
  const ways = ({ ways: views }: ItemPage): string[] =>
    views.flatMap(({ groups }) =>
      groups.flatMap(({ effectivity, ways: each }) => [
        effectivity.text,
        ...each.map(({ state, example, reasons, start, steps }) => {
          const words = steps === undefined ? 'no way' : steps.map(plain).join(', ') || 'so at first';
          return `  ${state.text} | ${plain(example)} | ${plain(reasons)} | ${start && start.length > 0 ? `${plain(start)}: ` : ''}${words}`;
        }),
      ]),
    );

  test('gives a plain case, what of it is enough, and the fewest movements', () => {
    expect(ways(pageAt(book, 'item', 'lights/belt-signs.html'))).toEqual([
      'the whole fleet',
      '  dark | with the sign switch at OFF and the gear down | with the sign switch at OFF | so at first',
      '  lit | with the sign switch at AUTO and the gear down |  | set the sign switch to AUTO',
    ]);
  });

  test('names the wait for a mode, and controls that are held', () => {
    expect(ways(pageAt(book, 'item', 'lights/ready-legend.html'))).toEqual([
      'the whole fleet',
      '  dark | with the unit stopped |  | so at first',
      expect.stringContaining('  lit | with the unit running |  | '),
    ]);
    expect(ways(pageAt(book, 'item', 'lights/ready-legend.html'))[2]).toMatch(/hold the unit control at START/);
  });

  test('starts with the conditions that it takes', () => {
    const [, dark] = ways(pageAt(book, 'item', 'lights/reading-lights.html'));
    expect(dark).toBe(
      '  dark | with generator 1 off line and generator 2 off line |  | with generator 1 off line and generator 2 off line: so at first',
    );
  });
});
