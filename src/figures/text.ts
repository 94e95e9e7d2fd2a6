/** Text in drawings: how wide it is and where it breaks. One font size throughout; lengths are in drawing units. */
import { FONT_WIDTHS } from './font-widths.ts';

export const FONT_SIZE = 14;
export const LINE_HEIGHT = 18;
/** Labels take at most so many lines; where words are many, the lines get longer. */
export const MAX_LINES = 3;

export type Weight = keyof typeof FONT_WIDTHS;

/** A character that the font lacks comes from another font: as wide as the widest letters there. */
const UNKNOWN_WIDTH = 1000;

function widthsByCode(weight: Weight): ReadonlyMap<number, number> {
  return new Map(
    FONT_WIDTHS[weight].flatMap(([first, widths]) => widths.map((width, i): [number, number] => [first + i, width])),
  );
}
const WIDTHS: Readonly<Record<Weight, ReadonlyMap<number, number>>> = {
  400: widthsByCode(400),
  650: widthsByCode(650),
};

/** The width of a line of text set at FONT_SIZE. */
export function textWidth(text: string, weight: Weight): number {
  let sum = 0;
  for (const character of text) sum += WIDTHS[weight].get(character.codePointAt(0) as number) ?? UNKNOWN_WIDTH;
  return (sum * FONT_SIZE) / 1000;
}

export interface Block {
  /** Joined by single spaces they are the text. */
  readonly lines: readonly string[];
  readonly weight: Weight;
  readonly width: number;
  readonly height: number;
}

/** Breaks text at spaces into lines up to `wanted` wide, or as much wider as MAX_LINES needs, all about equally long. */
export function wrap(text: string, weight: Weight, wanted: number): Block {
  const words = text.split(/\s+/).filter((word) => word !== '');
  const widths = words.map((word) => textWidth(word, weight));
  const space = textWidth(' ', weight);

  let limit = Math.max(wanted, ...widths);
  let lines = fill(words, widths, space, limit);
  while (lines.length > MAX_LINES) {
    limit *= 1.1;
    lines = fill(words, widths, space, limit);
  }
  // The narrowest limit with as many lines: the longest line loses a little until a further line would be needed.
  for (let narrower = lines; narrower.length === lines.length; ) {
    lines = narrower;
    const longest = Math.max(0, ...lines.map((line) => textWidth(line, weight)));
    narrower = fill(words, widths, space, longest - 0.01);
    if (Math.max(0, ...narrower.map((line) => textWidth(line, weight))) >= longest) break;
  }
  const width = Math.max(0, ...lines.map((line) => textWidth(line, weight)));
  return { lines, weight, width, height: lines.length * LINE_HEIGHT };
}

/** Fills lines word by word; a word wider than the limit stands alone. */
function fill(words: readonly string[], widths: readonly number[], space: number, limit: number): string[] {
  const lines: string[] = [];
  let used = 0;
  words.forEach((word, i) => {
    const width = widths[i] as number;
    if (lines.length > 0 && used + space + width <= limit) {
      lines[lines.length - 1] += ` ${word}`;
      used += space + width;
    } else {
      lines.push(word);
      used = width;
    }
  });
  return lines;
}
