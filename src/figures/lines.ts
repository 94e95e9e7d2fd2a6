/** Lines with rounded corners and words in lines, as every drawing has them. */
import type { Point } from './geometry.ts';
import { escapeXml, number } from './markup.ts';
import { type Block, LINE_HEIGHT, textWidth } from './text.ts';

/** From the top of a line of text to its baseline. */
const BASELINE = 14;
const CORNER = 6;
/** How long and how wide an arrowhead is. */
const ARROW = 7;

/** A path through the points, with rounded corners, smaller where there is no room. */
export function roundedPath(points: readonly Point[]): string {
  const at = ({ x, y }: Point): string => `${number(x)} ${number(y)}`;
  const parts = points.map((point, i) => {
    const [before, after] = [points[i - 1], points[i + 1]];
    if (before === undefined) return `M${at(point)}`;
    if (after === undefined) return `L${at(point)}`;
    const radius = Math.min(CORNER, length(before, point) / 2, length(point, after) / 2);
    return `L${at(towards(point, before, radius))}Q${at(point)} ${at(towards(point, after, radius))}`;
  });
  return parts.join('');
}

/** The head of a line that comes down, from the left or from the right. */
export function arrow(points: readonly Point[]): string {
  const [before, tip] = points.slice(-2);
  if (!before || !tip) return '';
  const half = ARROW / 2;
  const { x, y } = tip;
  if (before.x === x)
    return `<path class="flow-arrow" d="M${number(x - half)} ${number(y - ARROW)}h${ARROW}L${number(x)} ${number(y)}z"/>`;
  const back = before.x < x ? x - ARROW : x + ARROW;
  return `<path class="flow-arrow" d="M${number(back)} ${number(y - half)}v${ARROW}L${number(x)} ${number(y)}z"/>`;
}

function length(a: Point, b: Point): number {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
}

/** The point `distance` away from `from` on the level or plumb line to `to`. */
function towards(from: Point, to: Point, distance: number): Point {
  return { x: from.x + Math.sign(to.x - from.x) * distance, y: from.y + Math.sign(to.y - from.y) * distance };
}

/**
 * One text element, centred line by line unless lines are to start `flush` at the left. Lines keep the space between them,
 * so that the words read and copy right.
 */
export function textLines({ lines, weight, width }: Block, corner: Point, names: string, flush = false): string {
  const centre = corner.x + width / 2;
  const spans = lines.map((words, i) => {
    const last = i === lines.length - 1;
    // The space at the end counts in the centring.
    const middle = last ? centre : centre + textWidth(' ', weight) / 2;
    const y = corner.y + i * LINE_HEIGHT + BASELINE;
    return `<tspan x="${number(flush ? corner.x : middle)}" y="${number(y)}">${escapeXml(words)}${last ? '' : ' '}</tspan>`;
  });
  return `<text class="${names}">${spans.join('')}</text>`;
}
