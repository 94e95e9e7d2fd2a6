/** The drawing of the phases covers exactly the stages in which something is lit, and says the same in words. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { PhaseRow } from '../../src/book/index.ts';
import { phasesSvg } from '../../src/figures/index.ts';

const cell = fc.record({ lit: fc.constantFrom('all', 'some', 'none'), flashing: fc.boolean() });

test('each stage of a row is filled, outlined or a line, as it is lit; flashing stages are blocks', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 14 }), fc.infiniteStream(cell), (count, stream) => {
      const cells = [...stream.take(count)].map((each) => (each.lit === 'none' ? { ...each, flashing: false } : each));
      const stages = cells.map((_, at) => ({ number: at + 1, title: `S${at}` }));
      const row: PhaseRow = { item: { to: 'lights/x.html', title: 'Lamp & lens' }, kind: 'light', cells };
      const svg = phasesSvg({ id: 'x', title: 'Lights', stages, rows: [row] });
      const step = 340 / count;
      const at = (middle: number, kind: string): boolean =>
        [...svg.matchAll(new RegExp(`class="phase-${kind}" x="([\\d.]+)" y="[\\d.]+" width="([\\d.]+)"`, 'g'))].some(
          ([, x, width]) => Number(x) <= middle && middle <= Number(x) + Number(width),
        );
      for (const [stage, { lit, flashing }] of cells.entries()) {
        // The middle of the second of three blocks is that of the stage, within a run as well.
        const middle = 2 + (stage + 0.5) * step;
        expect(at(middle, 'all')).toBe(lit === 'all');
        expect(at(middle, 'some')).toBe(lit === 'some');
        const gaps = [1 / 3, 2 / 3].map((part) => 2 + (stage + part) * step);
        const whole = lit !== 'none' && gaps.every((gap) => at(gap, lit));
        if (lit !== 'none') expect(whole).toBe(!flashing);
      }
      const lit = (kind: string): string =>
        cells.flatMap((each, index) => (each.lit === kind ? [index + 1] : [])).join(', ');
      const words = svg.match(/<desc[^>]*>(.*?)<\/desc>/)?.[1] ?? '';
      expect(words.includes(`lit throughout in ${lit('all')}`)).toBe(lit('all') !== '');
      expect(words.includes(`lit in part in ${lit('some')}`)).toBe(lit('some') !== '');
      expect(svg).toContain('Lamp &#38; lens');
    }),
    { numRuns: 60 },
  );
});
