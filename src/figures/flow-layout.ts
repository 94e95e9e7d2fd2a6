/**
 * A part of a flow laid out: boxes, lines and labels in drawing units. Pure geometry; `flow.ts` draws it.
 *
 * A question's answers stand under it, one below the other, on a line that comes down from it. An answer leads to a state in
 * the column at the right, or to a further question: beside its answer where there is room, else below it, a step further
 * in. Every answer has rows of its own, so that nothing can cross or overlap.
 */
import type { FlowEdge, FlowPart, FlowVertex } from '../book/index.ts';
import { type Branch, flowTree, type Tree } from './flow-tree.ts';
import type { Box, Point } from './geometry.ts';
import { GLYPH_SIZE } from './glyph.ts';
import { type Block, LINE_HEIGHT, wrap } from './text.ts';

export interface PlacedVertex {
  readonly vertex: FlowVertex;
  readonly box: Box;
  readonly text: Block;
  /** Where the text stands within `box`. */
  readonly textBox: Box;
}
export interface PlacedEdge {
  readonly edge: FlowEdge;
  /** Level and plumb by turns, from the bottom of a question to the left side of what follows, or to its top. */
  readonly points: readonly Point[];
  /** Absent without words. The line runs behind it. */
  readonly label?: { readonly box: Box; readonly text: Block };
}
export interface FlowLayout {
  readonly width: number;
  readonly height: number;
  readonly vertices: readonly PlacedVertex[];
  readonly edges: readonly PlacedEdge[];
}

/** How wide answers and states may get before they break. Of the combinations that fit, the lowest drawing is taken. */
const LABEL_WRAPS = [176, 128, 96, 72];
const STATE_WRAPS = [176, 112, 76];
const QUESTION_WRAP = 150;

export const QUESTION_POINT = 10;
const PADDING = { question: 16, state: 15, glyph: 9, label: 4, above: 6 };
/** Between a state's glyph and its word. */
export const GLYPH_GAP = 3;
const MARGIN = 6;
/** From a question's left point to the line that comes down from it, and from there to the answers and to questions below. */
const TRUNK = 20;
const STUB = 12;
const INDENT = 4;
/** Where a line with its arrow shows: before a state, before a question beside its answer, above one below it. */
const SHOWN = { state: 20, beside: 22, below: 16 };
/** Between rows; before the first answer; after a question with all its answers. */
const GAP = { row: 8, first: 10, after: 14 };

interface Sized {
  readonly width: number;
  readonly height: number;
  readonly text: Block;
}
/** How large everything with words is. */
interface Sizes {
  readonly vertices: ReadonlyMap<FlowVertex, Sized>;
  readonly labels: ReadonlyMap<FlowEdge, Sized>;
}

/** The layout at most `limit` wide with the least height, or the narrowest where the words are too long for that. */
export function layoutFlow({ vertices, edges }: Pick<FlowPart, 'vertices' | 'edges'>, limit: number): FlowLayout {
  const tree = flowTree(vertices, edges);
  const labelled = LABEL_WRAPS.map((most) => new Map(edges.map((edge) => [edge, labelSize(edge, most)])));
  const layouts = STATE_WRAPS.flatMap((most) => {
    const sizes = new Map(vertices.map((vertex) => [vertex, vertexSize(vertex, most)]));
    return labelled.map((labels) => layoutWith(vertices, edges, tree, { vertices: sizes, labels }, limit));
  });
  const fitting = layouts.filter(({ width }) => width <= limit);
  if (fitting.length > 0) return fitting.reduce((a, b) => (b.height < a.height ? b : a));
  return layouts.reduce((a, b) => (b.width < a.width ? b : a));
}

function layoutWith(
  vertices: readonly FlowVertex[],
  edges: readonly FlowEdge[],
  tree: Tree,
  sizes: Sizes,
  limit: number,
): FlowLayout {
  const sizeOf = (vertex: FlowVertex): Sized => sizes.vertices.get(vertex) as Sized;
  const labelOf = (edge: FlowEdge): Sized => sizes.labels.get(edge) as Sized;
  const boxes = new Map<FlowVertex, Box>();
  const labels = new Map<FlowEdge, Box>();
  const lines = new Map<FlowEdge, readonly Point[]>();
  const stateWidth = Math.max(0, ...vertices.filter(isEnd).map((vertex) => sizeOf(vertex).width));
  const room: Room = { answer: limit - 2 * MARGIN - SHOWN.state - stateWidth, question: limit - 2 * MARGIN };

  /** Places a question with its upper left corner at (x, y) and all that follows from it; the answer is where that ends. */
  const place = ({ vertex, branches }: Tree, x: number, y: number): number => {
    boxes.set(vertex, { x, y, ...extent(sizeOf(vertex)) });
    const trunk = { x: x + TRUNK, y: y + sizeOf(vertex).height };
    const left = trunk.x + STUB;
    const beside = left + widestBeforeQuestions(branches, sizes) + SHOWN.beside;
    const stepped = branches.some(({ to }) => !isEnd(to.vertex) && !fits(to, beside, sizes, room));
    let [next, bottom] = [trunk.y + GAP.first, trunk.y];
    for (const { edge, to } of branches) {
      const [label, target] = [labelOf(edge), sizeOf(to.vertex)];
      const below = stepped && !isEnd(to.vertex);
      const height = below ? label.height : Math.max(label.height, target.height);
      const middle = next + height / 2;
      labels.set(edge, { x: left, y: middle - label.height / 2, ...extent(label) });
      const corner = { x: trunk.x, y: middle };
      if (below) {
        const drop = { x: trunk.x + INDENT + TRUNK, y: next + height + SHOWN.below };
        lines.set(edge, [trunk, corner, { x: drop.x, y: middle }, drop]);
        bottom = place(to, drop.x - TRUNK, drop.y);
      } else {
        // A state's place to the right is known when all answers have theirs.
        lines.set(edge, [trunk, corner, { x: beside, y: middle }]);
        bottom = Math.max(next + height, place(to, beside, middle - target.height / 2));
      }
      next = bottom + (isEnd(to.vertex) ? GAP.row : GAP.after);
    }
    return bottom;
  };
  place(tree, 0, 0);

  const before = edges.filter(({ to }) => vertices.some((vertex) => vertex.id === to && isEnd(vertex)));
  const rights = before.map((edge) => labels.get(edge) as Box).map(({ x, width }) => x + width);
  const states = Math.max(0, ...rights) + SHOWN.state;
  return moveToOrigin(
    vertices.map((vertex) => {
      const box = boxes.get(vertex) as Box;
      const atEnd = isEnd(vertex) && before.length > 0;
      return placeVertex(vertex, atEnd ? { ...box, x: states } : box, sizeOf(vertex).text);
    }),
    edges.map((edge) => {
      const line = lines.get(edge) as Point[];
      const points = before.includes(edge) ? line.map((point, i) => (i === 2 ? { ...point, x: states } : point)) : line;
      const { text } = labelOf(edge);
      return { edge, points, ...(text.lines.length > 0 ? { label: { box: labels.get(edge) as Box, text } } : {}) };
    }),
  );
}

/** States, and the names of other parts: where a part of a flow ends. */
function isEnd({ kind }: FlowVertex): boolean {
  return kind !== 'question';
}

/** How far to the right answers before states may reach, and questions. */
interface Room {
  readonly answer: number;
  readonly question: number;
}

/** Whether a question and all that follows from it have room from `x` on, each further question below its answer. */
function fits({ vertex, branches }: Tree, x: number, sizes: Sizes, room: Room): boolean {
  const left = x + TRUNK + STUB;
  return (
    x + (sizes.vertices.get(vertex) as Sized).width <= room.question &&
    branches.every(({ edge, to }) => {
      const right = left + (sizes.labels.get(edge) as Sized).width;
      if (isEnd(to.vertex)) return right <= room.answer;
      return right <= room.question && fits(to, x + TRUNK + INDENT, sizes, room);
    })
  );
}

function widestBeforeQuestions(branches: readonly Branch[], sizes: Sizes): number {
  const asking = branches.filter(({ to }) => !isEnd(to.vertex));
  return Math.max(0, ...asking.map(({ edge }) => (sizes.labels.get(edge) as Sized).width));
}

function extent({ width, height }: Sized): { width: number; height: number } {
  return { width, height };
}

function labelSize(edge: FlowEdge, most: number): Sized {
  const text = wrap(edge.label, 400, most);
  if (text.lines.length === 0) return { width: 0, height: 0, text };
  return { width: text.width + 2 * PADDING.label, height: text.height, text };
}

function vertexSize(vertex: FlowVertex, most: number): Sized {
  const text = isEnd(vertex) ? wrap(vertex.text, 650, most) : wrap(vertex.text, 400, QUESTION_WRAP);
  const { left, right } = sidesOf(vertex);
  return { width: left + text.width + right, height: Math.max(text.height, LINE_HEIGHT) + 2 * PADDING.above, text };
}

/** What a vertex needs beside its text. */
function sidesOf(vertex: FlowVertex): { left: number; right: number } {
  if (!isEnd(vertex)) return { left: PADDING.question, right: PADDING.question };
  const glyph = vertex.glyph !== undefined && vertex.glyph !== 'none';
  return { left: glyph ? PADDING.glyph + GLYPH_SIZE + GLYPH_GAP : PADDING.state, right: PADDING.state };
}

function placeVertex(vertex: FlowVertex, box: Box, text: Block): PlacedVertex {
  const { left, right } = sidesOf(vertex);
  const x = box.x + (box.width - text.width + left - right) / 2;
  return {
    vertex,
    box,
    text,
    textBox: { x, y: box.y + (box.height - text.height) / 2, width: text.width, height: text.height },
  };
}

/** Moves everything so that it starts MARGIN from the upper left corner. */
function moveToOrigin(vertices: readonly PlacedVertex[], edges: readonly PlacedEdge[]): FlowLayout {
  const boxes = [
    ...vertices.map(({ box }) => box),
    ...edges.flatMap(({ label }) => (label === undefined ? [] : [label.box])),
  ];
  const right = Math.max(...boxes.map(({ x, width }) => x + width));
  const bottom = Math.max(...boxes.map(({ y, height }) => y + height));
  const top = Math.min(...boxes.map(({ y }) => y));
  const move = <T extends Point>(point: T): T => ({ ...point, x: point.x + MARGIN, y: point.y - top + MARGIN });
  return {
    width: right + 2 * MARGIN,
    height: bottom - top + 2 * MARGIN,
    vertices: vertices.map((vertex) => ({ ...vertex, box: move(vertex.box), textBox: move(vertex.textBox) })),
    edges: edges.map(({ edge, points, label }) => ({
      edge,
      points: points.map(move),
      ...(label === undefined ? {} : { label: { ...label, box: move(label.box) } }),
    })),
  };
}
