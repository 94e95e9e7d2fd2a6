/** The lines of the author's file that a diagnostic is about, with the words underlined. */
import stringWidth from 'string-width';
import type { Place } from './diagnostic.ts';
import { LineIndex } from './line-index.ts';

/** Columns between two tab stops. */
const TAB = 4;
/** A range over more lines than this shows its first and last ones. */
const MOST_LINES = 4;

/**
 * The frame as lines of text: each source line behind its number, and beneath it a mark under every column of the words
 * meant. Tabs are expanded and wide characters counted as two columns, so that the marks stand right under the words.
 */
export function frame(place: Place): string[] {
  const { text } = place.file;
  const index = new LineIndex(text);
  const first = index.position(place.start).line;
  // A range that ends with a line break ends on the line before it.
  const last = index.position(place.end > place.start ? place.end - 1 : place.end).line;
  const lines = Array.from({ length: last - first + 1 }, (_, step) => first + step);
  const shown = lines.length <= MOST_LINES ? lines : [first, first + 1, last];
  const gutter = String(last).length;
  return shown.flatMap((line, at) => {
    const { start, end } = index.range(line);
    const source = text.slice(start, end).replace(/^\uFEFF/, '');
    const shift = end - start - source.length;
    const from = Math.max(place.start - start - shift, 0);
    const to = Math.min(place.end - start - shift, source.length);
    const leading = line === first ? from : Math.max(from, source.length - source.trimStart().length);
    const left = expand(source.slice(0, leading));
    const width = expand(source.slice(0, Math.max(to, leading))).width - left.width;
    const skipped = at > 0 && line - (shown[at - 1] ?? line) > 1 ? [`${' '.repeat(gutter)} :`] : [];
    const number = String(line).padStart(gutter);
    if (source.trim() === '' && place.end > place.start) return [...skipped, `${number} |`];
    return [
      ...skipped,
      `${number} | ${expand(source).text}`,
      `${' '.repeat(gutter)} | ${' '.repeat(left.width)}${'~'.repeat(Math.max(1, width))}`,
    ];
  });
}

/** A text with its tabs expanded, and the columns that it takes on screen. */
function expand(source: string): { text: string; width: number } {
  let text = '';
  let width = 0;
  for (const part of source.split(/(\t)/)) {
    const piece = part === '\t' ? ' '.repeat(TAB - (width % TAB)) : part;
    text += piece;
    width += stringWidth(piece);
  }
  return { text, width };
}
