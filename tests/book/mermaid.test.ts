import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlowEdge, FlowVertex } from '../../src/book/book.ts';
import { mermaidLabel, mermaidText, plainLabel } from '../../src/book/mermaid.ts';
import { readMermaid } from '../helpers/mermaid-graph.ts';

const AWKWARD = [
  '"',
  "'",
  '`',
  '|',
  '#',
  '##35;',
  '#35;',
  '&',
  '&amp;',
  '&lt;',
  '<',
  '>',
  '<br>',
  '<b>x</b>',
  '(',
  ')',
  '(x)',
  '[x]',
  '{x}',
  '%',
  '%%',
  '%%{init: {}}%%',
  'end',
  'End',
  'graph',
  'subgraph x',
  'style a:#fff;',
  'style:#35;',
  'classDef a:#x;',
  ';',
  ':',
  'a:b',
  'a: b',
  '±',
  '≥ 88 %',
  '≤',
  '10,500 ft ± 300 ft',
  '-->',
  '---',
  '- x',
  '+ x',
  '1. x',
  '12. x',
  '1.5',
  '*x*',
  '_x_',
  '$$x$$',
  '\\n',
  '\n',
  '\t',
  ' ',
  ' x ',
  'a  b',
  '\u00a0',
  '\ufb02\u00b0\u00b035\u00b6\u00df',
  'ﬂ',
  '@',
  '~~~',
  '^',
  'javascript:x',
  'https://x.example/',
  'é',
  'Ω',
  '中',
  '😀',
  'fa:fa-car',
  '---\ntitle: x\n---',
  '/x/',
  '\\x\\',
  '0',
  '',
];
const label = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.array(fc.constantFrom(...AWKWARD), { maxLength: 5 }).map((parts) => parts.join('')),
  fc.array(fc.constantFrom(...AWKWARD, 'Logo switch', 'AUTO'), { maxLength: 4 }).map((parts) => parts.join(' ')),
);

const KINDS = ['question', 'state', 'part'] as const;
const SHAPES = { question: 'hexagon', state: 'stadium', part: 'subroutine' };

/** Vertices with the given texts, and an edge with each of the labels, cycling through the vertices. */
function graph(texts: readonly string[], labels: readonly string[]): { vertices: FlowVertex[]; edges: FlowEdge[] } {
  const vertices = texts.map(
    (text, i): FlowVertex => ({ id: `v${i}`, kind: KINDS[i % 3] as FlowVertex['kind'], text }),
  );
  const edges = labels.map((text, i) => ({
    from: `v${i % texts.length}`,
    to: `v${(i + 1) % texts.length}`,
    label: text,
  }));
  return { vertices, edges };
}

async function expectReadBack(texts: readonly string[], labels: readonly string[]): Promise<void> {
  const { vertices, edges } = graph(texts, labels);
  const read = await readMermaid(mermaidText(vertices, edges));
  expect(read.vertices).toEqual(vertices.map(({ id, kind, text }) => ({ id, text, shape: SHAPES[kind] })));
  expect(read.edges).toEqual(edges);
}

describe('Mermaid text', () => {
  test('is one line a vertex and an edge, written plainly where nothing needs care', () => {
    const vertices: FlowVertex[] = [
      { id: 'q0', kind: 'question', text: 'Logo switch' },
      { id: 's0', kind: 'state', text: 'lit', glyph: 'lit' },
      { id: 's1', kind: 'state', text: 'dark', glyph: 'dark' },
    ];
    const edges = [
      { from: 'q0', to: 's1', label: 'OFF' },
      { from: 'q0', to: 's0', label: 'AUTO | ON' },
    ];
    expect(mermaidText(vertices, edges)).toBe(
      'flowchart TD\n  q0{{"Logo switch"}}\n  s0(["lit"])\n  s1(["dark"])\n  q0 -->|"OFF"| s1\n  q0 -->|"AUTO #124; ON"| s0\n',
    );
  });

  test.each(AWKWARD)('gives the label %j back through Mermaid’s own parser', async (text) => {
    await expectReadBack([text, 'x'], [text, 'y']);
  });

  test('gives any labels back through Mermaid’s own parser, in order', async () => {
    const texts = fc.array(label, { minLength: 1, maxLength: 6 });
    await fc.assert(fc.asyncProperty(texts, fc.array(label, { maxLength: 8 }), expectReadBack), { numRuns: 150 });
  });

  test('escapes every label reversibly', () => {
    fc.assert(fc.property(label, (text) => plainLabel(mermaidLabel(text)) === text));
  });

  test('keeps hyphenated ids and several edges between the same two vertices', async () => {
    const vertices: FlowVertex[] = [
      { id: 'logo-switch', kind: 'question', text: 'a' },
      { id: 'o', kind: 'state', text: 'b' },
      { id: 'x_2-b', kind: 'state', text: 'c' },
    ];
    const edges = [
      { from: 'logo-switch', to: 'o', label: '1' },
      { from: 'logo-switch', to: 'o', label: '2' },
      { from: 'logo-switch', to: 'x_2-b', label: '' },
    ];
    const read = await readMermaid(mermaidText(vertices, edges));
    expect(read.vertices.map(({ id }) => id)).toEqual(['logo-switch', 'o', 'x_2-b']);
    expect(read.edges).toEqual(edges);
  });

  test.each(['end', 'the-end', 'a b', '1a', 'a--b', 'a.', '', 'Style'])('refuses the id %j', (id) => {
    expect(() => mermaidText([{ id, kind: 'question', text: 'x' }], [])).toThrow('cannot be the id of a vertex');
  });
});
