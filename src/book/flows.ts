/** Flow diagrams: the same cases as the table, asked one question after another, the control first. */
import { type Compiled, IMPOSSIBLE, type On, valuesTitle, variableTitle } from '../compile/index.ts';
import { decisionGraph, type Node, type StateTable } from '../logic/index.ts';
import type { Attribute } from '../model/index.ts';
import type { FlowEdge, FlowPart, FlowVertex, FlowView } from './book.ts';
import { upperFirst } from './cells.ts';
import { type FlowCut, flowParts } from './flow-parts.ts';
import { mermaidText } from './mermaid.ts';
import { meaningAt, outcomeView } from './tables.ts';

/** The flow of one form; undefined where a single question is asked, since the table of its answers says the same. */
export function flowView(
  compiled: Compiled,
  attribute: Attribute,
  form: Node,
  table: StateTable,
  on: On,
  words: { id: string; title: string },
): FlowView | undefined {
  const graph = decisionGraph(compiled.diagrams, form, table.columns, IMPOSSIBLE);
  if (graph.vertices.filter(({ kind }) => kind === 'question').length < 2) return undefined;
  const vertices = graph.vertices.map((vertex, index): FlowVertex => {
    const id = `v${index}`;
    if (vertex.kind === 'question')
      return { id, kind: 'question', text: variableTitle(meaningAt(compiled, vertex.level), on) };
    const state = outcomeView(compiled, attribute, vertex.outcome);
    const { glyph, colour } = state;
    return { id, kind: 'state', text: upperFirst(state.text), glyph, ...(colour === undefined ? {} : { colour }) };
  });
  const answers = graph.edges.flatMap(({ from, to, values }) => {
    const vertex = graph.vertices[from];
    if (vertex?.kind !== 'question') throw new Error('an edge leaves an outcome');
    const meaning = meaningAt(compiled, vertex.level);
    // A number is said in intervals, so that cells which do not touch need an edge each.
    const parts = meaning.kind === 'number' ? runs(values) : [values];
    return parts.map((part) => ({ from, to, first: part[0] as number, label: valuesTitle(meaning, part, on) }));
  });
  const edges = answers
    .toSorted((a, b) => a.from - b.from || a.first - b.first)
    .map(({ from, to, label }): FlowEdge => ({ from: `v${from}`, to: `v${to}`, label }));
  return { ...words, parts: partViews(words, flowParts(vertices, edges)) };
}

/** The parts with their names: one alone goes by the flow's title, several are numbered. */
function partViews({ id, title }: { id: string; title: string }, cuts: readonly FlowCut[]): FlowPart[] {
  const nameOf = (root: string): string => `Part ${cuts.findIndex((cut) => cut.root === root) + 1}`;
  return cuts.map((cut, index): FlowPart => {
    const { root, edges, goesOn } = cut;
    const vertices = cut.vertices.map((vertex) => {
      const next = goesOn.get(vertex.id);
      return next === undefined ? vertex : { ...vertex, text: nameOf(next) };
    });
    const after = answersBefore(cut, cuts);
    return {
      id: index === 0 ? `${id}-drawing` : `${id}-part-${index + 1}`,
      title: cuts.length === 1 ? title : `${nameOf(root)}: ${vertices[0]?.text ?? ''}`,
      ...(after === undefined ? {} : { after }),
      vertices,
      edges,
      mermaid: mermaidText(vertices, edges),
    };
  });
}

/** The answers that lead from the first part to this one; undefined where none or several ways do. */
function answersBefore(cut: FlowCut, cuts: readonly FlowCut[]): string | undefined {
  const ways = cuts.flatMap((before) =>
    [...before.goesOn].filter(([, root]) => root === cut.root).map(([end]) => ({ before, end })),
  );
  const [way] = ways;
  if (way === undefined || ways.length > 1) return undefined;
  const { before, end } = way;
  const answers: string[] = [];
  for (let edge = before.edges.find(({ to }) => to === end); edge; ) {
    const { from, label }: FlowEdge = edge;
    answers.unshift(`${before.vertices.find(({ id }) => id === from)?.text ?? ''} ${label}`);
    edge = before.edges.find(({ to }) => to === from);
  }
  if (before === cuts[0]) return answers.join(', ');
  const earlier = answersBefore(before, cuts);
  return earlier === undefined ? undefined : [earlier, ...answers].join(', ');
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
