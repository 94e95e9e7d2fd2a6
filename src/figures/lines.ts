/** Lines with rounded corners and words in lines, as every drawing has them. */
import type { Point } from './flow-layout.ts';
import { escapeXml, number } from './markup.ts';
import { type Block, LINE_HEIGHT, textWidth } from './text.ts';

/** From the top of a line of text to its baseline. */
const BASELINE = 14;
const CORNER = 6;

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

function length(a: Point, b: Point): number {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
}

/** The point `distance` away from `from` on the level or plumb line to `to`. */
function towards(from: Point, to: Point, distance: number): Point {
  return { x: from.x + Math.sign(to.x - from.x) * distance, y: from.y + Math.sign(to.y - from.y) * distance };
}

/** One text element, centred line by line. Lines keep the space between them, so that the words read and copy right. */
export function textLines({ lines, weight, width }: Block, corner: Point, names: string): string {
  const centre = corner.x + width / 2;
  const spans = lines.map((words, i) => {
    const last = i === lines.length - 1;
    // The space at the end counts in the centring.
    const x = last ? centre : centre + textWidth(' ', weight) / 2;
    const y = corner.y + i * LINE_HEIGHT + BASELINE;
    return `<tspan x="${number(x)}" y="${number(y)}">${escapeXml(words)}${last ? '' : ' '}</tspan>`;
  });
  return `<text class="${names}">${spans.join('')}</text>`;
}
