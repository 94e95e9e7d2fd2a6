import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { textWidth, wrap } from '../../src/figures/text.ts';

describe('Text in drawings', () => {
  test('is as wide as its characters, wider in bold', () => {
    expect(textWidth('', 400)).toBe(0);
    expect(textWidth('mm', 400)).toBeCloseTo(2 * textWidth('m', 400));
    expect(textWidth('00', 400)).toBe(textWidth('17', 400));
    expect(textWidth('Dark', 650)).toBeGreaterThan(textWidth('Dark', 400));
  });

  test('takes one line where it fits, and balanced lines where not', () => {
    expect(wrap('Logo switch', 400, 150).lines).toEqual(['Logo switch']);
    expect(wrap('at least one engine in run', 400, 120).lines).toEqual(['at least one', 'engine in run']);
    expect(wrap('  10,200 ft\n or  below ', 400, 66).lines).toEqual(['10,200 ft', 'or below']);
    expect(wrap(' ', 400, 60).lines).toEqual([]);
  });

  test('breaks only between words, into three lines at most, as wide as the widest', () => {
    const words = fc.array(
      fc.string({ minLength: 1, maxLength: 9 }).filter((word) => !/\s/.test(word)),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(words, fc.integer({ min: 10, max: 300 }), (list, wanted) => {
        const { lines, width, height } = wrap(list.join(' '), 400, wanted);
        expect(lines.length).toBeLessThanOrEqual(3);
        expect(lines.join(' ')).toBe(list.join(' '));
        expect(width).toBe(Math.max(0, ...lines.map((line) => textWidth(line, 400))));
        expect(height).toBe(18 * lines.length);
      }),
    );
  });
});
