/** A flow diagram as SVG: the first question at the top, the states as in the tables, with their glyphs and words. */
import type { FlowView } from '../book/index.ts';
import {
  type Box,
  GLYPH_GAP,
  layoutFlow,
  type PlacedEdge,
  type PlacedVertex,
  type Point,
  QUESTION_POINT,
} from './flow-layout.ts';
import { GLYPH_SIZE, glyphShapes } from './glyph.ts';
import { escapeXml, number } from './markup.ts';
import { type Block, LINE_HEIGHT, textWidth } from './text.ts';

/** From the top of a line of text to its baseline. */
const BASELINE = 14;
const CORNER = 6;
const STATE_CORNER = 15;
const ARROW = { width: 7, height: 7 };

/**
 * The drawing of a flow, as tall and wide as it needs to be for text of 14 units; what is too wide for its place should
 * scroll. Text is measured by the book's typeface. Colours come from `src/styles/figures.css`. Ids are `idPrefix`, the
 * flow's id, and a suffix. Each vertex's and each edge's words stand in one `text` element.
 */
export function flowSvg(flow: FlowView, options: { readonly idPrefix?: string } = {}): string {
  const layout = layoutFlow(flow.vertices, flow.edges);
  const id = escapeXml(`${options.idPrefix ?? ''}${flow.id}`);
  const reached = layout.vertices.filter(({ vertex }) => flow.edges.some(({ to }) => to === vertex.id));
  const [width, height] = [number(layout.width), number(layout.height)];
  return [
    `<svg class="flow-drawing" role="img" aria-labelledby="${id}-drawing-title" aria-describedby="${id}-drawing-text"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title id="${id}-drawing-title">${escapeXml(flow.title)}</title>`,
    `<desc id="${id}-drawing-text">${description(flow)}</desc>`,
    // One path for all lines: where lines have joined, they must not be drawn twice and look heavier.
    `<path class="flow-line" d="${layout.edges.map(({ points }) => roundedPath(points)).join('')}"/>`,
    ...reached.map(({ box }) => arrow(box)),
    ...layout.edges.map(edgeLabel),
    ...layout.vertices.map(vertexShape),
    '</svg>',
  ].join('');
}

function description(flow: FlowView): string {
  const count = (kind: 'question' | 'state', noun: string): string => {
    const sum = flow.vertices.filter((vertex) => vertex.kind === kind).length;
    return `${sum} ${noun}${sum === 1 ? '' : 's'}`;
  };
  return `A flow from top to bottom: ${count('question', 'question')}, ${count('state', 'outcome')}. Each line is labelled with an answer.`;
}

/** A path through the points, with rounded corners, smaller where there is no room. */
function roundedPath(points: readonly Point[]): string {
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

function arrow({ x, y, width }: Box): string {
  const centre = x + width / 2;
  const [left, right, top] = [centre - ARROW.width / 2, centre + ARROW.width / 2, y - ARROW.height];
  return `<path class="flow-arrow" d="M${number(left)} ${number(top)}H${number(right)}L${number(centre)} ${number(y)}z"/>`;
}

function edgeLabel({ label }: PlacedEdge): string {
  if (label === undefined) return '';
  const { box, text } = label;
  const behind = `<rect class="flow-behind" ${place(box)}/>`;
  return behind + textLines(text, { x: box.x + (box.width - text.width) / 2, y: box.y }, 'flow-label');
}

function vertexShape({ vertex, box, text, textBox }: PlacedVertex): string {
  if (vertex.kind === 'question')
    return `<path class="flow-question" d="${hexagon(box)}"/>${textLines(text, textBox, 'flow-label')}`;
  const shape = `<rect class="flow-state" ${place(box)} rx="${STATE_CORNER}"/>`;
  return shape + placedGlyph(vertex.glyph ?? 'none', box, textBox) + textLines(text, textBox, 'flow-label strong');
}

function placedGlyph(kind: Parameters<typeof glyphShapes>[0], box: Box, textBox: Box): string {
  const shapes = glyphShapes(kind);
  if (shapes === '') return '';
  const [x, y] = [textBox.x - GLYPH_SIZE - GLYPH_GAP, box.y + (box.height - GLYPH_SIZE) / 2];
  return `<g class="glyph ${kind}" transform="translate(${number(x)} ${number(y)})">${shapes}</g>`;
}

function hexagon({ x, y, width, height }: Box): string {
  const [left, right, bottom, middle] = [x + QUESTION_POINT, x + width - QUESTION_POINT, y + height, y + height / 2];
  const corners = [
    [left, y],
    [right, y],
    [x + width, middle],
    [right, bottom],
    [left, bottom],
    [x, middle],
  ];
  return `M${corners.map((corner) => corner.map(number).join(' ')).join('L')}z`;
}

function place({ x, y, width, height }: Box): string {
  return `x="${number(x)}" y="${number(y)}" width="${number(width)}" height="${number(height)}"`;
}

/** One text element, centred line by line. Lines keep the space between them, so that the words read and copy right. */
function textLines({ lines, weight, width }: Block, corner: Point, names: string): string {
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
