/** What a control's page says that its positions do to sequences, by the guide and the content. */
import { describe, expect, it } from 'vitest';
import { plain } from '../../src/book/index.ts';
import { inTimeBook, pageAt } from './in-time.ts';

const { book } = inTimeBook();

describe('the page of a control that a sequence waits for', () => {
  const { sequences } = pageAt(book, 'control', 'controls/unit-control.html');

  it('says which transitions each position leads to, with what else they wait for', () => {
    expect(
      sequences.map(({ noun, positions }) => [
        noun,
        positions.map(({ legend, sentences }) => [legend, sentences.map(plain)]),
      ]),
    ).toEqual([
      [
        'the unit',
        [
          ['STOP', ['Takes the unit from running to cooling, after 10 s in the mode.']],
          ['RUN', []],
          [
            'START',
            [
              // The essential bus is fed by either generator, or by the battery with its switch at ON.
              'Takes the unit from stopped to starting with the battery switch at ON, the battery charged and without an ' +
                'essential bus fault, or with generator 1 on line and without an essential bus fault, or with generator 2 ' +
                'on line and without an essential bus fault.',
            ],
          ],
        ],
      ],
    ]);
  });

  it('says nothing of sequences that do not name it', () => {
    for (const page of book.pages) {
      if (page.kind !== 'control' || page.id === 'unit-control') continue;
      expect(page.sequences.map(({ sequence }) => sequence.title)).not.toContain('Unit');
    }
  });
});
