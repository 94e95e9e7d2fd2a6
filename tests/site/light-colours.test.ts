/**
 * The colours in which aircraft lights are drawn, against the limits of 14 CFR 25.1397 (CIE 1931 x, y; z = 1 - x - y). Colours
 * of a screen become chromaticities by IEC 61966-2-1 (sRGB): its transfer curve and its matrix to CIE XYZ.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

type Xy = readonly [x: number, y: number];

const tokens = readFileSync(new URL('../../src/styles/tokens.css', import.meta.url), 'utf8');

function colour(name: string, theme: 'day' | 'night'): string {
  const pair = new RegExp(`--${name}: light-dark\\((#[0-9a-f]{6}), (#[0-9a-f]{6})\\)`).exec(tokens);
  if (pair) return (theme === 'day' ? pair[1] : pair[2]) ?? '';
  const other = new RegExp(`--${name}: var\\(--([a-z-]+)\\)`).exec(tokens)?.[1];
  if (!other) throw new Error(`tokens.css has no colour ${name}`);
  return colour(other, theme);
}

/** IEC 61966-2-1. */
function chromaticity(hex: string): Xy {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  const X = 0.4124 * r + 0.3576 * g + 0.1805 * b;
  const Y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const Z = 0.0193 * r + 0.1192 * g + 0.9505 * b;
  return [X / (X + Y + Z), Y / (X + Y + Z)];
}

/** 14 CFR 25.1397(a): y is not greater than 0.335 and z is not greater than 0.002. */
const isRed = ([x, y]: Xy): boolean => y <= 0.335 && 1 - x - y <= 0.002;
/** 14 CFR 25.1397(b). */
const isGreen = ([x, y]: Xy): boolean => x <= 0.44 - 0.32 * y && x <= y - 0.17 && y >= 0.39 - 0.17 * x;
/**
 * 14 CFR 25.1397(c), with the stricter of the two lower limits of y: the other one follows the Planckian locus and only ever
 * admits more.
 */
const isWhite = ([x, y]: Xy): boolean =>
  x >= 0.3 && x <= 0.54 && y >= x - 0.04 && y <= x + 0.02 && y <= 0.636 - 0.4 * x;

describe('the limits of aviation colours', () => {
  it('take and refuse points worked out by hand from 14 CFR 25.1397', () => {
    expect([isRed([0.7, 0.299]), isRed([0.66, 0.335]), isRed([0.65, 0.345])]).toEqual([true, false, false]);
    expect([isGreen([0.2, 0.55]), isGreen([0.28, 0.46]), isGreen([0.3, 0.45])]).toEqual([true, true, false]);
    // The daylight D65 (CIE 15).
    expect([isWhite([0.3127, 0.329]), isWhite([0.44, 0.44]), isWhite([0.55, 0.41])]).toEqual([true, true, false]);
  });

  it('meet what the primaries of sRGB are (IEC 61966-2-1: red 0.64, 0.33; green 0.30, 0.60; blue 0.15, 0.06; white D65)', () => {
    for (const [hex, x, y] of [
      ['#ff0000', 0.64, 0.33],
      ['#00ff00', 0.3, 0.6],
      ['#0000ff', 0.15, 0.06],
      ['#ffffff', 0.3127, 0.329],
    ] as const) {
      expect(chromaticity(hex)[0]).toBeCloseTo(x, 3);
      expect(chromaticity(hex)[1]).toBeCloseTo(y, 3);
    }
  });
});

describe.each(['day', 'night'] as const)('a light drawn by %s', (theme) => {
  it('in white is an aviation white', () => {
    expect(isWhite(chromaticity(colour('light-white', theme)))).toBe(true);
  });

  it('in green is an aviation green', () => {
    expect(isGreen(chromaticity(colour('light-green', theme)))).toBe(true);
  });

  it('in red is the nearest red of the screen, as the page about the book says', () => {
    const [x, y] = chromaticity(colour('light-red', theme));
    expect(y).toBeLessThanOrEqual(0.335);
    const [red] = chromaticity('#ff0000');
    expect(x).toBeCloseTo(red, 6);
  });
});

describe('what a screen cannot show', () => {
  /** Every colour of sRGB in steps of 15 of 255. */
  const all: Xy[] = [];
  for (let r = 0; r <= 255; r += 15) {
    for (let g = 0; g <= 255; g += 15) {
      for (let b = 0; b <= 255; b += 15) {
        if (r + g + b > 0) all.push(chromaticity(`#${[r, g, b].map((c) => c.toString(16).padStart(2, '0')).join('')}`));
      }
    }
  }

  it('is every aviation red', () => {
    expect(all.filter(isRed)).toEqual([]);
    // Of all, the screen's own red has the least z: none comes nearer.
    expect(Math.min(...all.map(([x, y]) => 1 - x - y))).toBeCloseTo(0.03, 3);
  });

  it('is the purer part of aviation green', () => {
    const greens = all.filter(isGreen);
    expect(greens.length).toBeGreaterThan(20);
    // (0.1, 0.7) is an aviation green by the limits, and lies beyond the line from the screen's green to its blue.
    expect(isGreen([0.1, 0.7])).toBe(true);
    expect(Math.max(...greens.map(([, y]) => y))).toBeLessThan(0.53);
  });
});
