/** A part of a flow as SVG: the first question at the top, the states as in the tables, with their glyphs and words. */
import type { FlowPart, FlowVertex } from '../book/index.ts';
import {
  type FlowLayout,
  GLYPH_GAP,
  layoutFlow,
  type PlacedEdge,
  type PlacedVertex,
  QUESTION_POINT,
} from './flow-layout.ts';
import type { Box, Point } from './geometry.ts';
import { GLYPH_SIZE, glyphClasses, glyphShapes } from './glyph.ts';
import { arrow, roundedPath, textLines } from './lines.ts';
import { escapeXml, number } from './markup.ts';
import { type Drawings, WIDTHS } from './widths.ts';

const STATE_CORNER = 15;
/** From the side of a part's box to its inner line. */
const PART_BAR = 6;

/**
 * The drawings of a part, each as tall and wide as it needs to be for text of 14 units. Text is measured by the book's
 * typeface. Colours come from `src/styles/figures.css`, which also shows one of the two. Ids are `idPrefix`, the part's
 * id, and a suffix. Each vertex's and each edge's words stand in one `text` element.
 */
export function flowDrawings(part: FlowPart, options: { readonly idPrefix?: string } = {}): Drawings {
  const id = `${options.idPrefix ?? ''}${part.id}`;
  const broad = layoutFlow(part, WIDTHS.broad);
  const narrow = layoutFlow(part, WIDTHS.narrow);
  if (broad.width <= narrow.width) return { broad: svg(part, broad, id, '') };
  return { broad: svg(part, broad, id, ' broad'), narrow: svg(part, narrow, `${id}-narrow`, ' narrow') };
}

function svg(part: FlowPart, layout: FlowLayout, plainId: string, variant: string): string {
  const id = escapeXml(plainId);
  const [width, height] = [number(layout.width), number(layout.height)];
  return [
    `<svg class="flow-drawing${variant}" role="img" aria-labelledby="${id}-title" aria-describedby="${id}-text"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title id="${id}-title">${escapeXml(part.title)}</title>`,
    `<desc id="${id}-text">${description(part)}</desc>`,
    // One path for all lines: where lines have joined, they must not be drawn twice and look heavier.
    `<path class="flow-line" d="${layout.edges.map(({ points }) => roundedPath(points)).join('')}"/>`,
    ...layout.edges.map(({ points }) => arrow(points)),
    ...layout.edges.map(edgeLabel),
    ...layout.vertices.map(vertexShape),
    '</svg>',
  ].join('');
}

function description({ vertices }: FlowPart): string {
  const count = (kind: 'question' | 'state', noun: string): string => {
    const sum = vertices.filter((vertex) => vertex.kind === kind).length;
    return `${sum} ${noun}${sum === 1 ? '' : 's'}`;
  };
  return `A flow from top to bottom: ${count('question', 'question')}, ${count('state', 'outcome')}. Each line is labelled with an answer.`;
}

function edgeLabel({ label }: PlacedEdge): string {
  if (label === undefined) return '';
  const { box, text } = label;
  const behind = `<rect class="flow-behind" ${place(box)}/>`;
  return behind + textLines(text, { x: box.x + (box.width - text.width) / 2, y: box.y }, 'flow-answer', true);
}

function vertexShape({ vertex, box, text, textBox }: PlacedVertex): string {
  const words = (names: string): string => textLines(text, textBox, names);
  if (vertex.kind === 'question') return `<path class="flow-question" d="${hexagon(box)}"/>${words('flow-label')}`;
  if (vertex.kind === 'part') return `<path class="flow-part" d="${doubleSided(box)}"/>${words('flow-label strong')}`;
  const shape = `<rect class="flow-state" ${place(box)} rx="${STATE_CORNER}"/>`;
  return shape + placedGlyph(vertex, box, textBox) + words('flow-label strong');
}

function placedGlyph({ glyph: kind = 'none', colour }: FlowVertex, box: Box, textBox: Box): string {
  const shapes = glyphShapes(kind);
  if (shapes === '') return '';
  const [x, y] = [textBox.x - GLYPH_SIZE - GLYPH_GAP, box.y + (box.height - GLYPH_SIZE) / 2];
  return `<g class="${glyphClasses(kind, colour)}" transform="translate(${number(x)} ${number(y)})">${shapes}</g>`;
}

function hexagon({ x, y, width, height }: Box): string {
  const [left, right, bottom, middle] = [x + QUESTION_POINT, x + width - QUESTION_POINT, y + height, y + height / 2];
  return closed([
    { x: left, y },
    { x: right, y },
    { x: x + width, y: middle },
    { x: right, y: bottom },
    { x: left, y: bottom },
    { x, y: middle },
  ]);
}

/** As ISO 5807:1985, 9.2.2, draws a process that is told elsewhere. */
function doubleSided({ x, y, width, height }: Box): string {
  const [right, bottom] = [x + width, y + height];
  const corners = [
    { x, y },
    { x: right, y },
    { x: right, y: bottom },
    { x, y: bottom },
  ];
  const bar = (at: number): string => `M${number(at)} ${number(y)}v${number(height)}`;
  return closed(corners) + bar(x + PART_BAR) + bar(right - PART_BAR);
}

function closed(corners: readonly Point[]): string {
  return `M${corners.map(({ x, y }) => `${number(x)} ${number(y)}`).join('L')}z`;
}

function place({ x, y, width, height }: Box): string {
  return `x="${number(x)}" y="${number(y)}" width="${number(width)}" height="${number(height)}"`;
}
