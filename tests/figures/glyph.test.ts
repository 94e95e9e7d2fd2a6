import { describe, expect, test } from 'vitest';
import { glyph } from '../../src/figures/index.ts';

const kinds = ['dark', 'lit', 'flashing', 'not-fitted', 'impossible'] as const;

describe('State glyphs', () => {
  test('are told apart by shape alone', () => {
    const shapes = kinds.map((kind) => glyph(kind).replace(`class="glyph ${kind}"`, ''));
    expect(new Set(shapes).size).toBe(kinds.length);
  });

  test('are hidden from screen readers, since the word stands beside them', () => {
    for (const kind of kinds)
      expect(glyph(kind)).toMatch(/^<svg class="glyph [a-z-]+" viewBox="0 0 20 20" aria-hidden="true">.+<\/svg>$/);
  });

  test('are nothing at all for a state without one', () => {
    expect(glyph('none')).toBe('');
  });
});
