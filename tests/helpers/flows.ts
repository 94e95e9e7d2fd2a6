/** Flows for tests: random ones, and a few by hand. */
import fc from 'fast-check';
import type { FlowEdge, FlowVertex, FlowView } from '../../src/book/book.ts';

const words = fc.oneof(
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
  fc.string({ minLength: 1, maxLength: 30 }).filter((text) => text.trim() !== ''),
);
const glyphs = ['dark', 'lit', 'flashing', 'none', 'not-fitted', 'impossible'] as const;

/**
 * Flows of 2 to `most` vertices: the first is the only one that nothing leads to, edges lead from an earlier vertex to a
 * later one, questions have up to four answers, some of them without words, some with the same target.
 */
export function flows(most = 40): fc.Arbitrary<FlowView> {
  return fc
    .record({ count: fc.integer({ min: 2, max: most }), reach: fc.integer({ min: 1, max: most }) })
    .chain(({ count, reach }) =>
      fc.record({
        texts: fc.array(words, { minLength: count, maxLength: count }),
        parents: fc.array(fc.nat(), { minLength: count, maxLength: count }),
        more: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.option(words, { nil: '' })), { maxLength: 2 * count }),
        labels: fc.array(words, { minLength: count, maxLength: count }),
        reach: fc.constant(reach),
      }),
    )
    .map(({ texts, parents, more, labels, reach }) => {
      const edges: FlowEdge[] = [];
      const add = (from: number, to: number, label: string): void => {
        const answers = edges.filter((edge) => edge.from === `v${from}`).length;
        if (answers < 4) edges.push({ from: `v${from}`, to: `v${to}`, label });
        else edges.push({ from: `v${to - 1}`, to: `v${to}`, label });
      };
      for (let to = 1; to < texts.length; to += 1)
        add(Math.max(0, to - 1 - ((parents[to] as number) % reach)), to, labels[to] as string);
      for (const [a, b, label] of more) {
        const to = 1 + (b % (texts.length - 1));
        add(a % to, to, label);
      }
      const asks = new Set(edges.map(({ from }) => from));
      const vertices = texts.map((text, i): FlowVertex => {
        const id = `v${i}`;
        if (asks.has(id)) return { id, kind: 'question', text };
        return { id, kind: 'state', text, glyph: glyphs[i % glyphs.length] as (typeof glyphs)[number] };
      });
      return { id: 'f', title: 'A <flow> & more', vertices, edges, mermaid: '' };
    });
}

/** A three-position switch whose middle position asks further questions. */
export const LOGO_FLOW: FlowView = {
  id: 'logo',
  title: 'Logo lights, normal cases',
  vertices: [
    { id: 'switch', kind: 'question', text: 'Logo switch' },
    { id: 'gear', kind: 'question', text: 'Main gear struts' },
    { id: 'brake', kind: 'question', text: 'Parking brake' },
    { id: 'slats', kind: 'question', text: 'Slats' },
    { id: 'dark', kind: 'state', text: 'Dark', glyph: 'dark' },
    { id: 'lit', kind: 'state', text: 'Lit', glyph: 'lit' },
  ],
  edges: [
    { from: 'switch', to: 'dark', label: 'OFF' },
    { from: 'switch', to: 'gear', label: 'AUTO' },
    { from: 'switch', to: 'lit', label: 'ON' },
    { from: 'gear', to: 'brake', label: 'compressed' },
    { from: 'gear', to: 'slats', label: 'extended' },
    { from: 'brake', to: 'lit', label: 'set' },
    { from: 'brake', to: 'dark', label: 'released' },
    { from: 'slats', to: 'dark', label: 'in' },
    { from: 'slats', to: 'lit', label: 'out' },
  ],
  mermaid: '',
};
