/** Flow diagrams: the same cases as the table, asked one question after another, the control first. */
import { type Compiled, IMPOSSIBLE, type On, valuesTitle, variableTitle } from '../compile/index.ts';
import { decisionGraph, type Node, type StateTable } from '../logic/index.ts';
import type { Attribute } from '../model/index.ts';
import type { FlowEdge, FlowVertex, FlowView } from './book.ts';
import { upperFirst } from './cells.ts';
import { mermaidText } from './mermaid.ts';
import { meaningAt, outcomeView } from './tables.ts';

/** The flow of one form; undefined when there is nothing to ask. */
export function flowView(
  compiled: Compiled,
  attribute: Attribute,
  form: Node,
  table: StateTable,
  on: On,
  words: { id: string; title: string },
): FlowView | undefined {
  if (table.columns.length === 0) return undefined;
  const graph = decisionGraph(compiled.diagrams, form, table.columns, IMPOSSIBLE);
  const vertices = graph.vertices.map((vertex, index): FlowVertex => {
    const id = `v${index}`;
    if (vertex.kind === 'question')
      return { id, kind: 'question', text: variableTitle(meaningAt(compiled, vertex.level), on) };
    const state = outcomeView(compiled, attribute, vertex.outcome);
    return { id, kind: 'state', text: upperFirst(state.text), glyph: state.glyph };
  });
  const edges = graph.edges.flatMap(({ from, to, values }): FlowEdge[] => {
    const vertex = graph.vertices[from];
    if (vertex?.kind !== 'question') throw new Error('an edge leaves an outcome');
    const meaning = meaningAt(compiled, vertex.level);
    // A number is said in intervals, so that cells which do not touch need an edge each.
    const parts = meaning.kind === 'number' ? runs(values) : [values];
    return parts.map((part) => ({ from: `v${from}`, to: `v${to}`, label: valuesTitle(meaning, part, on) }));
  });
  return { ...words, vertices, edges, mermaid: mermaidText(vertices, edges) };
}

/** Ascending values cut where they do not follow each other. */
function runs(values: readonly number[]): number[][] {
  const found: number[][] = [];
  for (const value of values) {
    const last = found.at(-1);
    if (last?.at(-1) === value - 1) last.push(value);
    else found.push([value]);
  }
  return found;
}
