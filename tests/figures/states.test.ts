/** The drawing of a sequence: every mode and transition, boxes and numbers clear of each other, lines that lead right. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { StateDiagramView } from '../../src/book/index.ts';
import { statesSvg } from '../../src/figures/states.ts';
import { layoutStates, type StatesLayout } from '../../src/figures/states-layout.ts';

type Box = StatesLayout['modes'][number]['box'];
type Point = StatesLayout['start'][number];

function diagram(modes: number, edges: readonly (readonly [number, number])[]): StateDiagramView {
  return {
    id: 'unit-diagram',
    title: 'Unit: modes and transitions',
    initial: 'm0',
    vertices: Array.from({ length: modes }, (_, at) => ({ id: `m${at}`, text: `mode ${at} <&>`, final: at === 1 })),
    edges: edges.map(([from, to], at) => ({ from: `m${from % modes}`, to: `m${to % modes}`, number: at + 1 })),
    key: [],
    mermaid: '',
  };
}

const anyDiagram = fc
  .tuple(fc.integer({ min: 1, max: 8 }), fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 14 }))
  .map(([modes, edges]) => diagram(modes, edges));

function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** The level and plumb pieces of a line. */
function pieces(points: StatesLayout['start']): { start: Point; end: Point }[] {
  return points.slice(1).map((end, before) => ({ start: points[before] as Point, end }));
}

describe('a drawing of modes', () => {
  test('has one line from each mode to each other that a transition leads to, with the numbers of all of them', () => {
    fc.assert(
      fc.property(anyDiagram, (view) => {
        const wanted = new Map<string, number[]>();
        for (const { from, to, number } of view.edges) {
          wanted.set(`${from} ${to}`, [...(wanted.get(`${from} ${to}`) ?? []), number]);
        }
        const drawn = layoutStates(view).moves.map(({ from, to, label }) => [`${from} ${to}`, label.text]);
        expect(Object.fromEntries(drawn)).toEqual(
          Object.fromEntries([...wanted].map(([ends, numbers]) => [ends, numbers.join(', ')])),
        );
        expect(drawn).toHaveLength(wanted.size);
      }),
    );
  });

  test('keeps boxes and numbers apart and within its bounds', () => {
    fc.assert(
      fc.property(anyDiagram, (view) => {
        const layout = layoutStates(view);
        const boxes = [...layout.modes.map(({ box }) => box), ...layout.moves.map(({ label }) => label.box)];
        boxes.forEach((box, at) => {
          expect(box.x >= 0 && box.y >= 0).toBe(true);
          expect(box.x + box.width <= layout.width && box.y + box.height <= layout.height).toBe(true);
          for (const other of boxes.slice(at + 1)) expect(overlap(box, other)).toBe(false);
        });
      }),
    );
  });

  test('starts each line at the edge of its mode and ends it at the edge of the next, level and plumb by turns', () => {
    fc.assert(
      fc.property(anyDiagram, (view) => {
        const layout = layoutStates(view);
        const boxOf = new Map(layout.modes.map(({ id, box }) => [id, box]));
        const onEdge = ({ x, y }: { x: number; y: number }, box: Box | undefined): boolean =>
          box !== undefined &&
          x >= box.x - 0.01 &&
          x <= box.x + box.width + 0.01 &&
          y >= box.y - 0.01 &&
          y <= box.y + box.height + 0.01;
        for (const { from, to, points } of layout.moves) {
          expect(onEdge(points[0] ?? { x: -1, y: -1 }, boxOf.get(from))).toBe(true);
          expect(onEdge(points.at(-1) ?? { x: -1, y: -1 }, boxOf.get(to))).toBe(true);
          points.slice(1).forEach((point, before) => {
            const last = points[before];
            expect(point.x === last?.x || point.y === last?.y).toBe(true);
          });
        }
      }),
    );
  });

  test('never lets two lines run upon each other unless they lead to the same mode', () => {
    fc.assert(
      fc.property(anyDiagram, (view) => {
        const plumb = layoutStates(view).moves.flatMap(({ to, points }) =>
          points.slice(1).flatMap((point, before) => {
            const last = points[before];
            if (!last || last.x !== point.x || last.y === point.y) return [];
            return [{ to, x: point.x, low: Math.min(last.y, point.y), high: Math.max(last.y, point.y) }];
          }),
        );
        plumb.forEach((a, at) => {
          for (const b of plumb.slice(at + 1)) {
            const upon = Math.abs(a.x - b.x) < 1 && a.low < b.high && b.low < a.high;
            if (upon) expect(a.to).toBe(b.to);
          }
        });
      }),
    );
  });

  test('never lets two lines from one mode cross', () => {
    const targets = fc.uniqueArray(fc.nat(7), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(fc.nat(7), targets, (from, to) => {
        const edges = to.filter((target) => target !== from).map((target) => [from, target] as const);
        const lines = layoutStates(diagram(8, edges)).moves.map(({ points }) => points);
        lines.forEach((one, at) => {
          for (const other of lines.slice(at + 1)) {
            for (const [a, b] of [
              [one, other],
              [other, one],
            ] as const)
              for (const level of pieces(a).filter(({ start, end }) => start.y === end.y))
                for (const plumb of pieces(b).filter(({ start, end }) => start.x === end.x)) {
                  const across = (level.start.x - plumb.start.x) * (level.end.x - plumb.start.x) < 0;
                  const along = (plumb.start.y - level.start.y) * (plumb.end.y - level.start.y) < 0;
                  expect(across && along).toBe(false);
                }
          }
        });
      }),
    );
  });

  test('fits a phone for a sequence of common size, and escapes its words', () => {
    const view = diagram(6, [
      [0, 1],
      [1, 2],
      [2, 3],
      [1, 5],
      [2, 5],
      [3, 5],
      [3, 4],
      [4, 0],
      [5, 4],
    ]);
    expect(layoutStates(view).width).toBeLessThanOrEqual(356);
    const svg = statesSvg(view);
    expect(svg).toContain('mode 0 &#60;&#38;&#62;');
    expect(svg.match(/class="states-mode"/g)).toHaveLength(7);
    expect(svg).toContain('6 modes, 9 ways from one to another.');
  });
});
