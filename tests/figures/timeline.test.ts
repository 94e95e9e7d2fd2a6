/** The drawing of a timeline: strips that fit their place, every time with its tick, every stretch with its words. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { StateView, TimelineView } from '../../src/book/index.ts';
import { textWidth } from '../../src/figures/text.ts';
import { timelineDrawings } from '../../src/figures/timeline.ts';
import { type Strip, timelineStrips, wordsWidth } from '../../src/figures/timeline-strips.ts';
import { WIDTHS } from '../../src/figures/widths.ts';

const GLYPHS: readonly StateView['glyph'][] = ['none', 'dark', 'lit', 'flashing', 'not-stated'];

/** Rows whose spans change at some of the times. */
const anyTimeline = fc
  .tuple(
    fc.uniqueArray(fc.integer({ min: 1, max: 9999 }), { minLength: 1, maxLength: 9 }),
    fc.array(fc.tuple(fc.array(fc.boolean(), { minLength: 10, maxLength: 10 }), fc.nat(4)), {
      minLength: 1,
      maxLength: 4,
    }),
  )
  .map(([at, rows]): TimelineView => {
    const times = [0, ...at.toSorted((a, b) => a - b)].map((time) => `${time / 10} s`);
    return {
      id: 'timeline-x',
      title: 'A run',
      on: { registration: 'QQ-AAA', to: 'aircraft/1.html' },
      steps: [],
      times,
      tolerant: false,
      rows: rows.map(([cuts, glyph], row) => {
        const starts = [
          0,
          ...times.flatMap((_, index) => (index > 0 && index < times.length - 1 && cuts[index] ? [index] : [])),
        ];
        return {
          id: `r${row}`,
          kind: 'item' as const,
          title: { to: 'lights/x.html', title: `Row ${row}` },
          spans: starts.map((from, index) => ({
            from,
            to: starts[index + 1] ?? times.length - 1,
            state: { glyph: GLYPHS[(glyph + index) % GLYPHS.length] ?? 'none', text: `state ${index}` },
          })),
        };
      }),
    };
  });

/** The words of all ticks, and of all stretches, in the order in which a drawing says them. */
function said(svg: string, name: string): string[] {
  return [...svg.matchAll(new RegExp(`<text class="${name}"[^>]*>([^<]*)</text>`, 'g'))].map(([, words = '']) => words);
}

/** The strips of a timeline for the narrow place and for the broad one. */
function always(check: (strips: Strip[], view: TimelineView, limit: number) => void): void {
  fc.assert(
    fc.property(anyTimeline, fc.constantFrom(WIDTHS.narrow, WIDTHS.broad), (view, limit) =>
      check(timelineStrips(view, limit, WIDTHS.narrow), view, limit),
    ),
  );
}

describe('the strips of a timeline', () => {
  test('follow each other, each from the time at which the one before ends, as few as fit', () => {
    always((strips, { times }, limit) => {
      expect(strips.flatMap((strip, at) => strip.times.slice(at === 0 ? 0 : 1))).toEqual(times);
      strips.slice(1).forEach((strip, before) => {
        expect(strip.times[0]).toBe(strips[before]?.times.at(-1));
        expect(strip.times.length).toBeGreaterThan(1);
      });
      const whole = timelineStrips({ ...timelineOf(strips), times }, Number.MAX_VALUE, 0);
      expect(whole).toHaveLength(1);
      expect(strips.length > 1).toBe((whole[0]?.width ?? 0) > limit);
    });
  });

  test('are no wider than their place, with ticks in order and clear of each other', () => {
    always((strips, _, limit) => {
      for (const { x, width, times } of strips) {
        expect(width).toBeLessThanOrEqual(limit + 1e-9);
        const ends = x.map((at, index) => textWidth(times[index] ?? '', 400) / 2 + at);
        const starts = x.map((at, index) => at - textWidth(times[index] ?? '', 400) / 2);
        starts.slice(1).forEach((start, before) => {
          expect(start).toBeGreaterThan((ends[before] ?? 0) + 9);
        });
        expect([starts[0] ?? 0, width - (ends.at(-1) ?? 0)].every((room) => room >= 5.9)).toBe(true);
      }
    });
  });

  test('share the stretches among them: none could be much wider than the widest without a further strip', () => {
    always((strips, view, limit) => {
      const widest = Math.max(...timelineStrips(view, limit, 0).map(({ width }) => width));
      if (strips.length < 2) return;
      expect(timelineStrips(view, widest - 10, 0).length).toBeGreaterThan(strips.length);
    });
  });

  test('have every stretch of a row, cut where a strip ends, with room for its words between its ticks', () => {
    always((strips, view) => {
      expect(timelineOf(strips).rows.map(({ spans }) => spans)).toEqual(view.rows.map(({ spans }) => spans));
      for (const { rows, x } of strips)
        for (const stretch of rows.flatMap(({ stretches }) => stretches)) {
          const length = (x[stretch.to] ?? 0) - (x[stretch.from] ?? 0);
          expect(length).toBeGreaterThan(wordsWidth(stretch) + 10);
        }
    });
  });
});

/** Puts the strips together again: a stretch that does not end goes on in the next strip. */
function timelineOf(strips: readonly Strip[]): TimelineView {
  const rows = (strips[0]?.rows ?? []).map(({ title }, row) => {
    const spans: { from: number; to: number; state: StateView }[] = [];
    let first = 0;
    for (const strip of strips) {
      for (const { from, to, state, starts } of strip.rows[row]?.stretches ?? []) {
        const last = spans.at(-1);
        if (starts || !last) spans.push({ from: first + from, to: first + to, state });
        else spans[spans.length - 1] = { ...last, to: first + to };
      }
      first += strip.times.length - 1;
    }
    return { id: `r${row}`, kind: 'item' as const, title: { to: 'lights/x.html', title }, spans };
  });
  const on = { registration: 'QQ-AAA', to: 'aircraft/1.html' };
  return { id: 'timeline-x', title: 'A run', on, steps: [], times: [], tolerant: false, rows };
}

describe('a drawing of a timeline', () => {
  test('says the time at each tick, the words of each stretch and the title of each row, strip by strip', () => {
    fc.assert(
      fc.property(anyTimeline, (view) => {
        const { broad, narrow } = timelineDrawings(view);
        for (const [svg, limit] of [
          [broad, WIDTHS.broad],
          [narrow ?? broad, WIDTHS.narrow],
        ] as const) {
          const strips = timelineStrips(view, limit, WIDTHS.narrow);
          expect(said(svg, 'flow-label')).toEqual(strips.flatMap(({ times }) => times));
          const rows = strips.flatMap((strip) => strip.rows);
          const words = rows.flatMap(({ stretches }) => stretches.map(({ state }) => state.text));
          expect(said(svg, 'timeline-title')).toEqual(words);
          expect(said(svg, 'timeline-title strong')).toEqual(rows.map(({ title }) => title));
        }
      }),
      { numRuns: 40 },
    );
  });

  test('tells lit from dark by shape: hatching against a low line', () => {
    const view = (glyph: StateView['glyph']): TimelineView => ({
      id: 'timeline-x',
      title: 'A run',
      on: { registration: 'QQ-AAA', to: 'aircraft/1.html' },
      steps: [],
      times: ['0 s', '5 s'],
      tolerant: false,
      rows: [
        {
          id: 'r',
          kind: 'item',
          title: { to: 'lights/x.html', title: 'Row' },
          spans: [{ from: 0, to: 1, state: { glyph, text: glyph } }],
        },
      ],
    });
    const [lit, dark] = [timelineDrawings(view('lit')).broad, timelineDrawings(view('dark')).broad];
    expect(lit).toContain('fill="url(#timeline-x-lit)"');
    expect(lit).not.toContain('timeline-low');
    expect(dark).toContain('timeline-low');
    expect(dark).not.toContain('fill="url(');
  });
});
