/** Words in a row above and a row below a drawing, each with a line to what it names. */
import { cross, type Line, shortOf } from './boxes.ts';
import type { Box, Point } from './geometry.ts';
import type { Block } from './text.ts';

export interface Named {
  readonly at: Point;
  /** How far from there its line ends. */
  readonly half: number;
  readonly text: Block;
}
export interface PlacedLabel<N> {
  readonly named: N;
  readonly box: Box;
  readonly leader: Line;
}

/** Between labels of a row, and between a row and the drawing. */
const BETWEEN = 12;
const AWAY = 18;

/** Labels never overlap each other or the drawing; their lines do not cross within a row. */
export function labelRows<N extends Named>(named: readonly N[], drawing: Box): PlacedLabel<N>[] {
  const middle = drawing.y + drawing.height / 2;
  const above = named.filter(({ at }) => at.y < middle).toSorted((a, b) => b.at.y - a.at.y);
  const below = named.filter(({ at }) => at.y >= middle).toSorted((a, b) => a.at.y - b.at.y);
  even(above, below, drawing.width);
  even(below, above, drawing.width);
  return [...row(above, drawing, true), ...row(below, drawing, false)];
}

/** While a row is too wide, what lies nearest to the other row moves there, unless that one would be the wider then. */
function even(full: Named[], other: Named[], width: number): void {
  while (widthOf(full) > width) {
    const [first] = full;
    if (!first || widthOf([...other, first]) > widthOf(full.slice(1))) return;
    full.shift();
    other.unshift(first);
  }
}

function widthOf(named: readonly Named[]): number {
  return named.reduce((sum, { text }) => sum + text.width + BETWEEN, -BETWEEN);
}

function row<N extends Named>(named: readonly N[], drawing: Box, above: boolean): PlacedLabel<N>[] {
  const order = named.toSorted((a, b) => a.at.x - b.at.x || (above ? a.at.y - b.at.y : b.at.y - a.at.y));
  let placed = place(order, drawing, above);
  // Each exchange of two whose lines cross makes the lines shorter in all, so that few are needed; neighbours come first.
  for (let tries = 0; tries < order.length ** 2; tries++) {
    const crossing = firstCrossing(placed);
    if (!crossing) break;
    const [i, j] = crossing;
    [order[i], order[j]] = [order[j] as N, order[i] as N];
    placed = place(order, drawing, above);
  }
  return placed;
}

/** The nearest two places of a row whose lines cross. */
function firstCrossing(placed: readonly PlacedLabel<Named>[]): [number, number] | undefined {
  for (let apart = 1; apart < placed.length; apart++) {
    const i = placed.findIndex((one, at) => {
      const other = placed[at + apart];
      return other !== undefined && cross(one.leader, other.leader);
    });
    if (i >= 0) return [i, i + apart];
  }
  return undefined;
}

function place<N extends Named>(order: readonly N[], drawing: Box, above: boolean): PlacedLabel<N>[] {
  const lefts = spread(order);
  return order.map((named, i) => {
    const { text, at, half } = named;
    const x = lefts[i] as number;
    const y = above ? drawing.y - AWAY - text.height : drawing.y + drawing.height + AWAY;
    const from = { x: x + text.width / 2, y: above ? y + text.height + 1 : y - 1 };
    return {
      named,
      box: { x, y, width: text.width, height: text.height },
      leader: { from, to: shortOf({ from, to: at }, half) },
    };
  });
}

/**
 * The left edges of labels in a row, as near to the middle of what they name as there is room for: least squares under the
 * order, by pooling neighbours that would overlap.
 */
function spread(order: readonly Named[]): number[] {
  let taken = 0;
  const before = order.map(({ text }) => {
    const start = taken;
    taken += text.width + BETWEEN;
    return start;
  });
  const pools: { sum: number; count: number }[] = [];
  order.forEach(({ at, text }, i) => {
    pools.push({ sum: at.x - text.width / 2 - (before[i] as number), count: 1 });
    for (let last = pools.length - 1; last > 0; last--) {
      const [a, b] = [pools[last - 1], pools[last]];
      if (!a || !b || a.sum / a.count <= b.sum / b.count) break;
      pools.splice(last - 1, 2, { sum: a.sum + b.sum, count: a.count + b.count });
    }
  });
  return pools
    .flatMap(({ sum, count }) => Array.from({ length: count }, () => sum / count))
    .map((start, i) => start + (before[i] as number));
}
