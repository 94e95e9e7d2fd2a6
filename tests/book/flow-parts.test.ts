import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowEdge, FlowVertex } from '../../src/book/book.ts';
import { type FlowCut, flowParts } from '../../src/book/flow-parts.ts';
import { graphs } from '../helpers/flows.ts';

const RUNS = { numRuns: 80 };

/** Questions and ends in all, and questions one after another. */
function size({ vertices, edges }: FlowCut): { rows: number; deep: number } {
  const below = (id: string): number => {
    const own = edges.filter(({ from }) => from === id);
    return own.length === 0 ? 0 : 1 + Math.max(...own.map(({ to }) => below(to)));
  };
  return { rows: vertices.length, deep: below(vertices[0]?.id ?? '') };
}

/**
 * Follows choices through the parts and through the flow, each choice the answer of that number, and gives the words met
 * on both ways. The parts are joined where one names another.
 */
function bothWays(
  vertices: readonly FlowVertex[],
  edges: readonly FlowEdge[],
  parts: readonly FlowCut[],
  choices: readonly number[],
): [string[], string[]] {
  const inFlow: string[] = [];
  let at = vertices[0]?.id as string;
  for (const choice of [...choices, 0]) {
    inFlow.push(vertices.find(({ id }) => id === at)?.text ?? '');
    const own = edges.filter(({ from }) => from === at);
    const edge = own[choice % own.length];
    if (edge === undefined) break;
    inFlow.push(edge.label);
    at = edge.to;
  }
  const inParts: string[] = [];
  let part = parts[0] as FlowCut;
  let vertex = part.vertices[0] as FlowVertex;
  for (const choice of [...choices, 0]) {
    const root = part.goesOn.get(vertex.id);
    if (root !== undefined) {
      part = parts.find((other) => other.root === root) as FlowCut;
      vertex = part.vertices[0] as FlowVertex;
    }
    inParts.push(vertex.text);
    const own = part.edges.filter(({ from }) => from === vertex.id);
    const edge = own[choice % own.length];
    if (edge === undefined) break;
    inParts.push(edge.label);
    vertex = part.vertices.find(({ id }) => id === edge.to) as FlowVertex;
  }
  return [inFlow, inParts];
}

describe('The parts of a flow', () => {
  test('joined, ask the same questions and reach the same ends by the same answers', () => {
    const choices = fc.array(fc.nat({ max: 11 }), { minLength: 40, maxLength: 40 });
    fc.assert(
      fc.property(graphs(), fc.array(choices, { minLength: 8, maxLength: 8 }), ({ vertices, edges }, walks) => {
        const parts = flowParts(vertices, edges);
        for (const walk of walks) {
          const [inFlow, inParts] = bothWays(vertices, edges, parts, walk);
          expect(inParts).toEqual(inFlow);
        }
      }),
      RUNS,
    );
  });

  test('are trees from their first vertex, each named by an earlier one, the flow’s own first', () => {
    fc.assert(
      fc.property(graphs(), ({ vertices, edges }) => {
        const parts = flowParts(vertices, edges);
        expect(parts[0]?.root).toBe(vertices[0]?.id);
        expect(new Set(parts.map(({ root }) => root)).size).toBe(parts.length);
        parts.forEach((part, at) => {
          const ids = part.vertices.map(({ id }) => id);
          expect(part.edges.map(({ to }) => to).toSorted()).toEqual(ids.slice(1).toSorted());
          expect([...part.goesOn.keys()]).toEqual(
            part.vertices.filter(({ kind, text }) => kind === 'part' && text === '').map(({ id }) => id),
          );
          if (at === 0) return;
          expect(parts.slice(0, at).some(({ goesOn }) => [...goesOn.values()].includes(part.root))).toBe(true);
        });
      }),
      RUNS,
    );
  });

  test('hold at most 18 questions and ends, five questions deep, unless nothing can be cut off that would be worth it', () => {
    fc.assert(
      fc.property(graphs(), ({ vertices, edges }) => {
        for (const part of flowParts(vertices, edges)) {
          const { rows, deep } = size(part);
          if (rows <= 18 && deep <= 5) continue;
          // What is left asks for the first question, and then for at most one more on each way.
          expect(deep).toBeLessThanOrEqual(2);
        }
      }),
      RUNS,
    );
  });

  test('are one where the flow is small, with its sub-decisions as often as ways lead to them', () => {
    const question = (id: string): FlowVertex => ({ id, kind: 'question', text: id });
    const state = (id: string): FlowVertex => ({ id, kind: 'state', text: id, glyph: 'none' });
    const vertices = [question('switch'), question('gear'), state('dark'), state('lit')];
    const edges = ['1 gear', '2 gear', '3 lit'].map((line) => {
      const [label = '', to = ''] = line.split(' ');
      return { from: 'switch', to, label };
    });
    edges.push({ from: 'gear', to: 'dark', label: 'up' }, { from: 'gear', to: 'lit', label: 'down' });
    const parts = flowParts(vertices, edges);
    expect(parts).toHaveLength(1);
    expect(parts[0]?.vertices.map(({ text }) => text)).toEqual('switch gear dark lit gear dark lit lit'.split(' '));
  });

  test('draw a sub-decision once that makes a flow too large by recurring', () => {
    const texts = ['selector', 'one', 'two', 'three', 'four', 'supplies', 'battery', 'bus', 'dark', 'lit'];
    const vertices = texts.map(
      (text): FlowVertex =>
        ['dark', 'lit'].includes(text) ? { id: text, kind: 'state', text } : { id: text, kind: 'question', text },
    );
    const edges = ['one', 'two', 'three', 'four'].flatMap((to) => [
      { from: 'selector', to, label: to },
      { from: to, to: 'supplies', label: 'yes' },
      { from: to, to: 'dark', label: 'no' },
    ]);
    for (const [from, to] of [
      ['supplies', 'battery'],
      ['battery', 'bus'],
    ] as const)
      edges.push({ from, to, label: 'yes' }, { from, to: 'dark', label: 'no' });
    edges.push({ from: 'bus', to: 'lit', label: 'yes' }, { from: 'bus', to: 'dark', label: 'no' });
    const [first, ...others] = flowParts(vertices, edges);
    expect(others.map(({ root }) => root)).toEqual(['supplies']);
    expect([...(first?.goesOn.values() ?? [])]).toEqual(['supplies', 'supplies', 'supplies', 'supplies']);
  });

  test('of a flow with far too many ways are found without walking them', () => {
    // Thirty questions, each asked whatever the answer before: 2^30 ways.
    const vertices = Array.from(
      { length: 31 },
      (_, i): FlowVertex => ({
        id: `v${i}`,
        kind: i < 30 ? 'question' : 'state',
        text: `${i}`,
      }),
    );
    const edges = vertices
      .slice(1)
      .flatMap(({ id }, i) => ['yes', 'no'].map((label) => ({ from: `v${i}`, to: id, label })));
    const parts = flowParts(vertices, edges);
    expect(Math.max(...parts.map((part) => size(part).rows))).toBeLessThanOrEqual(18);
    expect(
      parts.reduce((sum, part) => sum + part.vertices.filter(({ kind }) => kind === 'question').length, 0),
    ).toBeLessThan(120);
  });
});
