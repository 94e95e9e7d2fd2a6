import { describe, expect, it } from 'vitest';
import { sheetCss } from '../../src/styles/sheet.ts';
import { sampleBook } from './sample-book.ts';

const css = (change: Partial<typeof sampleBook.frame>) => sheetCss({ ...sampleBook.frame, ...change });

describe('the style of printed sheets', () => {
  it.each(['A4', 'A5', 'Letter'])('takes the book’s paper: %s', (paper) => {
    expect(css({ paper })).toMatch(new RegExp(`^@page \\{\\s+size: ${paper};`));
  });

  it('puts every caution and the revision in the margin', () => {
    for (const words of [...sampleBook.frame.cautions, 'Revision 7 · as of 2026-10-01'])
      expect(css({})).toContain(words);
  });

  it('keeps an author’s quotes, backslashes and line ends inside their string (CSS Syntax Level 3, section 4.3.5)', () => {
    const text = css({ cautions: ['Say "no"; }\\ body { display: none }\nnext'] });
    expect(text).toContain(String.raw`content: "Say \"no\"; }\\ body { display: none } next";`);
  });
});
