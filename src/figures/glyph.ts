/** The state glyphs, told apart by shape: they stand before the word and never replace it. */
import type { StateView } from '../book/index.ts';

/** The states of the book, a lamp that is lit in some of the cases shown, and one that the crew knows to be unserviceable. */
export type GlyphKind = StateView['glyph'] | 'sometimes' | 'unserviceable';

/** The side of the square that the shapes are drawn in. */
export const GLYPH_SIZE = 20;

const SHAPES: Readonly<Record<GlyphKind, string>> = {
  dark: '<circle class="ring" cx="10" cy="10" r="5.25"/>',
  lit: '<circle class="ring lamp" cx="10" cy="10" r="5.25"/>',
  // Eight dashes with their gaps make the outer ring's circumference, 2π · 8.
  flashing: '<circle class="ring lamp" cx="10" cy="10" r="4"/><circle class="ring broken" cx="10" cy="10" r="8"/>',
  none: '',
  'not-fitted': '<path class="ring" d="M6 10h8"/>',
  either: '<circle class="ring" cx="10" cy="10" r="5.25"/><path class="ring" d="M5.2 12.1l6.9-6.9M7 14.3L14.3 7"/>',
  depends: '<circle class="ring" cx="10" cy="10" r="5.25"/><path class="ring" d="M10 4.75v10.5"/>',
  'not-stated': '<path class="ring" d="M4.75 10h2.5m1.5 0h2.5m1.5 0h2.5"/>',
  sometimes:
    '<path class="lamp half" d="M4.75 10a5.25 5.25 0 0 0 10.5 0Z"/><circle class="ring" cx="10" cy="10" r="5.25"/>',
  unserviceable:
    '<circle class="ring" cx="10" cy="10" r="5.25"/><path class="ring" d="M6.3 6.3l7.4 7.4m0-7.4l-7.4 7.4"/>',
  impossible: '<path class="ring" d="M6.5 6.5l7 7m0-7l-7 7"/>',
};

/** The shapes of a glyph within a square of GLYPH_SIZE units, for use inside a drawing; empty for `none`. */
export function glyphShapes(kind: GlyphKind): string {
  return SHAPES[kind];
}

/** The classes of a glyph, also of one within a drawing: colours come from `src/styles/figures.css`. */
export function glyphClasses(kind: GlyphKind, colour?: string): string {
  return `glyph ${kind}${lightClass(colour)}`;
}

const COLOURS = new Set(['red', 'green', 'white', 'amber', 'blue']);

/** " light-red", or nothing where a colour is not known or not drawn. */
export function lightClass(colour?: string): string {
  return colour !== undefined && COLOURS.has(colour) ? ` light-${colour}` : '';
}

/** A glyph as an SVG element for use in a line of text, hidden from screen readers since the word follows; empty for `none`. */
export function glyph(kind: GlyphKind, colour?: string): string {
  const shapes = SHAPES[kind];
  if (shapes === '') return '';
  const classes = glyphClasses(kind, colour);
  return `<svg class="${classes}" viewBox="0 0 ${GLYPH_SIZE} ${GLYPH_SIZE}" aria-hidden="true">${shapes}</svg>`;
}
