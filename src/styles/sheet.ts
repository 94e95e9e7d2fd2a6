/** Style text for printed sheets that depends on the book: the paper and what stands in the margins. */
import type { Frame } from '../book/index.ts';

/** Half a sheet needs narrower margins. */
const MARGINS: Readonly<Record<string, string>> = { A5: '10mm 10mm 18mm' };

/**
 * The `@page` rule for `frame`. Chromium draws margin boxes on every sheet; every browser prints the caution and the
 * revision in the page's own footer too.
 */
export function sheetCss(frame: Frame): string {
  const caution = quote(frame.cautions.join(' '));
  const edition = `${quote(`${frame.operator} · ${frame.type}`)} '\\A' ${quote(`Revision ${frame.revision} · as of ${frame.date} · `)}`;
  return `@page {
  size: ${frame.paper};
  margin: ${MARGINS[frame.paper] ?? '15mm 15mm 24mm'};
  @bottom-left {
    content: ${caution};
    width: 68%;
    padding-top: 3mm;
    vertical-align: top;
    text-align: left;
    font: 7pt/1.3 'Atkinson Hyperlegible Next Variable', sans-serif;
    color: #000;
  }
  @bottom-right {
    content: ${edition} counter(page) '/' counter(pages);
    width: 31%;
    padding-top: 3mm;
    vertical-align: top;
    text-align: right;
    white-space: pre-line;
    font: 7pt/1.3 'Atkinson Hyperlegible Next Variable', sans-serif;
    color: #000;
  }
}
`;
}

/** A CSS string: quotes, backslashes and line ends escaped as CSS Syntax Level 3, section 4.3.5, asks. */
function quote(words: string): string {
  const escaped = words.replace(/["\\<]/g, (sign) => `\\${sign}`).replace(/[\n\r\f]/g, ' ');
  return `"${escaped}"`;
}
