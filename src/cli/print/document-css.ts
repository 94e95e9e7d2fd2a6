/** What a book on paper needs beside the style of its pages: running heads, two columns, no room that nothing stands in. */
import type { Frame } from '../../book/index.ts';

/** Small type in the margins. */
const SMALL = "7pt/1.3 'Atkinson Hyperlegible Next Variable', sans-serif";

/** The smallest at which flows and modes are drawn: their words, 14 px, come out at 7.35 pt. Larger drawings leave more sheets half white. */
const FLOW_ZOOM = 0.7;
/** Words on drawings of the aircraft come out at 7.9 pt. */
const AIRCRAFT_ZOOM = 0.75;

export function frontCss(title: string, frame: Frame): string {
  return `
${pageCss(frame)}
@page front { @bottom-left { content: none; } @bottom-right { content: none; } }
@page contents { ${running('left', 'Contents')} ${running('right', title)} }
.front { page: front; padding-top: 45mm; }
.front .front-title { margin: 4mm 0 0; font-size: 30pt; font-weight: 700; line-height: 1.1; }
.front .subtitle { margin-top: 3mm; font-size: 15pt; }
.front .edition { margin: 3mm 0 30mm; font-size: 12pt; }
.front .caution-line { max-width: 120mm; margin-top: 2mm; font-size: 10pt; }
.printed-contents { page: contents; }
.printed-contents h1 { margin-bottom: 5mm; font-size: 18pt; }
.printed-contents ol { margin: 0; padding: 0; list-style: none; columns: ${columns(frame)}; column-gap: 9mm; font-size: 8.5pt; line-height: 1.4; }
.printed-contents li { break-inside: avoid; }
.printed-contents a { display: flex; gap: 1mm; color: #000; text-decoration: none; }
.printed-contents .name { flex: none; max-width: 88%; }
.printed-contents .dots { flex: 1; align-self: end; height: 1.1em; border-bottom: 0.5pt dotted #777; margin-bottom: 0.25em; }
.printed-contents .page { flex: none; width: 7mm; text-align: right; }
.printed-contents .chapter { margin-top: 2.5mm; font-weight: 700; break-after: avoid; }
.printed-contents .part { padding-left: 4mm; }
`;
}

export interface StretchStyle {
  readonly title: string;
  readonly chapter: string;
  readonly frame: Frame;
  /** The number of its first page. */
  readonly first: number;
}

export function stretchCss({ title, chapter, frame, first }: StretchStyle): string {
  return `
${pageCss(frame)}
@page { ${running('left', chapter)} ${running('right', title)} }
@page :first { counter-set: page ${first}; }
.chapter-title { margin: 0 0 4mm; padding-bottom: 1.5mm; border-bottom: 2pt solid #000; font-size: 20pt; break-after: avoid; }
.chapter-of-book section { margin-top: 0; }
.chapter-of-book > main { margin: 0; padding: 0; }
.chapter-of-book > main + main { border-top: 0.75pt solid #000; margin-top: 5mm; padding-top: 2mm; }
.chapter-of-book > main > .title { padding-bottom: 22mm; margin-bottom: -20mm; break-inside: avoid; }
.chapter-of-book > main > * + .printed-columns { margin-top: 3mm; }
.chapter-of-book > main > .title + * { margin-top: 0; }
.printed-columns { columns: ${columns(frame)}; column-gap: 7mm; column-fill: balance; }
.printed-columns > :first-child { margin-top: 0; }
main > .full { margin-top: 3mm; }
.full table { width: auto; min-width: 60%; }
main.page-terms > .printed-columns { columns: ${columns(frame) + 1}; column-gap: 5mm; }
.page-terms .terms > ul { columns: auto; font-size: inherit; }
.chapter-of-book :is(.detail, .because, .holds, .kicker) { font-size: inherit; }
.page-terms li { padding: 0; break-inside: avoid; }
.page-terms section + section, .page-glossary section + section { margin-top: 2mm; }
.chapter-of-book h1:not(.chapter-title) { font-size: 14pt; }
.chapter-of-book .lead { max-width: none; margin-top: 0.6mm; font-size: 9.5pt; line-height: 1.35; }
.chapter-of-book .kicker { margin-top: 0.4mm; }
.chapter-of-book h2 { font-size: 10.5pt; }
.chapter-of-book :is(h3, h4, h5) { font-size: 9pt; line-height: 1.3; }
.printed-columns > section + section, .printed-columns > * + section { margin-top: 3mm; }
:is(.printed-columns, main) > section > h2 { margin-top: 0; margin-bottom: 1mm; padding-top: 1mm; border-top: 0.5pt solid #000; }
main > .full > h2 { padding-bottom: 20mm; margin-bottom: -19mm; break-inside: avoid; }
.chapter-of-book .listing { list-style: none; }
.chapter-of-book .listing li { padding: 0.2mm 0; }
.chapter-of-book :is(p, li, dd, .wide:has(> .short), .short) { break-inside: avoid; }
.chapter-of-book :is(p, ul, ol, dl, dd, figure, table, pre, .positions, .listing) { max-width: none; }
.chapter-of-book :is(.group, .cue, .told, .controlled, .occasions, .entry, .thing, figure, .part, .place) { margin-top: 2mm; }
.chapter-of-book :is(.group, .cue, .told, .occasions):first-child { margin-top: 0; }
.chapter-of-book .entry { padding: 0; }
.chapter-of-book caption { padding-bottom: 0.5mm; line-height: 1.25; }
.chapter-of-book table { width: 100%; min-width: 0; font-size: 8.4pt; line-height: 1.25; }
.chapter-of-book :is(th, td) { padding: 0.45mm 2mm 0.45mm 0; }
.chapter-of-book thead th { font-size: 8.4pt; line-height: 1.2; }
.chapter-of-book .states :is(th, td):not(.result) { padding-right: 2mm; }
.chapter-of-book .states .result { width: auto; padding-right: 1.5mm; padding-left: 1.5mm; }
.chapter-of-book :is(.states, .facts) + *, .chapter-of-book .wide + .wide { margin-top: 2mm; }
.chapter-of-book .states .state .glyph { margin-top: 0; }
.chapter-of-book .glyph { width: 1.3em; height: 1.3em; }
.chapter-of-book .positions { margin-top: 1mm; border-top: 0; }
.chapter-of-book .positions > div:first-child { border-top: 0.5pt solid var(--rule); }
.chapter-of-book .positions > div { grid-template-columns: minmax(17mm, max-content) minmax(0, 1fr); gap: 2mm; padding: 0.7mm 0; }
.chapter-of-book .positions dd > p + p { margin-top: 0.4mm; }
.chapter-of-book .related { display: block; margin-top: 3mm; padding-top: 1mm; border-top: 0.5pt solid #000; break-inside: auto; }
.chapter-of-book .related > section { margin: 0; padding: 0; break-inside: auto; }
.chapter-of-book .related h2 { display: inline; margin: 0; padding: 0; border: 0; font-size: inherit; }
.full :is(.lit, .stands) { columns: 2; column-gap: 7mm; }
.full.stage + .full.stage { margin-top: 5mm; }
.chapter-of-book .related h2::after { content: ': '; }
.chapter-of-book :is(.related, .sources, .page-condition, .page-conditions, .page-supply, .page-aircraft, .sets-off) .listing { display: inline; margin: 0; padding: 0; columns: auto; }
.chapter-of-book :is(.related, .sources, .page-condition, .page-conditions, .page-supply, .page-aircraft, .sets-off) .listing > li { display: inline; padding: 0; border: 0; }
.chapter-of-book :is(.related, .sources, .page-condition, .page-conditions, .page-supply, .page-aircraft, .sets-off) .listing > li:not(:last-child)::after { content: '; '; }
.chapter-of-book svg:not(.glyph) { max-width: 100%; height: auto; }
.chapter-of-book .stop { break-inside: auto; }
.chapter-of-book .flow-drawing { zoom: ${FLOW_ZOOM}; }
.chapter-of-book .views { margin-top: 1mm; gap: 6mm; }
.chapter-of-book .views svg { zoom: ${AIRCRAFT_ZOOM}; break-inside: avoid; }
.printed-columns .views { display: block; break-inside: auto; }
.full .views { flex-wrap: nowrap; }
.chapter-of-book summary { padding-bottom: 14mm; margin-bottom: -14mm; break-inside: avoid; }
.chapter-of-book .of-page { font-weight: 400; }
`;
}

function columns({ paper }: Frame): number {
  return paper === 'A5' ? 1 : 2;
}

function pageCss({ paper, operator, type, revision, date }: Frame): string {
  const edition = `${cssString(`${operator} · ${type}`)} '\\A' ${cssString(`Revision ${revision} · as of ${date} · page `)}`;
  return `@page {
  margin: ${paper === 'A5' ? '14mm 10mm 17mm' : '16mm 14mm 18mm'};
  @bottom-left { padding-top: 2mm; }
  @bottom-right { content: ${edition} counter(page); padding-top: 2mm; }
}
html { font-size: 8.4pt; line-height: 1.35; }
body { line-height: 1.35; }`;
}

function running(side: 'left' | 'right', words: string): string {
  return `@top-${side} { content: ${cssString(words)}; padding-bottom: 2.5mm; vertical-align: bottom; text-align: ${side}; font: ${SMALL}; color: #000; }`;
}

/** See CSS Syntax Level 3, section 4.3.5; the sign that would end the style element is escaped too. */
function cssString(words: string): string {
  return `"${words.replace(/["\\<]/g, (sign) => `\\${sign === '<' ? '3c ' : sign}`).replace(/[\n\r\f]/g, ' ')}"`;
}
