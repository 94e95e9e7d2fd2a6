import fc from 'fast-check';
import { Window } from 'happy-dom';
import { describe, expect, test } from 'vitest';
import type { FlowPart } from '../../src/book/book.ts';
import { flowDrawings, WIDTHS } from '../../src/figures/index.ts';
import { flows, LOGO_FLOW } from '../helpers/flows.ts';

const window = new Window();
function read(svg: string): Element {
  const holder = window.document.createElement('div');
  holder.innerHTML = svg;
  return holder.firstElementChild as unknown as Element;
}

/** As a reader sees it: without control characters, most of which XML forbids, and with white space as one space. */
function visible(text: string | null): string {
  return (text ?? '')
    .replace(/(?!\s)\p{Cc}/gu, '')
    .replace(/\s+/g, ' ')
    .trim();
}

/** The drawings of a part: one, or one for each of two widths. */
function all(part: FlowPart): string[] {
  const { broad, narrow } = flowDrawings(part);
  return narrow === undefined ? [broad] : [broad, narrow];
}

function texts(svg: Element): string[] {
  return [...svg.querySelectorAll('text')].map((element) => visible(element.textContent));
}

describe('The drawing of a flow', () => {
  test('says each vertex’s and each edge’s words exactly once', () => {
    fc.assert(
      fc.property(flows(), (flow) => {
        const words = [...flow.vertices.map(({ text }) => text), ...flow.edges.map(({ label }) => label)];
        const expected = words.map(visible).filter((text) => text !== '');
        for (const svg of all(flow)) expect(texts(read(svg)).sort()).toEqual(expected.sort());
      }),
      { numRuns: 30 },
    );
  });

  test('draws one line an edge, an arrow into each vertex that is reached, and a shape a vertex', () => {
    fc.assert(
      fc.property(flows(20), (flow) => {
        const svg = read(all(flow).at(-1) as string);
        const lines = svg.querySelector('.flow-line')?.getAttribute('d') ?? '';
        expect(lines.split('M').length - 1).toBe(flow.edges.length);
        expect(svg.querySelectorAll('.flow-arrow').length).toBe(flow.vertices.length - 1);
        for (const kind of ['question', 'state', 'part']) {
          expect(svg.querySelectorAll(`.flow-${kind}`).length).toBe(
            flow.vertices.filter((vertex) => vertex.kind === kind).length,
          );
        }
      }),
      { numRuns: 30 },
    );
  });

  test('is an image with a title and a description, and its ids carry the prefix', () => {
    const svg = read(flowDrawings(LOGO_FLOW, { idPrefix: 'g2-' }).broad);
    expect(svg.getAttribute('role')).toBe('img');
    expect(svg.querySelector('title')?.textContent).toBe('Logo lights, normal cases');
    expect(svg.querySelector('desc')?.textContent).toContain('3 questions, 4 outcomes');
    const ids = [...svg.querySelectorAll('[id]')].map(({ id }) => id);
    expect(ids).toEqual(['g2-logo-title', 'g2-logo-text']);
    expect([svg.getAttribute('aria-labelledby'), svg.getAttribute('aria-describedby')]).toEqual(ids);
  });

  test('is made twice where what suits a desk is too wide for a phone, with ids of their own', () => {
    const long = LOGO_FLOW.edges.map((edge) => ({ ...edge, label: `${edge.label} and everything else as before` }));
    const { broad, narrow } = flowDrawings({ ...LOGO_FLOW, edges: long });
    const [wide, small] = [read(broad), read(narrow ?? '')];
    expect([wide, small].map((svg) => svg.getAttribute('class'))).toEqual([
      'flow-drawing broad',
      'flow-drawing narrow',
    ]);
    expect(Number(wide.getAttribute('width'))).toBeLessThanOrEqual(WIDTHS.broad);
    expect(Number(small.getAttribute('width'))).toBeLessThanOrEqual(WIDTHS.narrow);
    const ids = [wide, small].flatMap((svg) => [...svg.querySelectorAll('[id]')].map(({ id }) => id));
    expect(new Set(ids).size).toBe(4);
    const [vertices, edges] = [LOGO_FLOW.vertices.slice(0, 2), LOGO_FLOW.edges.slice(0, 1)];
    expect(flowDrawings({ ...LOGO_FLOW, vertices, edges }).narrow).toBeUndefined();
  });

  test('holds no style of its own, no script and nothing from elsewhere', () => {
    const svg = read(flowDrawings(LOGO_FLOW).broad);
    const elements = [svg, ...svg.querySelectorAll('*')];
    expect(elements.length).toBeGreaterThan(20);
    for (const element of elements) {
      expect(['style', 'script', 'image', 'use', 'foreignobject']).not.toContain(element.localName.toLowerCase());
      for (const { name } of [...element.attributes]) expect(name).not.toMatch(/^(style|on.*|href|xlink:href)$/);
    }
  });

  test('puts each state’s glyph before its word', () => {
    const svg = read(flowDrawings(LOGO_FLOW).broad);
    const glyphs = [...svg.querySelectorAll('.glyph')].map((glyph) => [
      glyph.getAttribute('class'),
      glyph.nextElementSibling?.textContent,
    ]);
    expect(glyphs).toEqual([
      ['glyph dark', 'Dark'],
      ['glyph lit', 'Lit'],
      ['glyph dark', 'Dark'],
      ['glyph lit', 'Lit'],
    ]);
  });

  test('is the same each time', () => {
    fc.assert(
      fc.property(
        flows(20),
        (flow: FlowPart) => JSON.stringify(flowDrawings(flow)) === JSON.stringify(flowDrawings(structuredClone(flow))),
      ),
      { numRuns: 20 },
    );
  });
});
