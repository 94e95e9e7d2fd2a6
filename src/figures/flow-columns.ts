/**
 * Where the nodes of a grid stand from left to right. The order within rows is given and distances are kept, so nothing
 * ever overlaps; within that, links are straight where they can be and short otherwise.
 *
 * First each row is put as near to the row before as the distances allow (a least-squares problem, solved exactly by
 * pooling neighbours: R. E. Barlow and others, "Statistical inference under order restrictions", 1972). Then nodes that
 * should stand straight under one another are tied into columns, where the order permits, and the columns are moved one by
 * one to the middle of what they are linked to.
 */
import type { Grid, GridNode } from './flow-grid.ts';

/** The distance between the centres of a node and its right neighbour, at least; even, so that centres are whole numbers. */
export type Distance = (left: GridNode, right: GridNode) => number;

const SWEEPS = 8;
const ROUNDS = 24;
/** Links that come out nearly straight are made so, if they can be. */
const NEARLY = 16;

/** The centre of each node, a whole number; the least is anywhere. */
export function placeColumns(grid: Grid, distance: Distance): Map<GridNode, number> {
  const x = looseColumns(grid.rows, distance);
  const columns = new Columns(grid.rows, distance);
  for (const [upper, lower] of straightLinks(grid.rows)) columns.tie(upper, lower);
  columns.settle(x);
  const links = grid.rows.flat().flatMap((upper) => upper.below.map((lower): [GridNode, GridNode] => [upper, lower]));
  const slant = ([upper, lower]: [GridNode, GridNode]): number =>
    Math.abs((x.get(upper) as number) - (x.get(lower) as number));
  for (const link of links.filter((link) => slant(link) < NEARLY).sort((a, b) => slant(a) - slant(b)))
    columns.tie(...link);
  columns.settle(x);
  return new Map([...x].map(([node, value]) => [node, Math.round(value)]));
}

/** Each row by itself, swept down and up. */
function looseColumns(rows: readonly (readonly GridNode[])[], distance: Distance): Map<GridNode, number> {
  const x = new Map<GridNode, number>();
  for (const row of rows)
    spread(
      row,
      row.map(() => 0),
      distance,
      x,
    );
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    const down = sweep % 2 === 0;
    for (let step = 0; step < rows.length; step += 1) {
      const row = rows[down ? step : rows.length - 1 - step] as readonly GridNode[];
      const wishes = row.map((node) => middle(down ? node.above : node.below, x) ?? (x.get(node) as number));
      spread(row, wishes, distance, x);
    }
  }
  return x;
}

function middle(nodes: readonly GridNode[], x: ReadonlyMap<GridNode, number>): number | undefined {
  if (nodes.length === 0) return undefined;
  return nodes.reduce((sum, node) => sum + (x.get(node) as number), 0) / nodes.length;
}

/** Sets a row as near to its wishes as its distances allow. */
function spread(
  row: readonly GridNode[],
  wishes: readonly number[],
  distance: Distance,
  x: Map<GridNode, number>,
): void {
  const offsets: number[] = [];
  row.forEach((node, i) => {
    offsets.push(i === 0 ? 0 : (offsets[i - 1] as number) + distance(row[i - 1] as GridNode, node));
  });
  const pools: { sum: number; count: number }[] = [];
  wishes.forEach((wish, i) => {
    let pool = { sum: wish - (offsets[i] as number), count: 1 };
    for (
      let last = pools.at(-1);
      last !== undefined && last.sum / last.count >= pool.sum / pool.count;
      last = pools.at(-1)
    ) {
      pool = { sum: last.sum + pool.sum, count: last.count + pool.count };
      pools.pop();
    }
    pools.push(pool);
  });
  let i = 0;
  for (const { sum, count } of pools) {
    for (const end = i + count; i < end; i += 1) x.set(row[i] as GridNode, sum / count + (offsets[i] as number));
  }
}

/** The links that look best straight, the most important first: lines that pass by, then a vertex and its middle label. */
function straightLinks(rows: readonly (readonly GridNode[])[]): [GridNode, GridNode][] {
  const ranked: { upper: GridNode; lower: GridNode; rank: number }[] = [];
  for (const upper of rows.flat()) {
    upper.below.forEach((lower, i) => {
      const [kind, under] = [upper.content.kind, lower.content.kind];
      const centreBelow = upper.below.length % 2 === 1 && i === (upper.below.length - 1) / 2;
      const centreAbove = lower.above.indexOf(upper) === Math.floor((lower.above.length - 1) / 2);
      if (kind === 'pass' && under === 'pass') ranked.push({ upper, lower, rank: 0 });
      else if (kind === 'pass') ranked.push({ upper, lower, rank: 1 });
      else if (kind === 'label' && lower.above.length === 1) ranked.push({ upper, lower, rank: 2 });
      else if (kind === 'vertex' && centreBelow) ranked.push({ upper, lower, rank: 3 });
      else if (kind === 'label' && centreAbove) ranked.push({ upper, lower, rank: 4 });
    });
  }
  return ranked.sort((a, b) => a.rank - b.rank).map(({ upper, lower }) => [upper, lower]);
}

interface Neighbour {
  readonly node: GridNode;
  readonly distance: number;
}

/** Nodes tied into columns: all nodes of a column share one centre. */
class Columns {
  private readonly columnOf = new Map<GridNode, GridNode[]>();
  private readonly left = new Map<GridNode, Neighbour>();
  private readonly right = new Map<GridNode, Neighbour>();

  constructor(rows: readonly (readonly GridNode[])[], distance: Distance) {
    for (const row of rows) {
      row.forEach((node, i) => {
        this.columnOf.set(node, [node]);
        const before = row[i - 1];
        if (before === undefined) return;
        this.left.set(node, { node: before, distance: distance(before, node) });
        this.right.set(before, { node, distance: distance(before, node) });
      });
    }
  }

  /** Ties two nodes' columns into one, unless one must stand to the right of the other. */
  tie(a: GridNode, b: GridNode): void {
    const [one, other] = [this.column(a), this.column(b)];
    if (one === other || this.standsRightOf(one, other) || this.standsRightOf(other, one)) return;
    one.push(...other);
    for (const node of other) this.columnOf.set(node, one);
  }

  /** Moves every column between its neighbours to the middle of its links, again and again; `x` is the start and the result. */
  settle(x: Map<GridNode, number>): void {
    const columns = this.fromTheLeft();
    const index = new Map(columns.map((column, i) => [column, i]));
    const indexOf = (node: GridNode): number => index.get(this.column(node)) as number;
    const moves = columns.map((column, i) => ({
      column: i,
      left: this.besides(column, this.left, indexOf),
      right: this.besides(column, this.right, indexOf),
      pulls: pulls(column, indexOf).filter(({ to }) => to !== i),
    }));

    const at = new Float64Array(columns.length);
    for (const { column, left } of moves)
      at[column] = Math.max(middle(columns[column] as GridNode[], x) as number, least(left, at));
    for (let round = 0; round < ROUNDS; round += 1) {
      moves.reverse();
      for (const { column, left, right, pulls: all } of moves) {
        const wish = balance(all, at) ?? (at[column] as number);
        at[column] = Math.min(Math.max(wish, least(left, at)), most(right, at));
      }
    }
    for (const node of this.columnOf.keys()) x.set(node, at[indexOf(node)] as number);
  }

  private column(node: GridNode): GridNode[] {
    return this.columnOf.get(node) as GridNode[];
  }

  /** Whether some chain of neighbours leads from `from` rightwards to `to`. */
  private standsRightOf(to: GridNode[], from: GridNode[]): boolean {
    const seen = new Set([from]);
    const open = [from];
    for (let column = open.pop(); column !== undefined; column = open.pop()) {
      for (const node of column) {
        const next = this.right.get(node);
        if (next === undefined) continue;
        const beside = this.column(next.node);
        if (beside === to) return true;
        if (seen.has(beside)) continue;
        seen.add(beside);
        open.push(beside);
      }
    }
    return false;
  }

  /** The columns, each after all that stand to its left. */
  private fromTheLeft(): GridNode[][] {
    const done = new Set<GridNode[]>();
    const order: GridNode[][] = [];
    const visit = (column: GridNode[]): void => {
      if (done.has(column)) return;
      done.add(column);
      for (const node of column) {
        const before = this.left.get(node);
        if (before !== undefined) visit(this.column(before.node));
      }
      order.push(column);
    };
    for (const column of this.columnOf.values()) visit(column);
    return order;
  }

  /** The columns beside a column on one side, with their distances. */
  private besides(
    column: GridNode[],
    side: ReadonlyMap<GridNode, Neighbour>,
    indexOf: (node: GridNode) => number,
  ): Beside[] {
    return column.flatMap((node) => {
      const beside = side.get(node);
      return beside === undefined ? [] : [{ to: indexOf(beside.node), distance: beside.distance }];
    });
  }
}

interface Beside {
  readonly to: number;
  readonly distance: number;
}
interface Pull {
  readonly to: number;
  readonly weight: number;
}

/** What a column is linked to: the links of a node upwards count together as one, those downwards as two. */
function pulls(column: readonly GridNode[], indexOf: (node: GridNode) => number): Pull[] {
  return column.flatMap((node) => [
    ...node.above.map((link) => ({ to: indexOf(link), weight: 1 / node.above.length })),
    ...node.below.map((link) => ({ to: indexOf(link), weight: 2 / node.below.length })),
  ]);
}

/** Where the pulls balance; undefined without any. */
function balance(all: readonly Pull[], at: Float64Array): number | undefined {
  let sum = 0;
  let weights = 0;
  for (const { to, weight } of all) {
    sum += weight * (at[to] as number);
    weights += weight;
  }
  return weights === 0 ? undefined : sum / weights;
}

function least(left: readonly Beside[], at: Float64Array): number {
  let limit = -Infinity;
  for (const { to, distance } of left) limit = Math.max(limit, (at[to] as number) + distance);
  return limit;
}

function most(right: readonly Beside[], at: Float64Array): number {
  let limit = Infinity;
  for (const { to, distance } of right) limit = Math.min(limit, (at[to] as number) - distance);
  return limit;
}
