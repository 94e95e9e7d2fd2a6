/** A timeline cut into strips that fit their place, one below the other as lines of text are. Pure geometry. */
import type { StateView, TimelineRow, TimelineView } from '../book/index.ts';
import { GLYPH_SIZE, glyphShapes } from './glyph.ts';
import { textWidth } from './text.ts';

/** A stretch of a row, or what of it lies within a strip. `from` and `to` are indices of the strip's times. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly state: StateView;
  /** Whether it starts within the strip, and whether it ends there: else it goes on in the strip before or after. */
  readonly starts: boolean;
  readonly ends: boolean;
}
export interface Strip {
  readonly times: readonly string[];
  readonly rows: readonly { readonly title: string; readonly stretches: readonly Stretch[] }[];
  /** Where each time stands. */
  readonly x: readonly number[];
  readonly width: number;
}

export const MARGIN = 6;
/** Between two ticks' words; around the words in a band. */
const TICK_GAP = 10;
const PADDING = 5;
export const GLYPH_GAP = 2;

/** Strips that are made narrower by so much, to share what there is among them, as long as they don't get more. */
const STEP = 10;

/**
 * As few strips as there must be for none to be wider than `limit`, as far as words allow, about equally full; stretches
 * grow until a strip is at least `least` wide.
 */
export function timelineStrips({ times, rows }: TimelineView, limit: number, least: number): Strip[] {
  const last = times.length - 1;
  /** The indices of the times at which strips end. */
  const cut = (most: number): number[] => {
    const ends: number[] = [];
    let first = 0;
    do {
      let until = Math.min(first + 1, last);
      while (until < last && strip(times, rows, first, until + 1, 0).width <= most) until += 1;
      ends.push(until);
      first = until;
    } while (first < last);
    return ends;
  };
  let ends = cut(limit);
  for (let most = limit - STEP; ends.length > 1 && most > 0; most -= STEP) {
    const narrower = cut(most);
    if (narrower.length > ends.length) break;
    ends = narrower;
  }
  return ends.map((until, at) => strip(times, rows, ends[at - 1] ?? 0, until, least));
}

/** The strip from the time `first` to the time `until`. */
function strip(
  allTimes: readonly string[],
  allRows: readonly TimelineRow[],
  first: number,
  until: number,
  least: number,
): Strip {
  const times = allTimes.slice(first, until + 1);
  const rows = allRows.map(({ title, spans }) => ({
    title: title.title,
    stretches: spans
      .filter(({ from, to }) => from < until && to > first)
      .map(({ from, to, state }) => ({
        from: Math.max(from, first) - first,
        to: Math.min(to, until) - first,
        state,
        starts: from >= first,
        ends: to <= until,
      })),
  }));
  const x = tickPlaces(
    times,
    rows.flatMap(({ stretches }) => stretches),
    least,
  );
  const end = (x.at(-1) ?? 0) + Math.max(textWidth(times.at(-1) ?? '', 400) / 2, 2);
  const titles = rows.map(({ title }) => MARGIN + textWidth(title, 650));
  return { times, rows, x, width: Math.max(end, ...titles) + MARGIN };
}

/** Where each time stands: far enough apart for the ticks' words and for those in the bands. */
function tickPlaces(times: readonly string[], stretches: readonly Stretch[], least: number): number[] {
  const half = (index: number): number => textWidth(times[index] ?? '', 400) / 2;
  const lengths = times.slice(1).map((_, index) => half(index) + half(index + 1) + TICK_GAP);
  const between = (from: number, to: number): number => lengths.slice(from, to).reduce((sum, each) => sum + each, 0);
  for (const stretch of stretches.toSorted((a, b) => a.to - a.from - (b.to - b.from))) {
    const { from, to } = stretch;
    const short = wordsWidth(stretch) + 2 * PADDING + 4 - between(from, to);
    if (short <= 0) continue;
    for (let at = from; at < to; at += 1) lengths[at] = (lengths[at] ?? 0) + short / (to - from);
  }
  const start = MARGIN + half(0);
  const whole = between(0, lengths.length);
  const grown = whole === 0 ? 1 : Math.max(1, (least - start - half(times.length - 1) - MARGIN) / whole);
  let x = start;
  return [x, ...lengths.map((length) => (x += length * grown))];
}

/** The width of the glyph and the words of a stretch. */
export function wordsWidth({ state }: Pick<Stretch, 'state'>): number {
  return textWidth(state.text, 400) + (glyphShapes(state.glyph) === '' ? 0 : GLYPH_SIZE + GLYPH_GAP);
}
