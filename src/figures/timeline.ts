/**
 * A timeline as SVG: a row for each thing shown, time to the right. Every time at which something happens has a tick; the
 * stretches between are as long as their words need, so that lengths are not to scale.
 */
import type { TimelineView } from '../book/index.ts';
import { GLYPH_SIZE, glyphShapes } from './glyph.ts';
import { escapeXml, number } from './markup.ts';
import { textWidth } from './text.ts';

type Span = TimelineView['rows'][number]['spans'][number];

const MARGIN = 6;
const TITLE = 22;
const BAND = 28;
const ROW = TITLE + BAND + 10;
const AXIS = 30;
/** Between two ticks' words; around the words in a band. */
const TICK_GAP = 10;
const PADDING = 5;
const GLYPH_GAP = 2;
/** Stretches grow until the drawing is as wide as this, if their words leave room. */
const LEAST_WIDTH = 356;

/** Text of 14 units; what is too wide for its place should scroll. Colours come from `src/styles/figures.css`. */
export function timelineSvg(timeline: TimelineView): string {
  const x = tickPlaces(timeline);
  const id = escapeXml(timeline.id);
  const [right] = x.slice(-1) as [number];
  const bottom = MARGIN + timeline.rows.length * ROW;
  const lastTick = textWidth(timeline.times.at(-1) ?? '', 400) / 2;
  const titles = timeline.rows.map(({ title }) => MARGIN + textWidth(title.title, 650));
  const [width, height] = [number(Math.max(right + Math.max(lastTick, 2) + MARGIN, ...titles)), number(bottom + AXIS)];
  return [
    `<svg class="flow-drawing" role="img" aria-labelledby="${id}-drawing-title" aria-describedby="${id}-drawing-text"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title id="${id}-drawing-title">${escapeXml(timeline.title)}</title>`,
    `<desc id="${id}-drawing-text">${timeline.rows.length} rows over the time from ${escapeXml(timeline.times[0] ?? '')} to ${escapeXml(timeline.times.at(-1) ?? '')}, not to scale. The table of steps says the same.</desc>`,
    `<defs><pattern id="${id}-lit" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="flow-line" d="M0 0V6"/></pattern></defs>`,
    ...x.map((at, index) => tick(at, timeline.times[index] ?? '', bottom)),
    ...timeline.rows.flatMap(({ title, spans }, row) => {
      const top = MARGIN + row * ROW;
      const words = `<text class="timeline-title strong" x="${MARGIN}" y="${top + 15}">${escapeXml(title.title)}</text>`;
      return [words, ...spans.map((span) => band(span, x, top + TITLE, `${id}-lit`))];
    }),
    '</svg>',
  ].join('');
}

/** Where each time stands: far enough apart for the ticks' words and for those in the bands. */
function tickPlaces({ times, rows }: TimelineView): number[] {
  const half = (index: number): number => textWidth(times[index] ?? '', 400) / 2;
  const lengths = times.slice(1).map((_, index) => half(index) + half(index + 1) + TICK_GAP);
  const between = (from: number, to: number): number => lengths.slice(from, to).reduce((sum, each) => sum + each, 0);
  const spans = rows.flatMap((row) => row.spans).toSorted((a, b) => a.to - a.from - (b.to - b.from));
  for (const span of spans) {
    const short = needed(span) - between(span.from, span.to);
    if (short <= 0) continue;
    for (let at = span.from; at < span.to; at += 1) lengths[at] = (lengths[at] ?? 0) + short / (span.to - span.from);
  }
  const start = MARGIN + half(0);
  const whole = between(0, lengths.length);
  const stretch = whole === 0 ? 1 : Math.max(1, (LEAST_WIDTH - start - half(times.length - 1) - MARGIN) / whole);
  let x = start;
  return [x, ...lengths.map((length) => (x += length * stretch))];
}

function hasGlyph({ state }: Span): boolean {
  return glyphShapes(state.glyph) !== '';
}

/** The width of the glyph and words of a span, with the space around them. */
function needed(span: Span): number {
  return textWidth(span.state.text, 400) + (hasGlyph(span) ? GLYPH_SIZE + GLYPH_GAP : 0) + 2 * PADDING + 4;
}

function tick(x: number, time: string, bottom: number): string {
  return [
    `<path class="timeline-tick" d="M${number(x)} ${MARGIN + TITLE - 4}V${number(bottom)}"/>`,
    `<text class="flow-label" x="${number(x)}" y="${number(bottom + 16)}">${escapeXml(time)}</text>`,
  ].join('');
}

/** Lit and flashing are hatched, dark is a low line, anything else an outlined band; all have their words. */
function band(span: Span, x: readonly number[], top: number, pattern: string): string {
  const [from, to] = [x[span.from] ?? 0, x[span.to] ?? 0];
  const [left, width] = [from + 1, to - from - 2];
  const { glyph, text } = span.state;
  const words = needed(span) - 2 * PADDING - 4;
  const start = left + (width - words) / 2;
  const shapes = glyphShapes(glyph);
  const behind = `<rect class="flow-behind" x="${number(start - 3)}" y="${number(top + 3)}" width="${number(words + 6)}" height="${BAND - 6}"/>`;
  const hatched = glyph === 'lit' || glyph === 'flashing';
  const shape =
    glyph === 'dark'
      ? `<path class="timeline-low" d="M${number(left)} ${top + BAND - 1}h${number(width)}"/>`
      : `<rect class="timeline-band" x="${number(left)}" y="${top}" width="${number(width)}" height="${BAND}"/>`;
  const hatch = hatched
    ? `<rect x="${number(left)}" y="${top}" width="${number(width)}" height="${BAND}" fill="url(#${pattern})"/>`
    : '';
  const drawn =
    shapes === ''
      ? ''
      : `<g class="glyph ${glyph}" transform="translate(${number(start)} ${top + (BAND - GLYPH_SIZE) / 2})">${shapes}</g>`;
  const textAt = start + (shapes === '' ? 0 : GLYPH_SIZE + GLYPH_GAP);
  return `${hatch}${shape}${behind}${drawn}<text class="timeline-title" x="${number(textAt)}" y="${top + 19}">${escapeXml(text)}</text>`;
}
