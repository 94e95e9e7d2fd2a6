/** A flow diagram as SVG: the first question at the top, the states as in the tables, with their glyphs and words. */
import type { FlowView } from '../book/index.ts';
import { type Box, GLYPH_GAP, layoutFlow, type PlacedEdge, type PlacedVertex, QUESTION_POINT } from './flow-layout.ts';
import { GLYPH_SIZE, glyphShapes } from './glyph.ts';
import { roundedPath, textLines } from './lines.ts';
import { escapeXml, number } from './markup.ts';

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
