import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatText, type Place } from '../../src/diagnostics/index.ts';

/** The place of the words between « and », which are taken out of the text. */
function marked(text: string): Place {
  const start = text.indexOf('«');
  return {
    file: { path: 'panels/logo.yaml', text: text.replace(/[«»]/g, '') },
    start,
    end: text.indexOf('»') - 1,
  };
}

/** The lines between the place and the message of the printed diagnostic. */
function frameOf(place: Place): string[] {
  const lines = formatText({ code: 'SL203', facts: {}, place }).split('\n');
  const message = lines.indexOf('  This bracket is opened but never closed.');
  return lines.slice(2, message).map((line) => line.slice(2));
}

describe('the source is shown with the words underlined', () => {
  test.each<[about: string, text: string, frame: string[]]>([
    ['a word', 'when: «logo» is ON', ['1 | when: logo is ON', '  |       ~~~~']],
    ['a whole line', 'a\n«bc»\nd', ['2 | bc', '  | ~~']],
    ['a tab, which goes to the next stop of four', 'a\t«b»', ['1 | a   b', '  |     ~']],
    ['several tabs', '\t\t«b\tc»', ['1 |         b   c', '  |         ~~~~~']],
    ['a tab after a wide character', '漢\t«b»', ['1 | 漢  b', '  |     ~']],
    ['only a tab', 'a«\t»b', ['1 | a   b', '  |  ~~~']],
    ['wide characters, of two columns each', '漢字 «ロゴ» x', ['1 | 漢字 ロゴ x', '  |      ~~~~']],
    ['characters beyond the basic plane', '🛫 «🛬»', ['1 | 🛫 🛬', '  |    ~~']],
    ['combining marks, of no column', 'cafe\u0301 «cre\u0300me»', ['1 | cafe\u0301 cre\u0300me', '  |      ~~~~~']],
    ['a file with CRLF', 'a\r\n«bc»\r\nd', ['2 | bc', '  | ~~']],
    ['a file with lone CR', 'a\r«bc»\rd', ['2 | bc', '  | ~~']],
    ['a byte order mark', '\uFEFFa «b»', ['1 | a b', '  |   ~']],
    ['a place that begins with the byte order mark', '«\uFEFFab» c', ['1 | ab c', '  | ~~']],
    ['an empty range, by one mark', 'a «»b', ['1 | a b', '  |   ~']],
    ['an empty range at the end of a line', 'when:«»\nb', ['1 | when:', '  |      ~']],
    ['an empty range at the end of the file', 'a\nb«»', ['2 | b', '  |  ~']],
    ['an empty range after the last line ending', 'a\n«»', ['2 |', '  | ~']],
    ['an empty file', '«»', ['1 |', '  | ~']],
    ['an empty range on a blank line', 'a\n«»\nb', ['2 |', '  | ~']],
    ['a range that ends with its line ending', '«ab\n»c', ['1 | ab', '  | ~~']],
    ['a range that ends with its CRLF', '«ab\r\n»c', ['1 | ab', '  | ~~']],
    [
      'a range over lines, without their indentation',
      'w: «a\n   b»\n',
      ['1 | w: a', '  |    ~', '2 |    b', '  |    ~'],
    ],
    [
      'a range over a blank line, which has nothing to underline',
      '«a\n\nb»',
      ['1 | a', '  | ~', '2 |', '3 | b', '  | ~'],
    ],
    [
      'a range over many lines, by its first and last ones',
      '«1\n2\n3\n4\n5»',
      ['1 | 1', '  | ~', '2 | 2', '  | ~', '  :', '5 | 5', '  | ~'],
    ],
    ['line numbers of unequal length', `${'\n'.repeat(8)}«a\nb»`, [' 9 | a', '   | ~', '10 | b', '   | ~']],
    ['control characters, which a terminal would obey', '\u001b[2J \u0007«a»\u202e', ['1 | �[2J �a�', '  |       ~']],
  ])('%s', (_about, text, frame) => expect(frameOf(marked(text))).toEqual(frame));
});

test('the headline place counts columns as an editor does', () => {
  const text = formatText({ code: 'SL203', facts: {}, place: marked('a\n\t漢🛫«b»') });
  expect(text.split('\n')[1]).toBe('  panels/logo.yaml:2:4');
});

/** Graphemes and the columns that a terminal gives them: East Asian wide ones and emoji two (Unicode Standard Annex #11). */
const COLUMNS = new Map([
  ...['a', '-', ' ', 'ß', 'e\u0301', 'Ж'].map((grapheme) => [grapheme, 1] as const),
  ...['漢', 'カ', '한', '🛫', 'Ａ'].map((grapheme) => [grapheme, 2] as const),
]);

test('the marks stand exactly beneath the words', () => {
  const graphemes = fc.array(fc.constantFrom(...COLUMNS.keys(), '\t'), { maxLength: 8 });
  fc.assert(
    fc.property(graphemes, graphemes, graphemes, (before, within, after) => {
      const words = ['(', ...within, ')'];
      const place = marked(`key\n${before.join('')}«${words.join('')}»${after.join('')}\nkey`);
      const [source = '', marks = ''] = frameOf(place).map((line) => line.slice(4));
      // As a terminal does it: each column of the screen belongs to one grapheme of the printed line.
      const screen = [...new Intl.Segmenter('en', { granularity: 'grapheme' }).segment(source)].flatMap(({ segment }) =>
        Array.from({ length: COLUMNS.get(segment) ?? 1 }, (_, column) => (column === 0 ? segment : '')),
      );
      const beneath = screen.filter((_, column) => marks[column] === '~').join('');
      expect(beneath.replace(/ /g, '')).toBe(words.join('').replace(/[ \t]/g, ''));
      expect(beneath.startsWith('(') && beneath.endsWith(')')).toBe(true);
      expect(marks).toMatch(/^ *~+$/);
    }),
    { numRuns: 1000 },
  );
});

test('every place in every text can be shown, with a mark for all that is not blank', () => {
  const texts = fc
    .array(fc.constantFrom('a', ' ', '\t', '漢', '\u0301', '\uFEFF', '\n', '\r', '\r\n'))
    .map((parts) => parts.join(''));
  fc.assert(
    fc.property(texts, fc.nat(30), fc.nat(30), (text, from, length) => {
      const start = Math.min(from, text.length);
      const end = Math.min(start + length, text.length);
      const frame = frameOf({ file: { path: 'a', text }, start, end });
      expect(frame.length).toBeGreaterThan(0);
      if (text.slice(start, end).trim() !== '') expect(frame.join('\n')).toContain('~');
    }),
    { numRuns: 1000 },
  );
});
