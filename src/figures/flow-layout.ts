/** A flow laid out: boxes, lines and labels in drawing units, from the top down. Pure geometry; `flow.ts` draws it. */
import type { FlowEdge, FlowVertex } from '../book/index.ts';
import { placeColumns } from './flow-columns.ts';
import { buildGrid, type Grid, type GridNode } from './flow-grid.ts';
import { orderRows } from './flow-order.ts';
import { assignTracks, type Channel, type Net } from './flow-tracks.ts';
import { GLYPH_SIZE } from './glyph.ts';
import { type Block, wrap } from './text.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}
/** `x` and `y` are the upper left corner. */
export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}
export interface PlacedVertex {
  readonly vertex: FlowVertex;
  readonly box: Box;
  readonly text: Block;
  /** Where the text stands within `box`. */
  readonly textBox: Box;
}
export interface PlacedEdge {
  readonly edge: FlowEdge;
  /** Level and plumb by turns, from the bottom of a vertex to the top of the next. */
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

/** A drawing as wide as this stands on a phone without scrolling, or on paper at its own size. */
const PLACES = { phone: 356, paper: 660 };
/** How wide questions and labels may get before they break. */
const WRAPPINGS = [
  { question: 150, label: 120 },
  { question: 120, label: 88 },
  { question: 92, label: 64 },
] as const;
type Wrapping = (typeof WRAPPINGS)[number];

export const QUESTION_POINT = 10;
const PADDING = { question: 16, state: 15, glyph: 9, label: 4, above: 6 };
/** Between a state's glyph and its word. */
export const GLYPH_GAP = 3;
/** Clear space between neighbours in a row, by the kinds of both. */
const GAP = { vertex: 20, label: 12, pass: 12 };
const MARGIN = 6;
const TRACK = 9;
/** Above the first track and below the last: under a question the labels follow closely, above a vertex an arrow needs room. */
const CHANNEL = { fork: { above: 9, below: 7, straight: 12 }, join: { above: 8, below: 16, straight: 20 } };

/** The layout of a flow: the one with the fewest broken words that fits a phone, or else paper, or else the narrowest. */
export function layoutFlow(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): FlowLayout {
  const grid = buildGrid(vertices, edges);
  orderRows(grid.rows);
  const layouts: FlowLayout[] = [];
  for (const wrapping of WRAPPINGS) {
    const layout = layoutWith(grid, vertices, edges, wrapping);
    if (layout.width <= PLACES.phone) return layout;
    layouts.push(layout);
  }
  const narrowest = layouts.reduce((a, b) => (b.width < a.width ? b : a));
  return layouts.find(({ width }) => width <= PLACES.paper) ?? narrowest;
}

interface Sized {
  readonly width: number;
  readonly height: number;
  readonly text?: Block;
}

function layoutWith(
  grid: Grid,
  vertices: readonly FlowVertex[],
  edges: readonly FlowEdge[],
  wrapping: Wrapping,
): FlowLayout {
  const sizes = new Map(grid.rows.flat().map((node) => [node, sizeOf(node, wrapping)]));
  const size = (node: GridNode): Sized => sizes.get(node) as Sized;
  const centres = placeColumns(
    grid,
    (left, right) => (size(left).width + size(right).width) / 2 + gapBetween(left, right),
  );
  const x = (node: GridNode): number => centres.get(node) as number;

  const channels = grid.rows.map((row, i) => routeChannel(row, i % 2 === 0, x));
  const tops: number[] = [];
  const bottoms: number[] = [];
  let y = 0;
  grid.rows.forEach((row, i) => {
    tops.push(y);
    y += Math.max(...row.map((node) => size(node).height));
    bottoms.push(y);
    const { channel, space } = channels[i] as Routed;
    if (i + 1 < grid.rows.length)
      y += channel.levels === 0 ? space.straight : space.above + (channel.levels - 1) * TRACK + space.below;
  });

  const boxOf = (node: GridNode): Box => {
    const { width, height } = size(node);
    return { x: x(node) - width / 2, y: tops[node.row] as number, width, height };
  };
  const edgeLines = edges.map((edge, i): PlacedEdge => {
    const route = grid.routes[i] as readonly GridNode[];
    const label = route[1] as GridNode;
    const { text } = size(label);
    const points = linePoints(route, x, boxOf, channels, bottoms);
    return text === undefined ? { edge, points } : { edge, points, label: { box: boxOf(label), text } };
  });
  const nodeOf = new Map<FlowVertex, GridNode>();
  for (const node of grid.rows.flat()) if (node.content.kind === 'vertex') nodeOf.set(node.content.vertex, node);
  return moveToOrigin(
    vertices.map((vertex) => placeVertex(vertex, nodeOf.get(vertex) as GridNode, boxOf, size)),
    edgeLines,
  );
}

function sizeOf({ content }: GridNode, wrapping: Wrapping): Sized {
  if (content.kind === 'pass') return { width: 2, height: 0 };
  if (content.kind === 'label') {
    const text = wrap(content.edge.label, 400, wrapping.label);
    if (text.lines.length === 0) return { width: 2, height: 0 };
    return { width: even(text.width + 2 * PADDING.label), height: text.height, text };
  }
  const { vertex } = content;
  const text = wrap(vertex.text, vertex.kind === 'state' ? 650 : 400, wrapping.question);
  const sides = sidesOf(vertex);
  return {
    width: even(sides.left + text.width + sides.right),
    height: Math.max(text.height, 18) + 2 * PADDING.above,
    text,
  };
}

function even(width: number): number {
  return 2 * Math.ceil(width / 2);
}

/** What a vertex needs beside its text. */
function sidesOf(vertex: FlowVertex): { left: number; right: number } {
  if (vertex.kind === 'question') return { left: PADDING.question, right: PADDING.question };
  const glyph = vertex.glyph !== undefined && vertex.glyph !== 'none';
  return { left: glyph ? PADDING.glyph + GLYPH_SIZE + GLYPH_GAP : PADDING.state, right: PADDING.state };
}

function gapBetween(left: GridNode, right: GridNode): number {
  return Math.min(GAP[left.content.kind], GAP[right.content.kind]);
}

function placeVertex(
  vertex: FlowVertex,
  node: GridNode,
  boxOf: (node: GridNode) => Box,
  size: (node: GridNode) => Sized,
): PlacedVertex {
  const box = boxOf(node);
  const text = size(node).text as Block;
  const { left, right } = sidesOf(vertex);
  const x = box.x + (box.width - text.width + left - right) / 2;
  return {
    vertex,
    box,
    text,
    textBox: { x, y: box.y + (box.height - text.height) / 2, width: text.width, height: text.height },
  };
}

interface Routed {
  readonly channel: Channel;
  readonly space: { readonly above: number; readonly below: number; readonly straight: number };
  /** The number of the net that each link belongs to: by its upper end under vertices, else by its lower end. */
  readonly netOf: ReadonlyMap<GridNode, number>;
  readonly fork: boolean;
}

/** The tracks between a row and the next. Lines that leave one vertex form a net, or else lines that lead to one node. */
function routeChannel(row: readonly GridNode[], fork: boolean, x: (node: GridNode) => number): Routed {
  const nets: Net[] = [];
  const netOf = new Map<GridNode, number>();
  const owners = fork ? row.filter((node) => node.below.length > 0) : [...new Set(row.flatMap((node) => node.below))];
  for (const owner of owners) {
    netOf.set(owner, nets.length);
    nets.push(
      fork ? { tops: [x(owner)], bottoms: owner.below.map(x) } : { tops: owner.above.map(x), bottoms: [x(owner)] },
    );
  }
  return { channel: assignTracks(nets), space: fork ? CHANNEL.fork : CHANNEL.join, netOf, fork };
}

function linePoints(
  route: readonly GridNode[],
  x: (node: GridNode) => number,
  boxOf: (node: GridNode) => Box,
  channels: readonly Routed[],
  bottoms: readonly number[],
): Point[] {
  const [first, last] = [route[0] as GridNode, route.at(-1) as GridNode];
  const points: Point[] = [{ x: x(first), y: boxOf(first).y + boxOf(first).height }];
  for (let i = 0; i + 1 < route.length; i += 1) {
    const [upper, lower] = [route[i] as GridNode, route[i + 1] as GridNode];
    const { channel, space, netOf, fork } = channels[upper.row] as Routed;
    const taken = channel.tracks[netOf.get(fork ? upper : lower) as number];
    if (taken === undefined) continue;
    const level = (track: number): number => (bottoms[upper.row] as number) + space.above + track * TRACK;
    points.push({ x: x(upper), y: level(taken.level) });
    if (taken.change !== undefined) {
      const { x: column, level: then } = taken.change;
      points.push({ x: column, y: level(taken.level) }, { x: column, y: level(then) });
      points.push({ x: x(lower), y: level(then) });
    } else {
      points.push({ x: x(lower), y: level(taken.level) });
    }
  }
  points.push({ x: x(last), y: boxOf(last).y });
  return withoutNeedless(points);
}

/** Leaves out points where the line does not turn. */
function withoutNeedless(points: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const [before, last] = [kept.at(-2), kept.at(-1)];
    if (last !== undefined && last.x === point.x && last.y === point.y) continue;
    const goesOn =
      before !== undefined &&
      last !== undefined &&
      ((before.x === last.x && last.x === point.x) || (before.y === last.y && last.y === point.y));
    if (goesOn) kept.pop();
    kept.push(point);
  }
  return kept;
}

/** Moves everything so that it starts MARGIN from the upper left corner. */
function moveToOrigin(vertices: readonly PlacedVertex[], edges: readonly PlacedEdge[]): FlowLayout {
  const boxes = [
    ...vertices.map(({ box }) => box),
    ...edges.flatMap(({ label }) => (label === undefined ? [] : [label.box])),
  ];
  const points = edges.flatMap((edge) => edge.points);
  const left = Math.min(...boxes.map(({ x }) => x), ...points.map(({ x }) => x));
  const right = Math.max(...boxes.map(({ x, width }) => x + width), ...points.map(({ x }) => x));
  const bottom = Math.max(...boxes.map(({ y, height }) => y + height));
  const move = <T extends Point>(point: T): T => ({ ...point, x: point.x - left + MARGIN, y: point.y + MARGIN });
  return {
    width: right - left + 2 * MARGIN,
    height: bottom + 2 * MARGIN,
    vertices: vertices.map((vertex) => ({ ...vertex, box: move(vertex.box), textBox: move(vertex.textBox) })),
    edges: edges.map(({ edge, points: line, label }) => ({
      edge,
      points: line.map(move),
      ...(label === undefined ? {} : { label: { ...label, box: move(label.box) } }),
    })),
  };
}
