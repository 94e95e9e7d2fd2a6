import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowEdge, FlowPart } from '../../src/book/book.ts';
import {
  type FlowLayout,
  layoutFlow,
  type PlacedEdge,
  type PlacedVertex,
  QUESTION_POINT,
} from '../../src/figures/flow-layout.ts';
import type { Box, Point } from '../../src/figures/geometry.ts';
import { textWidth } from '../../src/figures/text.ts';
import { WIDTHS as PLACES } from '../../src/figures/widths.ts';
import { flows, LOGO_FLOW } from '../helpers/flows.ts';

const WIDTHS = Object.values(PLACES);
const NUDGE = 1e-6;

/** Runs a check on the layouts of many parts of flows, for phones and for wider places. */
function always(check: (placed: FlowLayout, part: FlowPart, limit: number) => void): void {
  fc.assert(
    fc.property(flows(), fc.constantFrom(...WIDTHS), (part, limit) => check(layoutFlow(part, limit), part, limit)),
    { numRuns: 60 },
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
          for (const { box } of placed.vertices) expect(overlap(segment, box)).toBe(false);
          for (const { box, of } of labelBoxes(placed)) if (of !== edge) expect(overlap(segment, box)).toBe(false);
        }
      }
    });
  });

  test('leads each line once through its own label, from under its question to what its answer leads to', () => {
    always((placed, part) => {
      expect(placed.edges.map(({ edge }) => edge)).toEqual(part.edges);
      const boxOf = new Map(placed.vertices.map(({ vertex, box }) => [vertex.id, box]));
      for (const { edge, points, label } of placed.edges) {
        const [from, to] = [boxOf.get(edge.from) as Box, boxOf.get(edge.to) as Box];
        const [start, tip] = [points[0] as Point, points.at(-1) as Point];
        expect(start).toEqual({ x: from.x + 20, y: from.y + from.height });
        const atSide = tip.x === to.x && Math.abs(tip.y - to.y - to.height / 2) < NUDGE;
        const atTop =
          tip.y === to.y && tip.x > to.x + QUESTION_POINT && tip.x < to.x + to.width - QUESTION_POINT + NUDGE;
        expect(atSide || atTop).toBe(true);
        for (const [i, end] of points.slice(1).entries()) {
          const before = points[i] as Point;
          expect(end.y >= before.y && end.x >= before.x && (end.x === before.x || end.y === before.y)).toBe(true);
        }
        if (label === undefined) continue;
        expect(segments(points).some((segment) => segment.height === 0 && overlap(segment, label.box))).toBe(true);
      }
    });
  });

  test('has no two lines that cross or touch, but those from one question, which share its trunk', () => {
    always((placed) => {
      const grown = ({ x, y, width, height }: Box): Box => ({
        x: x - 3,
        y: y - 3,
        width: width + 6,
        height: height + 6,
      });
      placed.edges.forEach((one, i) => {
        for (const other of placed.edges.slice(i + 1)) {
          const [ours, theirs] = [segments(one.points), segments(other.points)];
          const sameQuestion = one.edge.from === other.edge.from;
          // What lies on the trunk is the first segment of each.
          for (const a of sameQuestion ? ours.slice(1) : ours)
            for (const b of sameQuestion ? theirs.slice(1) : theirs) {
              // A line reaches its question's left point or top, from under which the next ones leave.
              expect(overlap(sameQuestion ? a : grown(a), b)).toBe(false);
              expect(overlap(a, sameQuestion ? b : grown(b))).toBe(false);
            }
        }
      });
    });
  });

  test('has all states and further parts in one column at the right of all answers before them', () => {
    always((placed, part) => {
      const ends = placed.vertices.filter(({ vertex }) => vertex.kind !== 'question');
      expect(new Set(ends.map(({ box }) => box.x)).size).toBe(1);
      const ids = new Set(ends.map(({ vertex }) => vertex.id));
      for (const { edge, label } of placed.edges)
        if (label && ids.has(edge.to))
          expect(label.box.x + label.box.width).toBeLessThanOrEqual((ends[0]?.box.x ?? 0) - 20 + NUDGE);
      expect(ends.length).toBe(part.vertices.length - new Set(part.edges.map(({ from }) => from)).size);
    });
  });

  test('reads from the top in the order of the answers', () => {
    always((placed, part) => {
      const middle = new Map(placed.vertices.map(({ vertex, box }) => [vertex.id, box.y + box.height / 2]));
      for (const { id } of part.vertices) {
        const answers = part.edges.filter(({ from }) => from === id).map(({ to }) => middle.get(to) as number);
        expect(answers).toEqual(answers.toSorted((a, b) => a - b));
      }
    });
  });

  test('is no wider than its place where its words are no longer than on a panel', () => {
    const word = fc.constantFrom(
      'OFF',
      'down and locked',
      'travelling or up',
      'Main gear struts',
      'stopped or cut off',
    );
    const shallow = flows(18).filter((part) => depth(part) <= 5);
    fc.assert(
      fc.property(shallow, fc.infiniteStream(word), fc.constantFrom(...WIDTHS), (part, stream, limit) => {
        const say = (): string => stream.next().value as string;
        const said = {
          vertices: part.vertices.map((vertex) => ({
            ...vertex,
            text: vertex.kind === 'question' ? say() : 'Not shown',
          })),
          edges: part.edges.map((edge) => ({ ...edge, label: say() })),
        };
        expect(layoutFlow(said, limit).width).toBeLessThanOrEqual(limit);
      }),
      { numRuns: 40 },
    );
  });

  test('stands within its bounds, the first question above all else', () => {
    always((placed) => {
      const [first, ...others] = placed.vertices as [PlacedVertex, ...PlacedVertex[]];
      for (const { box } of others) expect(box.y).toBeGreaterThanOrEqual(first.box.y + first.box.height);
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

  test('puts a question beside its answer where there is room, and else below it', () => {
    const [broad, narrow] = [layoutFlow(LOGO_FLOW, PLACES.broad), layoutFlow(LOGO_FLOW, 280)];
    const level = (placed: FlowLayout): boolean => placed.edges[1]?.points.length === 3;
    expect([level(broad), level(narrow)]).toEqual([true, false]);
    expect(broad.height).toBeLessThan(narrow.height);
    expect(narrow.width).toBeLessThanOrEqual(280);
  });

  test('refuses what is not a tree, which only a bug can make', () => {
    const vertices = LOGO_FLOW.vertices.slice(0, 3);
    const [off, auto] = LOGO_FLOW.edges.slice(0, 2) as [FlowEdge, FlowEdge];
    const back = { from: 'gear', to: 'switch', label: 'x' };
    const draw = (edges: readonly FlowEdge[]) => () => layoutFlow({ vertices, edges }, 300);
    expect(draw([off, auto, back])).toThrow('reached twice');
    expect(draw([off, auto, { ...off, from: 'gear' }])).toThrow('reached twice');
    expect(draw([off, { ...auto, to: 'brake' }])).toThrow('not there');
    expect(draw([off])).toThrow('does not lead to');
  });
});

/** The number of questions one after another. */
function depth({ vertices, edges }: FlowPart): number {
  const below = (id: string): number => {
    const own = edges.filter(({ from }) => from === id);
    return own.length === 0 ? 0 : 1 + Math.max(...own.map(({ to }) => below(to)));
  };
  return below(vertices[0]?.id ?? '');
}
