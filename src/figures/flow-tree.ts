/** The part of a flow as a tree: every vertex but the first is reached by exactly one edge. */
import type { FlowEdge, FlowVertex } from '../book/index.ts';

export interface Branch {
  readonly edge: FlowEdge;
  readonly to: Tree;
}
export interface Tree {
  readonly vertex: FlowVertex;
  /** In the order of the edges; none at the ends. */
  readonly branches: readonly Branch[];
}

/** The tree from the first vertex. Anything that is no tree is a bug and throws. */
export function flowTree(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): Tree {
  const byId = new Map(vertices.map((vertex) => [vertex.id, vertex]));
  const reached = new Set<string>();
  const grow = (id: string): Tree => {
    const vertex = byId.get(id);
    if (vertex === undefined) throw new Error(`An edge of a flow leads to ${id}, which is not there.`);
    if (reached.has(id)) throw new Error(`The vertex ${id} of a flow is reached twice.`);
    reached.add(id);
    const own = edges.filter(({ from }) => from === id);
    return { vertex, branches: own.map((edge) => ({ edge, to: grow(edge.to) })) };
  };
  const [first] = vertices;
  if (first === undefined) throw new Error('A flow without a vertex.');
  const tree = grow(first.id);
  if (reached.size < vertices.length || edges.length !== vertices.length - 1)
    throw new Error('A flow has a vertex or an edge that its first vertex does not lead to.');
  return tree;
}
