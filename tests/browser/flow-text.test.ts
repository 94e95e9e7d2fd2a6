import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { flowDrawings } from '../../src/figures/index.ts';
import { launchChromium } from '../helpers/chromium.ts';
import { flows, LOGO_FLOW } from '../helpers/flows.ts';

const FONT =
  'node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2';
const font = `data:font/woff2;base64,${readFileSync(FONT).toString('base64')}`;
const css = readFileSync('src/styles/figures.css', 'utf8');
const samples = [LOGO_FLOW, ...fc.sample(flows(30), { numRuns: 8, seed: 7 })];

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
}, 60_000);
afterAll(() => browser?.close());

test('every word of a flow, as Chromium sets it, lies inside its shape or on its label’s ground', {
  timeout: 60_000,
}, async () => {
  const page = await browser.newPage();
  await page.setContent(`<!doctype html><style>
    @font-face { font-family: Book; src: url(${font}); font-weight: 200 800 }
    body { font-family: Book, sans-serif } ${css} .flow-drawing.broad { display: block }
  </style>${samples.map((flow) => flowDrawings(flow).broad).join('')}`);
  const measured = await page.evaluate(async () => {
    await Promise.all([400, 650].map((weight) => document.fonts.load(`${weight} 14px Book`)));
    return [...document.querySelectorAll<SVGTextElement>('svg text')].map((text) => {
      let shape = text.previousElementSibling as SVGGraphicsElement;
      if (shape.localName === 'g') shape = shape.previousElementSibling as SVGGraphicsElement;
      const svg = (text.ownerSVGElement as SVGSVGElement).getBoundingClientRect();
      const outer = shape.getBBox();
      const rooms = [...text.children].map((line) => {
        // Without the space that parts a line from the next.
        const letters = line.firstChild as Text;
        const range = document.createRange();
        range.setStart(letters, 0);
        range.setEnd(letters, letters.data.trimEnd().length);
        const inner = range.getBoundingClientRect();
        return [
          inner.left - svg.left - outer.x,
          outer.x + outer.width + svg.left - inner.right,
          inner.top - svg.top - outer.y,
          outer.y + outer.height + svg.top - inner.bottom,
        ] as const;
      });
      return { words: text.textContent, shape: shape.getAttribute('class') ?? '', rooms };
    });
  });
  await page.close();

  const words = samples.flatMap(({ vertices, edges }) => [
    ...vertices.map(({ text }) => text),
    ...edges.map(({ label }) => label),
  ]);
  expect(measured).toHaveLength(words.filter((text) => text.trim() !== '').length);
  for (const { words: text, shape, rooms } of measured) {
    // A hexagon's corners stand 10 units in from its points; the others have straight sides where the words are.
    const side = shape === 'flow-question' ? 10 : 2;
    expect(rooms.length).toBeGreaterThan(0);
    for (const [left, right, top, bottom] of rooms) {
      for (const room of [left - side, right - side, top, bottom]) {
        // Places are written to a hundredth.
        expect(room, `${text} in ${shape}`).toBeGreaterThanOrEqual(-0.01);
      }
    }
  }
});
