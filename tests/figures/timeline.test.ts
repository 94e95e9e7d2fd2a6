/** The drawing of a timeline: every time has its tick, every stretch its words, and nothing stands upon anything else. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { StateView, TimelineView } from '../../src/book/index.ts';
import { timelineSvg } from '../../src/figures/timeline.ts';

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

/** Each text element with where it starts, or is centred. */
function texts(svg: string): { x: number; y: number; words: string; name: string }[] {
  return [...svg.matchAll(/<text class="([^"]+)" x="([\d.]+)" y="([\d.]+)">([^<]*)<\/text>/g)].map(
    ([, name = '', x, y, words = '']) => ({ name, x: Number(x), y: Number(y), words }),
  );
}

describe('a drawing of a timeline', () => {
  test('has a tick with its words for each time, in order', () => {
    fc.assert(
      fc.property(anyTimeline, (view) => {
        const ticks = texts(timelineSvg(view)).filter(({ name }) => name === 'flow-label');
        expect(ticks.map(({ words }) => words)).toEqual(view.times);
        ticks.slice(1).forEach((tick, before) => {
          expect(tick.x).toBeGreaterThan((ticks[before]?.x ?? 0) + 20);
        });
      }),
    );
  });

  test('says the words of every stretch between its two ticks', () => {
    fc.assert(
      fc.property(anyTimeline, (view) => {
        const all = texts(timelineSvg(view));
        const tickX = all.filter(({ name }) => name === 'flow-label').map(({ x }) => x);
        const words = all.filter(({ name }) => name === 'timeline-title');
        const spans = view.rows.flatMap((row) => row.spans);
        expect(words.map((each) => each.words)).toEqual(spans.map(({ state }) => state.text));
        spans.forEach(({ from, to, state }, index) => {
          const start = words[index]?.x ?? 0;
          expect(start).toBeGreaterThan(tickX[from] ?? 0);
          // Four units a letter are less than these words take.
          expect(start + state.text.length * 4).toBeLessThan(tickX[to] ?? 0);
        });
      }),
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
    const [lit, dark] = [timelineSvg(view('lit')), timelineSvg(view('dark'))];
    expect(lit).toContain('fill="url(#timeline-x-lit)"');
    expect(lit).not.toContain('timeline-low');
    expect(dark).toContain('timeline-low');
    expect(dark).not.toContain('fill="url(');
  });
});
