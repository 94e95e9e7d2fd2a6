import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowView } from '../../src/book/book.ts';
import {
  type Box,
  type FlowLayout,
  layoutFlow,
  type PlacedEdge,
  type PlacedVertex,
  type Point,
  QUESTION_POINT,
} from '../../src/figures/flow-layout.ts';
import { textWidth } from '../../src/figures/text.ts';
import { flows, LOGO_FLOW } from '../helpers/flows.ts';

const layout = (flow: FlowView): FlowLayout => layoutFlow(flow.vertices, flow.edges);
const NUDGE = 1e-6;

/** Runs a check on the layouts of many flows. */
function always(check: (placed: FlowLayout, flow: FlowView) => void): void {
  fc.assert(
    fc.property(flows(), (flow) => check(layout(flow), flow)),
    { numRuns: 120 },
  );
}

function overlap(a: Box, b: Box): boolean {
  return (
    a.x + NUDGE < b.x + b.width &&
    b.x + NUDGE < a.x + a.width &&
    a.y + NUDGE < b.y + b.height &&
    b.y + NUDGE < a.y + a.height
  );
}

function segments(points: readonly Point[]): Box[] {
  return points.slice(1).map((end, i) => {
    const start = points[i] as Point;
    return {
      x: Math.min(start.x, end.x),
      y: Math.min(start.y, end.y),
      width: Math.abs(start.x - end.x),
      height: Math.abs(start.y - end.y),
    };
  });
}

/** Whether a level or plumb segment has a point strictly inside the box. */
function enters(segment: Box, box: Box): boolean {
  return (
    segment.x + NUDGE < box.x + box.width &&
    box.x + NUDGE < segment.x + segment.width + 2 * NUDGE &&
    segment.y + NUDGE < box.y + box.height &&
    box.y + NUDGE < segment.y + segment.height
  );
}

function labelBoxes(placed: FlowLayout): { box: Box; of: PlacedEdge }[] {
  return placed.edges.flatMap((edge) => (edge.label === undefined ? [] : [{ box: edge.label.box, of: edge }]));
}

function contains({ vertex, box }: PlacedVertex, { x, y }: Point): boolean {
  const [dx, dy] = [Math.abs(x - box.x - box.width / 2), Math.abs(y - box.y - box.height / 2)];
  const [halfWidth, halfHeight] = [box.width / 2, box.height / 2];
  if (dx > halfWidth || dy > halfHeight) return false;
  // A hexagon's side runs from the point at half height to the upper corner.
  if (vertex.kind === 'question') return dx <= halfWidth - (QUESTION_POINT * dy) / halfHeight;
  const [cx, cy] = [dx - (halfWidth - 15), dy - (halfHeight - 15)];
  return cx <= 0 || cy <= 0 || Math.hypot(cx, cy) <= 15;
}

describe('A flow laid out', () => {
  test('has no two vertices or labels that overlap', () => {
    always((placed) => {
      const boxes = [...placed.vertices.map(({ box }) => box), ...labelBoxes(placed).map(({ box }) => box)];
      boxes.forEach((box, i) => {
        for (const other of boxes.slice(i + 1)) expect(overlap(box, other)).toBe(false);
      });
    });
  });

  test('has every label inside its shape', () => {
    always((placed) => {
      for (const vertex of placed.vertices) {
        const { textBox, text } = vertex;
        for (const line of text.lines) expect(textWidth(line, text.weight)).toBeLessThanOrEqual(textBox.width + NUDGE);
        expect(text.lines.length * 18).toBeLessThanOrEqual(textBox.height);
        const [left, right, top, bottom] = [
          textBox.x,
          textBox.x + textBox.width,
          textBox.y,
          textBox.y + textBox.height,
        ];
        for (const corner of [
          { x: left, y: top },
          { x: right, y: top },
          { x: left, y: bottom },
          { x: right, y: bottom },
        ]) {
          expect(contains(vertex, corner)).toBe(true);
        }
      }
      for (const { label } of placed.edges) {
        for (const line of label?.text.lines ?? [])
          expect(textWidth(line, 400)).toBeLessThan((label?.box.width ?? 0) - 4);
      }
    });
  });

  test('has no line that runs through a vertex or through another line’s label', () => {
    always((placed) => {
      for (const edge of placed.edges) {
        for (const segment of segments(edge.points)) {
          for (const { box } of placed.vertices) expect(enters(segment, box)).toBe(false);
          for (const { box, of } of labelBoxes(placed)) if (of !== edge) expect(enters(segment, box)).toBe(false);
        }
      }
    });
  });

  test('leads each line down through its own label, from its question to its answer', () => {
    always((placed, flow) => {
      expect(placed.edges.map(({ edge }) => edge)).toEqual(flow.edges);
      const boxOf = new Map(placed.vertices.map(({ vertex, box }) => [vertex.id, box]));
      for (const { edge, points, label } of placed.edges) {
        const [from, to] = [boxOf.get(edge.from) as Box, boxOf.get(edge.to) as Box];
        expect(points[0]).toEqual({ x: from.x + from.width / 2, y: from.y + from.height });
        expect(points.at(-1)).toEqual({ x: to.x + to.width / 2, y: to.y });
        for (const [i, end] of points.slice(1).entries()) {
          const start = points[i] as Point;
          expect(end.y >= start.y && (end.x === start.x || end.y === start.y)).toBe(true);
        }
        if (label === undefined) continue;
        expect(segments(points).some((segment) => segment.width === 0 && enters(segment, label.box))).toBe(true);
      }
    });
  });

  test('has no two lines on one another unless they have an end in common', () => {
    always((placed) => {
      placed.edges.forEach((one, i) => {
        for (const other of placed.edges.slice(i + 1)) {
          if (one.edge.from === other.edge.from || one.edge.to === other.edge.to) continue;
          for (const a of segments(one.points)) {
            for (const b of segments(other.points)) {
              const onOneLine =
                (a.width === 0 && b.width === 0 && a.x === b.x) || (a.height === 0 && b.height === 0 && a.y === b.y);
              if (!onOneLine) continue;
              const shared = Math.max(
                Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x),
                Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y),
              );
              const apart = a.x + a.width < b.x || b.x + b.width < a.x || a.y + a.height < b.y || b.y + b.height < a.y;
              expect(apart || shared <= 0).toBe(true);
            }
          }
        }
      });
    });
  });

  test('stands within its bounds, the first question above all else', () => {
    always((placed) => {
      const [first, ...others] = placed.vertices as [PlacedVertex, ...PlacedVertex[]];
      for (const { box } of others) expect(box.y).toBeGreaterThan(first.box.y + first.box.height);
      const boxes = [...placed.vertices.map(({ box }) => box), ...labelBoxes(placed).map(({ box }) => box)];
      for (const { x, y, width, height } of [...boxes, ...placed.edges.flatMap(({ points }) => segments(points))]) {
        expect(Math.min(x, y)).toBeGreaterThanOrEqual(1);
        expect(x + width).toBeLessThanOrEqual(placed.width - 1);
        expect(y + height).toBeLessThanOrEqual(placed.height - 1);
      }
    });
  });

  test('breaks no label into more than three lines and loses no word', () => {
    always((placed) => {
      const blocks = [
        ...placed.vertices.map(({ vertex, text }): [string, readonly string[]] => [vertex.text, text.lines]),
        ...placed.edges.map(({ edge, label }): [string, readonly string[]] => [edge.label, label?.text.lines ?? []]),
      ];
      for (const [text, lines] of blocks) {
        expect(lines.length).toBeLessThanOrEqual(3);
        expect(lines.join(' ')).toBe(
          text
            .split(/\s+/)
            .filter((word) => word !== '')
            .join(' '),
        );
      }
    });
  });

  test('fits a phone when the flow is small, and keeps the author’s order of positions', () => {
    const placed = layout(LOGO_FLOW);
    expect(placed.width).toBeLessThanOrEqual(340);
    const labels = new Map(labelBoxes(placed).map(({ box, of }) => [of.edge.label, box]));
    const across = ['OFF', 'AUTO', 'ON'].map((label) => (labels.get(label) as Box).x);
    expect(across).toEqual([...across].sort((a, b) => a - b));
  });

  test('draws a lone chain straight', () => {
    const { vertices } = LOGO_FLOW;
    const [a, b, c] = ['switch', 'gear', 'dark'];
    const edges = [
      { from: a, to: b, label: 'AUTO' },
      { from: b, to: c, label: 'a much longer label than the others' },
    ] as FlowView['edges'];
    const placed = layoutFlow(
      vertices.filter(({ id }) => [a, b, c].includes(id)),
      edges,
    );
    for (const { points } of placed.edges) expect(points).toHaveLength(2);
  });

  test('refuses a cycle and an edge to nowhere, which only a bug can make', () => {
    const vertices = LOGO_FLOW.vertices.slice(0, 2);
    const there = { from: 'switch', to: 'gear', label: 'x' };
    expect(() => layoutFlow(vertices, [there, { from: 'gear', to: 'switch', label: 'y' }])).toThrow('cycle');
    expect(() => layoutFlow(vertices, [there, { from: 'gear', to: 'dark', label: 'y' }])).toThrow('not all there');
  });
});
