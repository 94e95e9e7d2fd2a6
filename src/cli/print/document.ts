/** One document out of many pages: its frame, its style, and which page stands where. The pages are put in by assemble.ts. */
import type { Frame } from '../../book/index.ts';
import type { Chapter } from './chapters.ts';

export interface PrintDocument {
  readonly title: string;
  /** Under the title: "QQ-OAC, serial 40115". */
  readonly subtitle: string;
  readonly frame: Frame;
  readonly chapters: readonly Chapter[];
}

/** A page of the book in the document. */
export interface Part {
  /** The id that links lead to; anchors of the page stand behind it: "p12-normal". */
  readonly id: string;
  readonly address: string;
  readonly title: string;
  /** Of its chapter. */
  readonly chapter: number;
}

export function partsOf({ chapters }: PrintDocument): Part[] {
  return chapters
    .flatMap(({ pages }, chapter) => pages.map(({ address, title }) => ({ address, title, chapter })))
    .map((part, at) => ({ id: `p${at + 1}`, ...part }));
}

/** The id of a chapter's heading. */
export function chapterId(chapter: number): string {
  return `c${chapter + 1}`;
}

/** The document without its pages: title, contents, an empty place for each page. `styles` are addresses of the book's own. */
export function skeleton(document: PrintDocument, styles: readonly string[], css: string): string {
  const { title, subtitle, frame, chapters } = document;
  const parts = partsOf(document);
  const entry = (id: string, name: string, kind: string): string =>
    `<li class="${kind}"><a href="#${id}"><span class="name">${escapeHtml(name)}</span><span class="dots"></span><span class="page" data-page-of="${id}"></span></a></li>`;
  const contents = chapters
    .map((chapter, at) => {
      const own = parts.filter((part) => part.chapter === at);
      // A chapter of one page that bears its name needs one line.
      const below = own.length === 1 && own[0]?.title === chapter.title ? [] : own;
      return (
        entry(chapterId(at), chapter.title, 'chapter') +
        below.map((part) => entry(part.id, part.title, 'part')).join('')
      );
    })
    .join('');
  const bodies = chapters
    .map((chapter, at) => {
      const places = parts
        .filter((part) => part.chapter === at)
        .map((part) => `<main id="${part.id}"></main>`)
        .join('');
      return `<section class="chapter-of-book ${chapterId(at)}"><h1 class="chapter-title" id="${chapterId(at)}">${escapeHtml(chapter.title)}</h1>${places}</section>`;
    })
    .join('');
  return `<!doctype html>
<html lang="${escapeHtml(frame.language)}" data-theme="day">
<head>
<meta charset="utf-8">
<title>${escapeHtml(title)}</title>
${styles.map((style) => `<link rel="stylesheet" href="${escapeHtml(style)}">`).join('\n')}
<style>${css}</style>
</head>
<body class="print-document">
<header class="front">
<p class="operator">${escapeHtml(frame.operator)} · ${escapeHtml(frame.type)}</p>
<p class="front-title">${escapeHtml(title)}</p>
${subtitle === '' ? '' : `<p class="subtitle">${escapeHtml(subtitle)}</p>`}
<p class="edition">Revision ${escapeHtml(frame.revision)} · as of ${escapeHtml(frame.date)}</p>
${frame.cautions.map((caution) => `<p class="caution-line">${escapeHtml(caution)}</p>`).join('\n')}
</header>
<nav class="printed-contents"><h1 id="contents">Contents</h1><ol>${contents}</ol></nav>
${bodies}
</body>
</html>
`;
}

/** What a book needs beside the style of its pages: a running head for each chapter, the front, the contents. */
export function documentCss({ title, chapters, frame }: PrintDocument): string {
  const heads = chapters.map(
    (chapter, at) =>
      `.${chapterId(at)} { page: ${chapterId(at)}; }\n@page ${chapterId(at)} { ${running('left', chapter.title)} ${running('right', title)} }`,
  );
  return `
@page { margin-top: 20mm; }
html { font-size: 8.4pt; }
.chapter-of-book svg:not(.glyph) { max-width: 100%; height: auto; }
@page front { @bottom-left { content: none; } @bottom-right { content: none; } }
@page contents { ${running('left', 'Contents')} ${running('right', title)} }
${heads.join('\n')}
.front { page: front; padding-top: 45mm; }
.front .front-title { margin: 4mm 0 0; font-size: 30pt; font-weight: 700; line-height: 1.1; }
.front .subtitle { margin-top: 3mm; font-size: 15pt; }
.front .edition { margin: 3mm 0 30mm; font-size: 12pt; }
.front .caution-line { max-width: 120mm; margin-top: 2mm; font-size: 10pt; }
.printed-contents { page: contents; }
.printed-contents h1 { margin-bottom: 5mm; font-size: 18pt; }
.printed-contents ol { margin: 0; padding: 0; list-style: none; columns: ${frame.paper === 'A5' ? 1 : 2}; column-gap: 9mm; font-size: 8.5pt; }
.printed-contents li { break-inside: avoid; }
.printed-contents a { display: flex; gap: 1mm; color: #000; text-decoration: none; }
.printed-contents .name { flex: none; max-width: 88%; }
.printed-contents .dots { flex: 1; align-self: end; height: 1.1em; border-bottom: 0.5pt dotted #777; margin-bottom: 0.25em; }
.printed-contents .page { flex: none; width: 7mm; text-align: right; }
.printed-contents .chapter { margin-top: 2.5mm; font-weight: 700; break-after: avoid; }
.printed-contents .part { padding-left: 4mm; }
.chapter-title { margin: 0; padding-bottom: 2mm; border-bottom: 2pt solid #000; font-size: 20pt; break-after: avoid; }
.chapter-of-book > main { margin-top: 7mm; padding-top: 0; }
.chapter-of-book > main + main { border-top: 0.75pt solid #000; padding-top: 4mm; }
.chapter-of-book h1:not(.chapter-title) { font-size: 15pt; }
`;
}

function running(side: 'left' | 'right', words: string): string {
  return `@top-${side} { content: ${cssString(words)}; padding-bottom: 3mm; vertical-align: bottom; text-align: ${side}; font: 7.5pt/1.3 'Atkinson Hyperlegible Next Variable', sans-serif; color: #000; }`;
}

/** See CSS Syntax Level 3, section 4.3.5; the sign that would end the style element is escaped too. */
function cssString(words: string): string {
  return `"${words.replace(/["\\<]/g, (sign) => `\\${sign === '<' ? '3c ' : sign}`).replace(/[\n\r\f]/g, ' ')}"`;
}

function escapeHtml(words: string): string {
  return words.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
