import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LineIndex } from '../../src/diagnostics/index.ts';

describe('the position of the mark', () => {
  /** The mark ¦ stands where the position is asked for, and is taken out of the text. */
  test.each<[about: string, marked: string, line: number, column: number]>([
    ['at the start of an empty text', '¦', 1, 1],
    ['at the start', '¦logo', 1, 1],
    ['within a word', 'lo¦go', 1, 3],
    ['at the end without a line ending', 'logo: x\non: y¦', 2, 6],
    ['at the end after a line ending', 'logo\n¦', 2, 1],
    ['on a line ending', 'logo¦\nON', 1, 5],
    ['after LF', 'a\n¦b', 2, 1],
    ['after CRLF', 'a\r\n¦b', 2, 1],
    ['on CRLF', 'a¦\r\nb', 1, 2],
    ['after a lone CR', 'a\r¦b', 2, 1],
    ['after CR CR LF, which ends two lines', 'a\r\r\n¦b', 3, 1],
    ['after LF CR, which ends two lines', 'a\n\r¦b', 3, 1],
    ['after blank lines', 'a\n\n\r\n\n  ¦b', 5, 3],
    ['on a blank line', 'a\n¦\nb', 2, 1],
    ['after a tab, which is one column', '\t¦a', 1, 2],
    ['after a wide character, which is one column', '漢¦a', 1, 2],
    ['after a character of two UTF-16 units', '🛫¦a', 1, 2],
    ['after a combining mark, which is a column of its own', 'e\u0301¦a', 1, 3],
    ['after a byte order mark, which is none', '\uFEFF¦a', 1, 1],
    ['further on in a file with a byte order mark', '\uFEFFab¦c\nd', 1, 3],
    ['behind a form feed, which ends no line', 'a\f¦b', 1, 3],
    ['behind a line separator, which ends no line of YAML 1.2', 'a\u2028¦b', 1, 3],
  ])('%s', (_about, marked, line, column) => {
    const offset = marked.indexOf('¦');
    expect(new LineIndex(marked.replace('¦', '')).position(offset)).toEqual({ line, column });
  });

  test('an offset beyond the text is at its end, one before it at its start', () => {
    const index = new LineIndex('a\nbc');
    expect(index.position(99)).toEqual({ line: 2, column: 3 });
    expect(index.position(-1)).toEqual({ line: 1, column: 1 });
  });
});

test('the range of a line leaves out its ending', () => {
  const text = 'a\r\nbc\rd\n\ne';
  const index = new LineIndex(text);
  const lines = Array.from({ length: index.lineCount }, (_, at) => index.range(at + 1));
  expect(lines.map(({ start, end }) => text.slice(start, end))).toEqual(['a', 'bc', 'd', '', 'e']);
});

const texts = fc
  .array(fc.constantFrom('a', 'b', ' ', '\t', '漢', '🛫', '\u0301', '\n', '\r', '\r\n'))
  .map((parts) => parts.join(''));

test('positions are those of a walk through the text', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const index = new LineIndex(text);
      let [line, column, offset] = [1, 1, 0];
      for (const character of text) {
        expect(index.position(offset)).toEqual({ line, column });
        offset += character.length;
        const within = character === '\r' && text[offset] === '\n';
        if ((character === '\n' || character === '\r') && !within) [line, column] = [line + 1, 1];
        else column += 1;
      }
      expect(index.position(offset)).toEqual({ line, column });
      expect(index.lineCount).toBe(line);
    }),
    { numRuns: 1000 },
  );
});

test('each offset lies in the range of the line of its position, or in its ending', () => {
  fc.assert(
    fc.property(texts, fc.nat(40), (text, wanted) => {
      const offset = Math.min(wanted, text.length);
      const index = new LineIndex(text);
      const { line } = index.position(offset);
      const { start, end } = index.range(line);
      expect(start).toBeLessThanOrEqual(offset);
      expect(text.slice(end, Math.max(offset, end))).toMatch(/^\r?$/);
    }),
    { numRuns: 1000 },
  );
});
