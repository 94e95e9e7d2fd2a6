import fc from 'fast-check';
import { Window } from 'happy-dom';
import { describe, expect, test } from 'vitest';
import type { FlowView } from '../../src/book/book.ts';
import { flowSvg } from '../../src/figures/index.ts';
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

function texts(svg: Element): string[] {
  return [...svg.querySelectorAll('text')].map((element) => visible(element.textContent));
}

describe('The drawing of a flow', () => {
  test('says each vertex’s and each edge’s words exactly once', () => {
    fc.assert(
      fc.property(flows(), (flow) => {
        const words = [...flow.vertices.map(({ text }) => text), ...flow.edges.map(({ label }) => label)];
        const expected = words.map(visible).filter((text) => text !== '');
        expect(texts(read(flowSvg(flow))).sort()).toEqual(expected.sort());
      }),
      { numRuns: 60 },
    );
  });

  test('draws one line an edge, an arrow into each vertex that is reached, and a shape a vertex', () => {
    fc.assert(
      fc.property(flows(20), (flow) => {
        const svg = read(flowSvg(flow));
        const lines = svg.querySelector('.flow-line')?.getAttribute('d') ?? '';
        expect(lines.split('M').length - 1).toBe(flow.edges.length);
        expect(svg.querySelectorAll('.flow-arrow').length).toBe(flow.vertices.length - 1);
        for (const kind of ['question', 'state']) {
          expect(svg.querySelectorAll(`.flow-${kind}`).length).toBe(
            flow.vertices.filter((vertex) => vertex.kind === kind).length,
          );
        }
      }),
      { numRuns: 30 },
    );
  });

  test('is an image with a title and a description, and its ids carry the prefix', () => {
    const svg = read(flowSvg(LOGO_FLOW, { idPrefix: 'g2-' }));
    expect(svg.getAttribute('role')).toBe('img');
    expect(svg.querySelector('title')?.textContent).toBe('Logo lights, normal cases');
    expect(svg.querySelector('desc')?.textContent).toContain('4 questions, 2 outcomes');
    const ids = [...svg.querySelectorAll('[id]')].map(({ id }) => id);
    expect(ids).toEqual(['g2-logo-drawing-title', 'g2-logo-drawing-text']);
    expect([svg.getAttribute('aria-labelledby'), svg.getAttribute('aria-describedby')]).toEqual(ids);
  });

  test('holds no style of its own, no script and nothing from elsewhere', () => {
    const svg = read(flowSvg(LOGO_FLOW));
    const elements = [svg, ...svg.querySelectorAll('*')];
    expect(elements.length).toBeGreaterThan(20);
    for (const element of elements) {
      expect(['style', 'script', 'image', 'use', 'foreignobject']).not.toContain(element.localName.toLowerCase());
      for (const { name } of [...element.attributes]) expect(name).not.toMatch(/^(style|on.*|href|xlink:href)$/);
    }
  });

  test('puts each state’s glyph before its word', () => {
    const svg = read(flowSvg(LOGO_FLOW));
    const glyphs = [...svg.querySelectorAll('.glyph')].map((glyph) => [
      glyph.getAttribute('class'),
      glyph.nextElementSibling?.textContent,
    ]);
    expect(glyphs).toEqual([
      ['glyph dark', 'Dark'],
      ['glyph lit', 'Lit'],
    ]);
  });

  test('is the same each time', () => {
    fc.assert(
      fc.property(flows(20), (flow: FlowView) => flowSvg(flow) === flowSvg(structuredClone(flow))),
      { numRuns: 20 },
    );
  });
});
