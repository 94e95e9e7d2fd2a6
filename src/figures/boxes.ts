/** Rectangles and lines of a drawing that must keep clear of each other. */
import type { Box, Point } from './geometry.ts';

export interface Line {
  readonly from: Point;
  readonly to: Point;
}

/** Whether two boxes come closer to each other than `gap` on both axes. */
export function meet(a: Box, b: Box, gap = 0): boolean {
  return (
    a.x < b.x + b.width + gap && b.x < a.x + a.width + gap && a.y < b.y + b.height + gap && b.y < a.y + a.height + gap
  );
}

/** Whether two lines cross, ends included. */
export function cross({ from: a, to: b }: Line, { from: c, to: d }: Line): boolean {
  const turn = (p: Point, q: Point, r: Point): number =>
    Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  return turn(a, b, c) !== turn(a, b, d) && turn(c, d, a) !== turn(c, d, b);
}

/** Whether a line runs through a box. */
export function runsThrough(line: Line, { x, y, width, height }: Box): boolean {
  const inside = ({ x: px, y: py }: Point): boolean => px > x && px < x + width && py > y && py < y + height;
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ];
  return (
    inside(line.from) ||
    inside(line.to) ||
    corners.some((corner, i) => cross(line, { from: corner, to: corners[(i + 1) % 4] as Point }))
  );
}

/** The smallest box around boxes; at least one must be given. */
export function around(boxes: readonly Box[]): Box {
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  return {
    x,
    y,
    width: Math.max(...boxes.map((box) => box.x + box.width)) - x,
    height: Math.max(...boxes.map((box) => box.y + box.height)) - y,
  };
}

/** The point of a line `distance` short of its end; its start where it is shorter than that. */
export function shortOf({ from, to }: Line, distance: number): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const share = length <= distance ? 0 : (length - distance) / length;
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}
