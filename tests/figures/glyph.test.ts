import { describe, expect, test } from 'vitest';
import { glyph } from '../../src/figures/index.ts';

const kinds = ['dark', 'lit', 'sometimes', 'flashing', 'unserviceable', 'not-fitted', 'impossible'] as const;

describe('State glyphs', () => {
  test('are told apart by shape alone', () => {
    const shapes = kinds.map((kind) => glyph(kind).replace(`class="glyph ${kind}"`, ''));
    expect(new Set(shapes).size).toBe(kinds.length);
  });

  test('are hidden from screen readers, since the word stands beside them', () => {
    for (const kind of kinds)
      expect(glyph(kind)).toMatch(/^<svg class="glyph [a-z-]+" viewBox="0 0 20 20" aria-hidden="true">.+<\/svg>$/);
  });

  test('have the same shape in every colour, and take only the colours that lights have', () => {
    const classless = (svg: string): string => svg.replace(/class="glyph [^"]*"/, '');
    for (const colour of ['red', 'green', 'amber', 'blue', 'white', 'purple']) {
      expect(classless(glyph('lit', colour))).toBe(classless(glyph('lit')));
      expect(glyph('lit', colour).includes(`light-${colour}`)).toBe(colour !== 'purple');
    }
  });

  test('are nothing at all for a state without one', () => {
    expect(glyph('none')).toBe('');
  });
});
