/** A diagram as a graph of questions and outcomes, reduced for drawing. */
import type { Diagrams } from './diagrams.ts';
import { groupValues } from './grouping.ts';
import type { Node } from './unique-table.ts';

export type GraphVertex =
  | { readonly kind: 'question'; readonly level: number }
  | { readonly kind: 'outcome'; readonly outcome: number };

/** `from` and `to` are indices of vertices; `values` are the answers, in rising order. */
export interface GraphEdge {
  readonly from: number;
  readonly to: number;
  readonly values: readonly number[];
}

export interface DecisionGraph {
  /** Breadth first from the root, which is the first. */
  readonly vertices: readonly GraphVertex[];
  /** By their source, then by their first answer. No two join the same vertices. */
  readonly edges: readonly GraphEdge[];
  readonly root: number;
}

interface Draft {
  readonly vertex: GraphVertex;
  readonly edges: readonly { readonly to: number; readonly values: readonly number[] }[];
}

/**
 * The graph that asks for the variables of `f` in `order` (levels; those of the support that it lacks follow in declared
 * order) and leads every possible case along one path to its outcome. Answers that need not be told apart, because they
 * agree wherever both are possible, share an edge; answers without a possible case have none, except that those of an
 * ordered variable go with a neighbour. Equal parts are shared. `f` has a possible case.
 */
export function decisionGraph(
  diagrams: Diagrams,
  f: Node,
  order: readonly number[],
  impossible: number,
): DecisionGraph {
  if (f === diagrams.terminal(impossible)) throw new RangeError('a graph needs a possible case');
  const levels = [...new Set([...order, ...diagrams.support(f)])];
  const drafts: Draft[] = [];
  const byContent = new Map<string, number>();
  const done = levels.map(() => new Map<Node, number>());

  const intern = (draft: Draft): number => {
    const key = JSON.stringify(draft);
    const known = byContent.get(key);
    if (known !== undefined) return known;
    const index = drafts.push(draft) - 1;
    byContent.set(key, index);
    return index;
  };

  const ask = (node: Node, position: number): number => {
    const outcome = diagrams.valueOf(node);
    if (outcome !== undefined) return intern({ vertex: { kind: 'outcome', outcome }, edges: [] });
    const known = done[position]?.get(node);
    if (known !== undefined) return known;
    const level = levels[position] as number;
    const answers = new Map<number, number[]>();
    for (const group of groupValues(diagrams, node, level, impossible)) {
      const to = ask(group.node, position + 1);
      if (group.values === undefined) {
        done[position]?.set(node, to);
        return to;
      }
      // Only intervals are joined again here, and they come in rising order.
      answers.set(to, [...(answers.get(to) ?? []), ...group.values]);
    }
    const edges = [...answers].map(([to, values]) => ({ to, values }));
    const index = intern({ vertex: { kind: 'question', level }, edges });
    done[position]?.set(node, index);
    return index;
  };

  return breadthFirst(drafts, ask(f, 0));
}

/** Numbers the vertices that are reached from `root` in breadth-first order. */
function breadthFirst(drafts: readonly Draft[], root: number): DecisionGraph {
  const order = new Set([root]);
  for (const index of order) {
    for (const { to } of (drafts[index] as Draft).edges) order.add(to);
  }
  const reached = [...order];
  const place = new Map(reached.map((index, at) => [index, at]));
  return {
    vertices: reached.map((index) => (drafts[index] as Draft).vertex),
    edges: reached.flatMap((index, from) =>
      (drafts[index] as Draft).edges.map(({ to, values }) => ({ from, to: place.get(to) as number, values })),
    ),
    root: 0,
  };
}
