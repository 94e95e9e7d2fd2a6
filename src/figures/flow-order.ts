/**
 * The order of nodes within their rows, for few crossings: barycentre sweeps, each followed by swaps of neighbours
 * (K. Sugiyama, S. Tagawa, M. Toda, "Methods for visual understanding of hierarchical system structures", IEEE
 * Transactions on Systems, Man, and Cybernetics 11 (1981)). The order given stays unless another has fewer crossings.
 */
import type { GridNode } from './flow-grid.ts';

const SWEEPS = 12;

/** Puts each row of `rows` in order, in place. */
export function orderRows(rows: GridNode[][]): void {
  let best = rows.map((row) => [...row]);
  let fewest = crossings(rows);
  for (let sweep = 0; sweep < SWEEPS && fewest > 0; sweep += 1) {
    const down = sweep % 2 === 0;
    const position = positions(rows);
    for (let step = 1; step < rows.length; step += 1) {
      const row = rows[down ? step : rows.length - 1 - step] as GridNode[];
      const wish = new Map(
        row.map((node) => [node, barycentre(down ? node.above : node.below, position) ?? position.get(node)]),
      );
      row.sort((a, b) => (wish.get(a) as number) - (wish.get(b) as number));
      for (const [i, node] of row.entries()) position.set(node, i);
    }
    swapNeighbours(rows, position);
    const now = crossings(rows);
    if (now < fewest) {
      fewest = now;
      best = rows.map((row) => [...row]);
    }
  }
  best.forEach((row, i) => {
    rows[i] = row;
  });
}

function positions(rows: readonly (readonly GridNode[])[]): Map<GridNode, number> {
  return new Map(rows.flatMap((row) => row.map((node, i): [GridNode, number] => [node, i])));
}

function barycentre(nodes: readonly GridNode[], position: ReadonlyMap<GridNode, number>): number | undefined {
  if (nodes.length === 0) return undefined;
  return nodes.reduce((sum, node) => sum + (position.get(node) as number), 0) / nodes.length;
}

/** Swaps two neighbours in a row wherever that saves a crossing, until nothing does. */
function swapNeighbours(rows: readonly GridNode[][], position: Map<GridNode, number>): void {
  for (let round = 0, better = true; better && round < 8; round += 1) {
    better = false;
    for (const row of rows) {
      for (let i = 0; i + 1 < row.length; i += 1) {
        const [left, right] = [row[i] as GridNode, row[i + 1] as GridNode];
        const saved =
          inversions(left.above, right.above, position) +
          inversions(left.below, right.below, position) -
          inversions(right.above, left.above, position) -
          inversions(right.below, left.below, position);
        if (saved <= 0) continue;
        row[i] = right;
        row[i + 1] = left;
        position.set(right, i);
        position.set(left, i + 1);
        better = true;
      }
    }
  }
}

/** How many links of a node on the left cross links of its right neighbour. */
function inversions(
  left: readonly GridNode[],
  right: readonly GridNode[],
  position: ReadonlyMap<GridNode, number>,
): number {
  let count = 0;
  for (const a of left)
    for (const b of right) if ((position.get(a) as number) > (position.get(b) as number)) count += 1;
  return count;
}

/** The number of crossings between links, over all rows. */
export function crossings(rows: readonly (readonly GridNode[])[]): number {
  const position = positions(rows);
  let count = 0;
  for (const row of rows) {
    row.forEach((left, i) => {
      for (let j = i + 1; j < row.length; j += 1) count += inversions(left.below, (row[j] as GridNode).below, position);
    });
  }
  return count;
}
