/** The lines of the author's file that a diagnostic is about, with the words underlined. */
import stringWidth from 'string-width';
import type { Place } from './diagnostic.ts';
import { LineIndex } from './line-index.ts';

/** Columns between two tab stops. */
const TAB = 4;
/** A range over more lines than this shows its first and last ones. */
const MOST_LINES = 4;
/** What a terminal would obey instead of showing it: control characters but the tab, and changes of writing direction. */
const UNPRINTABLE = /(?!\t)\p{Cc}|[\u202A-\u202E\u2066-\u2069]/gu;

/**
 * The frame as lines of text: each source line behind its number, and beneath it a mark under every column of the words
 * meant. Tabs are expanded and wide characters counted as two columns, so that the marks stand right under the words.
 */
export function frame(place: Place): string[] {
  const { text } = place.file;
  const index = new LineIndex(text);
  const words = wordsOf(place);
  const first = index.position(words.start).line;
  // A range that ends with a line break ends on the line before it.
  const last = index.position(words.end > words.start ? words.end - 1 : words.end).line;
  const lines = Array.from({ length: last - first + 1 }, (_, step) => first + step);
  const shown = lines.length <= MOST_LINES ? lines : [first, first + 1, last];
  const gutter = String(last).length;
  return shown.flatMap((line, at) => {
    const { start, end } = index.range(line);
    const source = text.slice(start, end).replace(/^\uFEFF/, '');
    const shift = end - start - source.length;
    const from = Math.max(words.start - start - shift, 0);
    const to = Math.min(words.end - start - shift, source.length);
    const leading = line === first ? from : Math.max(from, source.length - source.trimStart().length);
    const left = expand(source.slice(0, leading));
    const width = expand(source.slice(0, Math.max(to, leading))).width - left.width;
    const skipped = at > 0 && line - (shown[at - 1] ?? line) > 1 ? [`${' '.repeat(gutter)} :`] : [];
    const number = String(line).padStart(gutter);
    if (source.trim() === '' && last > first) return [...skipped, `${number} |`];
    return [
      ...skipped,
      `${number} | ${expand(source).text}`,
      `${' '.repeat(gutter)} | ${' '.repeat(left.width)}${'~'.repeat(Math.max(1, width))}`,
    ];
  });
}

/** The text with a mark in place of each character that a terminal would obey. */
export function printable(text: string): string {
  return text.replace(UNPRINTABLE, '\uFFFD');
}

/** The place without the blanks around its words, so that the first and the last line shown have some; all of it if blank. */
function wordsOf({ file, start, end }: Place): { start: number; end: number } {
  const text = file.text.slice(start, end);
  if (text.trim() === '') return { start, end };
  return { start: end - text.trimStart().length, end: start + text.trimEnd().length };
}

/** A text with its tabs expanded, and the columns that it takes on screen. */
function expand(source: string): { text: string; width: number } {
  let text = '';
  let width = 0;
  for (const part of printable(source).split(/(\t)/)) {
    const piece = part === '\t' ? ' '.repeat(TAB - (width % TAB)) : part;
    text += piece;
    width += stringWidth(piece);
  }
  return { text, width };
}
