import { describe, expect, test } from 'vitest';
import { type DecisionGraph, Diagrams, decisionGraph, stateTable } from '../../src/logic/index.ts';
import { diagramOf, IMPOSSIBLE, ruleList, truthTable } from './rule-lists.ts';
import { variablesOf } from './truth-tables.ts';

const LISTS = Array.from({ length: 400 }, (_, index) => ruleList(index + 1, { variables: 5, size: 4, rules: 6 }));

/** The outcomes that a case is led to: every edge that lets it through is followed. */
function outcomesOf(graph: DecisionGraph, each: readonly number[]): number[] {
  const walk = (at: number): number[] => {
    const vertex = graph.vertices[at];
    if (vertex?.kind === 'outcome') return [vertex.outcome];
    const value = each[vertex?.level as number] as number;
    return graph.edges
      .filter(({ from, values }) => from === at && values.includes(value))
      .flatMap(({ to }) => walk(to));
  };
  return walk(graph.root);
}

function graphsOf(list: (typeof LISTS)[number]): { graph: DecisionGraph; order: readonly number[] }[] {
  const diagrams = new Diagrams(list.variables);
  const f = diagramOf(diagrams, list);
  if (f === diagrams.terminal(IMPOSSIBLE)) return [];
  const declared = list.variables.map((_, level) => level);
  const { columns } = stateTable(diagrams, f, { impossible: IMPOSSIBLE });
  return [declared, declared.toReversed(), columns].map((order) => ({
    graph: decisionGraph(diagrams, f, order, IMPOSSIBLE),
    order,
  }));
}

describe('the decision graphs of 400 seeded rule lists, in three orders each', () => {
  test('lead every possible case along exactly one path to its outcome', () => {
    for (const list of LISTS) {
      for (const { graph } of graphsOf(list)) {
        for (const { each, outcome } of truthTable(list)) {
          if (outcome !== IMPOSSIBLE) expect(outcomesOf(graph, each), each.join(' ')).toEqual([outcome]);
        }
      }
    }
  });

  test('ask in the given order, share equal parts and have no idle question', () => {
    for (const list of LISTS) {
      for (const { graph, order } of graphsOf(list)) {
        const out = graph.vertices.map((_, at) => graph.edges.filter(({ from }) => from === at));
        const content = graph.vertices.map((vertex, at) =>
          JSON.stringify([vertex, out[at]?.map(({ to, values }) => [to, values])]),
        );
        expect(new Set(content).size).toBe(content.length);
        graph.vertices.forEach((vertex, at) => {
          const edges = out[at] as DecisionGraph['edges'];
          expect(new Set(edges.map(({ to }) => to)).size).toBe(edges.length);
          if (vertex.kind === 'outcome') expect([edges, vertex.outcome === IMPOSSIBLE]).toEqual([[], false]);
          else expect(edges.length).toBeGreaterThan(1);
        });
        const rank = (at: number): number => {
          const vertex = graph.vertices[at];
          if (vertex?.kind !== 'question') return Number.POSITIVE_INFINITY;
          const place = order.indexOf(vertex.level);
          return place < 0 ? order.length + vertex.level : place;
        };
        for (const { from, to, values } of graph.edges) {
          expect(rank(from)).toBeLessThan(rank(to));
          expect(values).toEqual(values.toSorted((a, b) => a - b));
        }
      }
    }
  });

  test('number their vertices breadth first from the root', () => {
    for (const list of LISTS) {
      for (const { graph } of graphsOf(list)) {
        const met = new Set([graph.root]);
        for (const at of met) for (const { from, to } of graph.edges) if (from === at) met.add(to);
        expect([...met]).toEqual([...graph.vertices.keys()]);
      }
    }
  });

  test('are the same in two managers', () => {
    for (const list of LISTS) expect(graphsOf(list)).toEqual(graphsOf(list));
  });
});

describe('a decision graph', () => {
  const diagrams = new Diagrams(variablesOf([3, 2], [true]));
  const both = diagrams.ite(diagrams.literal(0, [1]), diagrams.terminal(2), diagrams.terminal(3));

  test('draws one edge to a vertex, for both sides of an interval', () => {
    expect(decisionGraph(diagrams, both, [0], 9)).toEqual({
      vertices: [
        { kind: 'question', level: 0 },
        { kind: 'outcome', outcome: 3 },
        { kind: 'outcome', outcome: 2 },
      ],
      edges: [
        { from: 0, to: 1, values: [0, 2] },
        { from: 0, to: 2, values: [1] },
      ],
      root: 0,
    });
  });

  test('does not ask what matters to impossible cases only', () => {
    const f = diagrams.ite(diagrams.literal(1, [1]), both, diagrams.terminal(9));
    expect(decisionGraph(diagrams, f, [1, 0], 9)).toEqual(decisionGraph(diagrams, both, [0], 9));
  });

  test('of one outcome is that outcome, and of no possible case is refused', () => {
    expect(decisionGraph(diagrams, diagrams.terminal(2), [], 9)).toEqual({
      vertices: [{ kind: 'outcome', outcome: 2 }],
      edges: [],
      root: 0,
    });
    expect(() => decisionGraph(diagrams, diagrams.terminal(9), [], 9)).toThrow(
      new RangeError('a graph needs a possible case'),
    );
  });
});
