/**
 * A book on paper: title and contents, then its chapters in stretches, each of which the browser prints by itself. The pages of the
 * book are put into the skeletons by assemble.ts.
 */
import type { Frame } from '../../book/index.ts';
import type { Chapter } from './chapters.ts';
import { frontCss, stretchCss } from './document-css.ts';

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

/** Pages of one chapter that are printed together, on sheets of their own. */
export interface Stretch {
  readonly chapter: number;
  /** Whether the chapter begins with it. */
  readonly begins: boolean;
  readonly parts: readonly Part[];
}

export function partsOf({ chapters }: PrintDocument): Part[] {
  return chapters
    .flatMap(({ pages }, chapter) => pages.map(({ address, title }) => ({ address, title, chapter })))
    .map((part, at) => ({ id: `p${at + 1}`, ...part }));
}

/** Chapters, the large ones cut: `sizeOf` a page, of which `most` are printed together unless a single page has more. */
export function stretchesOf(document: PrintDocument, sizeOf: (part: Part) => number, most: number): Stretch[] {
  const found: Stretch[] = [];
  let size = 0;
  for (const part of partsOf(document)) {
    const last = found.at(-1);
    const own = sizeOf(part);
    if (last?.chapter === part.chapter && size + own <= most) {
      found[found.length - 1] = { ...last, parts: [...last.parts, part] };
      size += own;
    } else {
      found.push({ chapter: part.chapter, begins: last?.chapter !== part.chapter, parts: [part] });
      size = own;
    }
  }
  return found;
}

/** The id of a chapter's heading. */
export function chapterId(chapter: number): string {
  return `c${chapter + 1}`;
}

/** What stands on which page, as far as it is known, and how many pages there are. */
export interface Numbers {
  readonly of: ReadonlyMap<string, number>;
  readonly pages: number;
}

/** Title and contents. `styles` are addresses of the book's own. `href` leads to an id of another part. */
export function front(
  document: PrintDocument,
  styles: readonly string[],
  { of, pages }: Numbers,
  href: (id: string) => string,
): string {
  const { title, subtitle, frame, chapters } = document;
  const parts = partsOf(document);
  const entry = (id: string, name: string, kind: string): string =>
    `<li class="${kind}"><a href="${href(id)}"><span class="name">${escapeHtml(name)}</span><span class="dots"></span><span class="page">${of.get(id) ?? ''}</span></a></li>`;
  const contents = chapters
    .map((chapter, at) => {
      // A page that bears the name of its chapter begins it, and needs no line of its own.
      const below = parts.filter((part) => part.chapter === at && part.title !== chapter.title);
      return (
        entry(chapterId(at), chapter.title, 'chapter') +
        below.map((part) => entry(part.id, part.title, 'part')).join('')
      );
    })
    .join('');
  return html(
    document,
    styles,
    frontCss(title, frame),
    `<header class="front">
<p class="operator">${escapeHtml(frame.operator)} · ${escapeHtml(frame.type)}</p>
<p class="front-title">${escapeHtml(title)}</p>
${subtitle === '' ? '' : `<p class="subtitle">${escapeHtml(subtitle)}</p>`}
<p class="edition">Revision ${escapeHtml(frame.revision)} · as of ${escapeHtml(frame.date)} · ${pages} pages</p>
${frame.cautions.map((caution) => `<p class="caution-line">${escapeHtml(caution)}</p>`).join('\n')}
</header>
<nav class="printed-contents"><h1 id="contents">Contents</h1><ol>${contents}</ol></nav>`,
  );
}

/** A stretch without its pages: the chapter's title, an empty place for each page. `first`: the number of its first page. */
export function skeleton(document: PrintDocument, stretch: Stretch, styles: readonly string[], first: number): string {
  const title = document.chapters[stretch.chapter]?.title ?? '';
  const places = stretch.parts.map(({ id }) => `<main id="${id}"></main>`).join('');
  const head = stretch.begins
    ? `<h1 class="chapter-title" id="${chapterId(stretch.chapter)}">${escapeHtml(title)}</h1>`
    : '';
  const css = stretchCss({ title: document.title, chapter: title, frame: document.frame, first });
  return html(document, styles, css, `<section class="chapter-of-book">${head}${places}</section>`);
}

function html({ title, frame }: PrintDocument, styles: readonly string[], css: string, body: string): string {
  return `<!doctype html>
<html lang="${escapeHtml(frame.language)}" data-theme="day">
<head>
<meta charset="utf-8">
<title>${escapeHtml(title)}</title>
${styles.map((style) => `<link rel="stylesheet" href="${escapeHtml(style)}">`).join('\n')}
<style>${css}</style>
</head>
<body class="print-document">
${body}
</body>
</html>
`;
}

function escapeHtml(words: string): string {
  return words.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
