/**
 * A flow taken apart so that each part is small enough to be read as one drawing. A part is the tree of all that its first
 * question leads to. A sub-decision that several ways lead to stands in the tree as often, unless it is a part of its own,
 * which is drawn once.
 */
import type { FlowEdge, FlowVertex } from './book.ts';

export interface FlowCut {
  /** The vertex of the flow that it starts with. */
  readonly root: string;
  /** Its own tree, from the first vertex on; ends at which another part follows have no text yet. */
  readonly vertices: readonly FlowVertex[];
  readonly edges: readonly FlowEdge[];
  /** For each such end, by its id: the vertex of the flow with which that part starts. */
  readonly goesOn: ReadonlyMap<string, string>;
}

/** What one drawing may hold: questions and ends in all, and questions one after another. */
const MOST = { rows: 18, deep: 5 };

/**
 * The parts of an acyclic flow, that of its first vertex first, each other one after a part that names it. A part that is
 * too large is cut where the larger of the pieces is smallest; a sub-decision of one question is only cut off where it
 * stands at least three times.
 */
export function flowParts(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]): FlowCut[] {
  const [first] = vertices;
  if (first === undefined) throw new Error('a flow without a vertex');
  const flow = new Flow(vertices, edges);
  const roots = new Set([first.id]);
  for (let cut = flow.nextCut(roots); cut !== undefined; cut = flow.nextCut(roots)) roots.add(cut);
  const parts = new Map([[first.id, flow.part(first.id, roots)]]);
  for (const { goesOn } of parts.values())
    for (const root of goesOn.values()) if (!parts.has(root)) parts.set(root, flow.part(root, roots));
  return [...parts.values()];
}

interface Extent {
  readonly rows: number;
  readonly deep: number;
}

class Flow {
  private readonly vertices: ReadonlyMap<string, FlowVertex>;
  private readonly edges: readonly FlowEdge[];
  private readonly from: ReadonlyMap<string, readonly FlowEdge[]>;

  constructor(vertices: readonly FlowVertex[], edges: readonly FlowEdge[]) {
    this.vertices = new Map(vertices.map((vertex) => [vertex.id, vertex]));
    this.edges = edges;
    this.from = Map.groupBy(edges, ({ from }) => from);
  }

  /** Where to cut next, if a part is still too large and can be cut. */
  nextCut(roots: ReadonlySet<string>): string | undefined {
    for (const root of roots) {
      if (this.load(root, roots) <= 1) continue;
      const ways = this.ways(root, roots);
      let best: { readonly id: string; readonly load: number; readonly times: number } | undefined;
      for (const [id, { kind }] of this.vertices) {
        const times = ways(id);
        if (kind !== 'question' || roots.has(id) || times === 0) continue;
        if (this.extent(id, roots).deep < 2 && times < 3) continue;
        const then = new Set([...roots, id]);
        const load = Math.max(this.load(root, then), this.load(id, then));
        if (!best || load < best.load || (load === best.load && times > best.times)) best = { id, load, times };
      }
      if (best) return best.id;
    }
    return undefined;
  }

  /** The tree from `root`, with ids in the order in which it is read. */
  part(root: string, roots: ReadonlySet<string>): FlowCut {
    const vertices: FlowVertex[] = [];
    const edges: FlowEdge[] = [];
    const goesOn = new Map<string, string>();
    const grow = (of: string): string => {
      const id = `v${vertices.length}`;
      const leaves = vertices.length > 0 && roots.has(of);
      vertices.push(leaves ? { id, kind: 'part', text: '' } : { ...(this.vertices.get(of) as FlowVertex), id });
      if (leaves) goesOn.set(id, of);
      else
        for (const { to, label } of this.from.get(of) ?? []) {
          const at = edges.push({ from: id, to: '', label }) - 1;
          edges[at] = { from: id, to: grow(to), label };
        }
      return id;
    };
    grow(root);
    return { root, vertices, edges, goesOn };
  }

  /** At most 1 where the part fits one drawing. */
  private load(root: string, roots: ReadonlySet<string>): number {
    const { rows, deep } = this.extent(root, roots);
    return Math.max(rows / MOST.rows, deep / MOST.deep);
  }

  /** The size of the tree from `root`, which may be far too large to be grown. */
  private extent(root: string, roots: ReadonlySet<string>): Extent {
    const known = new Map<string, Extent>();
    const measure = (id: string): Extent => {
      if (id !== root && roots.has(id)) return { rows: 1, deep: 0 };
      const found = known.get(id);
      if (found) return found;
      const below = (this.from.get(id) ?? []).map(({ to }) => measure(to));
      const extent = {
        rows: 1 + below.reduce((sum, { rows }) => sum + rows, 0),
        deep: below.length === 0 ? 0 : 1 + Math.max(...below.map(({ deep }) => deep)),
      };
      known.set(id, extent);
      return extent;
    };
    return measure(root);
  }

  /** How often a vertex stands in the tree from `root`. */
  private ways(root: string, roots: ReadonlySet<string>): (id: string) => number {
    const known = new Map([[root, 1]]);
    const count = (id: string): number => {
      const found = known.get(id);
      if (found !== undefined) return found;
      const sum = this.edges
        .filter(({ from, to }) => to === id && (from === root || !roots.has(from)))
        .reduce((times, { from }) => times + count(from), 0);
      known.set(id, sum);
      return sum;
    };
    return count;
  }
}
