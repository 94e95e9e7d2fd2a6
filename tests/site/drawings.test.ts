/** The drawings of the demo, as they stand on its pages, keep to the places that they are made for. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, inject, test } from 'vitest';
import { WIDTHS } from '../../src/figures/index.ts';

/** What is left of A4 for a drawing: 297 mm less the margins, at 96 px an inch and the size in print of 0.85. */
const TALLEST = ((297 - 15 - 24) / 25.4) * (96 / 0.85);

interface Drawing {
  readonly page: string;
  readonly svg: string;
  readonly variant: string;
  readonly width: number;
  readonly height: number;
}
interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

let drawings: Drawing[] = [];

beforeAll(() => {
  const site = inject('demoSite');
  const pages = readdirSync(site, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.html'));
  drawings = pages.toSorted().flatMap((page) =>
    [...readFileSync(join(site, page), 'utf8').matchAll(/<svg class="flow-drawing ?([a-z]*)"[^>]*>.*?<\/svg>/gs)].map(
      ([svg, variant = '']) => ({
        page,
        svg,
        variant,
        width: lengthOf(svg, 'width'),
        height: lengthOf(svg, 'height'),
      }),
    ),
  );
});

function lengthOf(tag: string, name: string): number {
  return Number(new RegExp(` ${name}="([\\d.]+)"`).exec(tag)?.[1]);
}

/** The rectangles of a class, by their upper left corners. */
function rectangles(svg: string, name: string): Box[] {
  return [...svg.matchAll(new RegExp(`<rect class="${name}"[^>]*>`, 'g'))].map(([tag]) => ({
    x: lengthOf(tag, 'x'),
    y: lengthOf(tag, 'y'),
    width: lengthOf(tag, 'width'),
    height: lengthOf(tag, 'height'),
  }));
}

/** The boxes of the questions, which are drawn as paths of absolute points. */
function hexagons(svg: string): Box[] {
  return [...svg.matchAll(/<path class="flow-question" d="M([^z]*)z"/g)].map(([, points = '']) => {
    const places = points.split('L').map((point) => point.split(' ').map(Number));
    const [xs, ys] = [places.map(([x = 0]) => x), places.map(([, y = 0]) => y)];
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
  });
}

function overlap(a: Box, b: Box): boolean {
  // Places are written to a hundredth.
  const more = (least: number, than: number): boolean => least > than + 0.02;
  return more(a.x + a.width, b.x) && more(b.x + b.width, a.x) && more(a.y + a.height, b.y) && more(b.y + b.height, a.y);
}

describe('the drawings of the demo', () => {
  test('fit a phone, or have a twin that does and fit a column of text', () => {
    expect(drawings.length).toBeGreaterThan(300);
    for (const { page, variant, width } of drawings)
      expect(width, page).toBeLessThanOrEqual(variant === 'broad' ? WIDTHS.broad : WIDTHS.narrow);
    const count = (wanted: string): number => drawings.filter(({ variant }) => variant === wanted).length;
    expect(count('broad')).toBe(count('narrow'));
  });

  test('fit a sheet without being made smaller than others', () => {
    for (const { page, variant, height } of drawings)
      if (variant !== 'narrow') expect(height, page).toBeLessThanOrEqual(TALLEST);
  });

  test('have answers, states and questions that overlap nowhere', () => {
    const flows = drawings.filter(({ svg }) => svg.includes('flow-question'));
    expect(flows.length).toBeGreaterThan(250);
    for (const { page, svg } of flows) {
      const boxes = [...rectangles(svg, 'flow-behind'), ...rectangles(svg, 'flow-state'), ...hexagons(svg)];
      boxes.forEach((box, at) => {
        for (const other of boxes.slice(at + 1)) expect(overlap(box, other), page).toBe(false);
      });
    }
  });
});
