/**
 * A timeline as SVG: a row for each thing shown, time to the right. Every time at which something happens has a tick; the
 * stretches between are as long as their words need, so that lengths are not to scale. Where the whole is too wide for its
 * place it goes on in a further strip below, which starts with the tick that the one before ends with.
 */
import type { TimelineView } from '../book/index.ts';
import { GLYPH_SIZE, glyphClasses, glyphShapes } from './glyph.ts';
import { escapeXml, number } from './markup.ts';
import { GLYPH_GAP, MARGIN, type Stretch, type Strip, timelineStrips, wordsWidth } from './timeline-strips.ts';
import { type Drawings, WIDTHS } from './widths.ts';

const TITLE = 22;
const BAND = 28;
const ROW = TITLE + BAND + 10;
const AXIS = 30;
/** Between two strips. */
const STRIP_GAP = 18;

/**
 * The drawings of a timeline, of text of 14 units, at most as wide as their places as far as words allow. Colours come
 * from `src/styles/figures.css`, which also shows one of the two.
 */
export function timelineDrawings(timeline: TimelineView): Drawings {
  const strips = (limit: number): Strip[] => timelineStrips(timeline, limit, WIDTHS.narrow);
  const [broad, narrow] = [strips(WIDTHS.broad), strips(WIDTHS.narrow)];
  if (widest(broad) <= widest(narrow)) return { broad: svg(timeline, broad, timeline.id, '') };
  return {
    broad: svg(timeline, broad, timeline.id, ' broad'),
    narrow: svg(timeline, narrow, `${timeline.id}-narrow`, ' narrow'),
  };
}

function widest(strips: readonly Strip[]): number {
  return Math.max(...strips.map(({ width }) => width));
}

function svg({ title, times, rows }: TimelineView, strips: readonly Strip[], plainId: string, variant: string): string {
  const id = escapeXml(plainId);
  const tall = 2 * MARGIN + rows.length * ROW + AXIS - MARGIN;
  const [width, height] = [number(widest(strips)), number(strips.length * (tall + STRIP_GAP) - STRIP_GAP)];
  const [first = '', last = ''] = [times[0], times.at(-1)].map((time) => escapeXml(time ?? ''));
  return [
    `<svg class="flow-drawing${variant}" role="img" aria-labelledby="${id}-drawing-title" aria-describedby="${id}-drawing-text"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title id="${id}-drawing-title">${escapeXml(title)}</title>`,
    `<desc id="${id}-drawing-text">${rows.length} rows over the time from ${first} to ${last}, not to scale. The table of steps says the same.</desc>`,
    `<defs><pattern id="${id}-lit" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="flow-line" d="M0 0V6"/></pattern></defs>`,
    ...strips.map((strip, at) => stripShapes(strip, at * (tall + STRIP_GAP), `${id}-lit`)),
    '</svg>',
  ].join('');
}

function stripShapes({ times, rows, x }: Strip, y: number, pattern: string): string {
  const bottom = y + MARGIN + rows.length * ROW;
  const bands = rows.map((_, row) => y + MARGIN + row * ROW + TITLE);
  return [
    ...x.map((at, index) => tick(at, times[index] ?? '', bands, bottom)),
    ...rows.flatMap(({ title, stretches }, row) => {
      const top = y + MARGIN + row * ROW;
      const words = `<text class="timeline-title strong" x="${MARGIN}" y="${top + 15}">${escapeXml(title)}</text>`;
      return [words, ...stretches.map((stretch) => band(stretch, x, top + TITLE, pattern))];
    }),
  ].join('');
}

/** A line over the bands, which leaves out the titles, and the time under them. */
function tick(x: number, time: string, bands: readonly number[], bottom: number): string {
  const lines = bands.map((top) => `M${number(x)} ${top - 2}v${BAND + 4}`).join('');
  return [
    `<path class="timeline-tick" d="${lines}M${number(x)} ${bottom - 6}v6"/>`,
    `<text class="flow-label" x="${number(x)}" y="${number(bottom + 16)}">${escapeXml(time)}</text>`,
  ].join('');
}

/**
 * Lit and flashing are hatched, dark is a low line, anything else an outlined band; all have their words. The side where a
 * stretch goes on in another strip is open.
 */
function band(stretch: Stretch, x: readonly number[], top: number, pattern: string): string {
  const [from, to] = [x[stretch.from] ?? 0, x[stretch.to] ?? 0];
  const [left, width] = [from + 1, to - from - 2];
  const { glyph, text, colour } = stretch.state;
  const words = wordsWidth(stretch);
  const start = left + (width - words) / 2;
  const shapes = glyphShapes(glyph);
  const behind = `<rect class="flow-behind" x="${number(start - 3)}" y="${number(top + 3)}" width="${number(words + 6)}" height="${BAND - 6}"/>`;
  const hatched = glyph === 'lit' || glyph === 'flashing';
  const shape =
    glyph === 'dark'
      ? `<path class="timeline-low" d="M${number(left)} ${top + BAND - 1}h${number(width)}"/>`
      : `<path class="timeline-band" d="${outline(stretch, left, top, width)}"/>`;
  const hatch = hatched
    ? `<rect x="${number(left)}" y="${top}" width="${number(width)}" height="${BAND}" fill="url(#${pattern})"/>`
    : '';
  const drawn =
    shapes === ''
      ? ''
      : `<g class="${glyphClasses(glyph, colour)}" transform="translate(${number(start)} ${top + (BAND - GLYPH_SIZE) / 2})">${shapes}</g>`;
  const textAt = start + (shapes === '' ? 0 : GLYPH_SIZE + GLYPH_GAP);
  return `${hatch}${shape}${behind}${drawn}<text class="timeline-title" x="${number(textAt)}" y="${top + 19}">${escapeXml(text)}</text>`;
}

function outline({ starts, ends }: Stretch, x: number, y: number, width: number): string {
  const [left, right, bottom] = [number(x), number(x + width), y + BAND];
  if (starts && ends) return `M${left} ${y}H${right}V${bottom}H${left}z`;
  if (starts) return `M${right} ${y}H${left}V${bottom}H${right}`;
  if (ends) return `M${left} ${y}H${right}V${bottom}H${left}`;
  return `M${left} ${y}H${right}M${left} ${bottom}H${right}`;
}
