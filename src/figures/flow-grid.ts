/**
 * A flow as rows of nodes, each linked only to the next row: the form that the layout works on.
 *
 * Even rows hold vertices, odd rows the labels of the edges that leave the row above. An edge that goes further down runs
 * through *passes*. All edges to one vertex share its passes: once past their labels they are one line, since they lead to
 * one place. So a row never holds more passes than there are vertices below.
 */
import type { FlowEdge, FlowVertex } from '../book/index.ts';

export type NodeContent =
  | { readonly kind: 'vertex'; readonly vertex: FlowVertex }
  | { readonly kind: 'label'; readonly edge: FlowEdge }
  | { readonly kind: 'pass'; readonly target: FlowVertex };

export interface GridNode {
  readonly content: NodeContent;
  readonly row: number;
  /** Links to the rows above and below, in the order of the edges. */
  readonly above: GridNode[];
  readonly below: GridNode[];
}
export interface Grid {
  /** Rows from the top, nodes from the left. */
  readonly rows: GridNode[][];
  /** The nodes that each edge runs through, from its vertex to its vertex, in the order of the flow's edges. */
  readonly routes: readonly (readonly GridNode[])[];
}

/** The grid of a flow. A flow with a cycle, or an edge to nowhere, is a bug and throws. */
export function buildGrid(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): Grid {
  const rank = ranks(vertices, edges);
  const rows: GridNode[][] = [];
  const add = (content: NodeContent, row: number): GridNode => {
    const node: GridNode = { content, row, above: [], below: [] };
    while (rows.length <= row) rows.push([]);
    (rows[row] as GridNode[]).push(node);
    return node;
  };
  const link = (from: GridNode, to: GridNode): void => {
    if (from.below.includes(to)) return;
    from.below.push(to);
    to.above.push(from);
  };

  const nodeOf = new Map<string, GridNode>();
  const routes = new Map<FlowEdge, readonly GridNode[]>();
  const passes = new Map<string, GridNode>();
  const byId = new Map(vertices.map((vertex) => [vertex.id, vertex]));
  const rowOf = (id: string): number => 2 * (rank.get(id) as number);

  /** Places a vertex and, first time round, all that is reached from it, so that rows start in the author's order. */
  const place = (vertex: FlowVertex): GridNode => {
    const known = nodeOf.get(vertex.id);
    if (known !== undefined) return known;
    const node = add({ kind: 'vertex', vertex }, rowOf(vertex.id));
    nodeOf.set(vertex.id, node);
    for (const edge of edges) {
      if (edge.from !== vertex.id) continue;
      const label = add({ kind: 'label', edge }, node.row + 1);
      link(node, label);
      routes.set(edge, [node, label, ...lead(label, byId.get(edge.to) as FlowVertex)]);
    }
    return node;
  };
  /** Leads a line from a label to its target, joining the line that already leads there where it can. */
  const lead = (label: GridNode, target: FlowVertex): GridNode[] => {
    const route: GridNode[] = [];
    let last = label;
    for (let row = label.row + 1; row < rowOf(target.id); row += 1) {
      const key = `${row} ${target.id}`;
      const pass = passes.get(key) ?? add({ kind: 'pass', target }, row);
      passes.set(key, pass);
      link(last, pass);
      route.push(pass);
      last = pass;
    }
    const end = place(target);
    link(last, end);
    return [...route, end];
  };
  for (const vertex of vertices) if (rank.get(vertex.id) === 0) place(vertex);
  return { rows, routes: edges.map((edge) => routes.get(edge) as readonly GridNode[]) };
}

/** The number of edges on the longest way to each vertex. */
function ranks(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): Map<string, number> {
  const rank = new Map(vertices.map((vertex) => [vertex.id, 0]));
  for (const { from, to } of edges) {
    if (!rank.has(from) || !rank.has(to))
      throw new Error(`An edge of a flow from ${from} to ${to}, which is not all there.`);
  }
  for (let round = 0, changed = true; changed; round += 1) {
    if (round > vertices.length) throw new Error('A flow has a cycle.');
    changed = false;
    for (const { from, to } of edges) {
      const least = (rank.get(from) as number) + 1;
      if ((rank.get(to) as number) >= least) continue;
      rank.set(to, least);
      changed = true;
    }
  }
  return rank;
}
