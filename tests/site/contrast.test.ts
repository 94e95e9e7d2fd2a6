/**
 * Text contrast, computed from the style files by the published formulas: relative luminance and contrast ratio as WCAG 2.2
 * defines them (W3C Recommendation, 12 December 2024, section 6 "Glossary"); 7:1 is success criterion 1.4.6, level AAA.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const AAA = 7;
const tokens = readFileSync(new URL('../../src/styles/tokens.css', import.meta.url), 'utf8');

/** The colour of a token in a theme; `var(...)` is followed. */
function colour(name: string, theme: 'day' | 'night'): string {
  const pair = new RegExp(`--${name}: light-dark\\((#[0-9a-f]{6}), (#[0-9a-f]{6})\\)`).exec(tokens);
  if (pair) return (theme === 'day' ? pair[1] : pair[2]) ?? '';
  const other = new RegExp(`--${name}: var\\(--([a-z-]+)\\)`).exec(tokens);
  if (!other?.[1]) throw new Error(`tokens.css has no colour ${name}`);
  return colour(other[1], theme);
}
function channels(hex: string): [number, number, number] {
  const at = (start: number) => Number.parseInt(hex.slice(start, start + 2), 16) / 255;
  return [at(1), at(3), at(5)];
}
/** WCAG 2.2, "relative luminance". */
function luminance(hex: string): number {
  const [r, g, b] = channels(hex).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
/** WCAG 2.2, "contrast ratio". */
function contrast(one: string, other: string): number {
  const [lighter, darker] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (lighter + 0.05) / (darker + 0.05);
}

const inks = [...tokens.matchAll(/--(ink|soft|seen-[a-z]+):/g)].map((match) => match[1] ?? '');

describe('contrast', () => {
  it('has the published extremes (WCAG 2.2: black on white is 21:1, a colour on itself 1:1)', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 10);
    expect(contrast('#465059', '#465059')).toBe(1);
  });

  it('looks at every ink of the book', () => {
    expect(inks).toEqual(['ink', 'soft', 'seen-red', 'seen-amber', 'seen-green', 'seen-blue', 'seen-white']);
  });

  for (const theme of ['day', 'night'] as const) {
    for (const ground of ['paper', 'tint']) {
      it.each(inks)(`is at least 7:1 for --%s on --${ground} by ${theme} (WCAG 2.2, 1.4.6)`, (ink) => {
        expect(contrast(colour(ink, theme), colour(ground, theme))).toBeGreaterThanOrEqual(AAA);
      });
    }
    it(`tells a lit lamp from its ring and its ground by ${theme} (WCAG 2.2, 1.4.11: 3:1 for what is needed to understand a graphic)`, () => {
      // The ring carries the shape; the filling stands off from the ring.
      expect(contrast(colour('ink', theme), colour('tint', theme))).toBeGreaterThanOrEqual(3);
    });
  }

  it('keeps the night dark: no ink brighter than half of white, no ground brighter than a hundredth', () => {
    for (const ink of [...inks, 'lit', 'strong', 'rule']) expect(luminance(colour(ink, 'night'))).toBeLessThan(0.56);
    for (const ground of ['paper', 'tint']) expect(luminance(colour(ground, 'night'))).toBeLessThan(0.01);
  });

  it('keeps blue at night unsaturated (common practice, no source)', () => {
    const [r, g, b] = channels(colour('seen-blue', 'night'));
    expect((Math.max(r, g, b) - Math.min(r, g, b)) / Math.max(r, g, b)).toBeLessThan(0.25);
  });
});
