/** Flows for tests: random ones, and a few by hand. */
import fc from 'fast-check';
import type { FlowEdge, FlowPart, FlowVertex } from '../../src/book/book.ts';

const text = fc.oneof(
  fc.constantFrom(
    'OFF',
    'ON',
    'AUTO',
    'in',
    'set',
    'released',
    'on the ground',
    'above 240 kt',
    '10,200 ft or below',
    'AC bus 2 <lost> & "x"',
  ),
  fc
    .array(fc.constantFrom('engine', '1', 'start', 'lever', 'W', 'anti-collision', 'ünder', '≥', '中'), {
      minLength: 1,
      maxLength: 12,
    })
    .map((list) => list.join(' ')),
  fc.string({ minLength: 1, maxLength: 30 }).filter((each) => each.trim() !== ''),
);
const glyphs = ['dark', 'lit', 'flashing', 'none', 'not-fitted', 'impossible'] as const;

/** Texts for the vertices of a tree or graph, and labels for the edges that lead to them. */
function words(most: number): fc.Arbitrary<{ texts: string[]; labels: string[]; parents: number[]; reach: number }> {
  return fc
    .record({ count: fc.integer({ min: 2, max: most }), reach: fc.integer({ min: 1, max: most }) })
    .chain(({ count, reach }) => {
      const list = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T[]> => fc.array(of, { minLength: count, maxLength: count });
      const labels = list(fc.oneof({ weight: 9, arbitrary: text }, fc.constant('')));
      return fc.record({ texts: list(text), labels, parents: list(fc.nat()), reach: fc.constant(reach) });
    });
}

function vertexOf(index: number, text: string, asks: boolean): FlowVertex {
  const id = `v${index}`;
  if (asks) return { id, kind: 'question', text };
  if (index % 7 === 6) return { id, kind: 'part', text };
  return { id, kind: 'state', text, glyph: glyphs[index % glyphs.length] as (typeof glyphs)[number] };
}

/** Parts of flows: trees of 2 to `most` vertices, whose questions have up to four answers, some of them without words. */
export function flows(most = 26): fc.Arbitrary<FlowPart> {
  return words(most).map(({ texts, labels, parents, reach }) => {
    const edges: FlowEdge[] = [];
    for (let to = 1; to < texts.length; to += 1) {
      const wanted = Math.max(0, to - 1 - ((parents[to] as number) % reach));
      const full = edges.filter(({ from }) => from === `v${wanted}`).length >= 4;
      edges.push({ from: `v${full ? to - 1 : wanted}`, to: `v${to}`, label: labels[to] as string });
    }
    const vertices = texts.map((each, i) =>
      vertexOf(
        i,
        each,
        edges.some(({ from }) => from === `v${i}`),
      ),
    );
    return { id: 'f', title: 'A <flow> & more', vertices, edges, mermaid: '' };
  });
}

/** Flows before they are taken apart: as trees, with further edges from earlier to later vertices. */
export function graphs(most = 40): fc.Arbitrary<{ vertices: FlowVertex[]; edges: FlowEdge[] }> {
  const more = fc.array(fc.tuple(fc.nat(), fc.nat(), text), { maxLength: 2 * most });
  return fc.tuple(flows(most), more).map(([{ vertices, edges }, further]) => {
    const all = [...edges];
    for (const [a, b, label] of further) {
      const to = 1 + (b % (vertices.length - 1));
      const from = a % to;
      if (all.some((edge) => edge.from === `v${from}`)) all.push({ from: `v${from}`, to: `v${to}`, label });
    }
    const asks = (id: string): boolean => all.some(({ from }) => from === id);
    return {
      vertices: vertices.map((vertex, i) => ({ ...vertexOf(i, vertex.text, asks(vertex.id)), text: vertex.text })),
      edges: all,
    };
  });
}

/** A three-position switch whose middle position asks further questions. */
export const LOGO_FLOW: FlowPart = {
  id: 'logo',
  title: 'Logo lights, normal cases',
  vertices: [
    { id: 'switch', kind: 'question', text: 'Logo switch' },
    { id: 'off', kind: 'state', text: 'Dark', glyph: 'dark' },
    { id: 'gear', kind: 'question', text: 'Main gear struts' },
    { id: 'brake', kind: 'question', text: 'Parking brake' },
    { id: 'set', kind: 'state', text: 'Lit', glyph: 'lit' },
    { id: 'released', kind: 'state', text: 'Dark', glyph: 'dark' },
    { id: 'further', kind: 'part', text: 'Part 2' },
    { id: 'on', kind: 'state', text: 'Lit', glyph: 'lit' },
  ],
  edges: [
    { from: 'switch', to: 'off', label: 'OFF' },
    { from: 'switch', to: 'gear', label: 'AUTO' },
    { from: 'gear', to: 'brake', label: 'compressed' },
    { from: 'brake', to: 'set', label: 'set' },
    { from: 'brake', to: 'released', label: 'released' },
    { from: 'gear', to: 'further', label: 'extended' },
    { from: 'switch', to: 'on', label: 'ON' },
  ],
  mermaid: '',
};
