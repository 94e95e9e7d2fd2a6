/** Symbols of controls: every legend once, in its place, with words that say the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ControlSymbol, PanelCell } from '../../src/book/index.ts';
import { meet } from '../../src/figures/boxes.ts';
import { controlSvg } from '../../src/figures/index.ts';
import { FONT_SIZE, textWidth } from '../../src/figures/text.ts';
import { parsedXml } from '../helpers/xml.ts';

const SYMBOLS: readonly ControlSymbol[] = ['toggle', 'rocker', 'rotary', 'button'];
const LEGENDS = ['OFF', 'AUTO', 'IN SERVICE', 'GROUND / RED', 'EXTEND', 'ON'];

const anyControl = fc.record({
  symbol: fc.constantFrom(...SYMBOLS),
  guarded: fc.boolean(),
  positions: fc
    .integer({ min: 1, max: 6 })
    .chain((count) =>
      fc.tuple(
        ...LEGENDS.slice(0, count).map((legend) => fc.record({ legend: fc.constant(legend), springs: fc.boolean() })),
      ),
    ),
});

function control(symbol: ControlSymbol, guarded = false, springs = false): NonNullable<PanelCell['control']> {
  return {
    listed: { to: 'controls/a.html', title: 'A' },
    symbol,
    guarded,
    positions: ['OFF', 'ON'].map((legend, i) => ({ legend, springs: springs && i === 1 })),
    words: 'switch: OFF and ON',
  };
}

describe('The symbol of a control', () => {
  it('has every legend once, in order, apart from the others and within the drawing', () => {
    fc.assert(
      fc.property(anyControl, ({ symbol, guarded, positions }) => {
        const root = parsedXml(controlSvg({ ...control(symbol), guarded, positions }));
        const [x, y, width, height] = (root.getAttribute('viewBox') ?? '').split(' ').map(Number) as number[] as [
          number,
          number,
          number,
          number,
        ];
        const words = [...root.querySelectorAll('text')];
        expect(words.map((each) => each.textContent)).toEqual(positions.map(({ legend }) => legend));
        const boxes = words.map((each) => {
          const long = textWidth(each.textContent ?? '', 650);
          const anchor = (each.getAttribute('class') ?? '').split(' ')[1] ?? 'start';
          const left = Number(each.getAttribute('x')) - long * ({ start: 0, middle: 0.5, end: 1 }[anchor] ?? 0);
          return {
            x: left,
            y: Number(each.getAttribute('y')) - FONT_SIZE * 0.75,
            width: long,
            height: FONT_SIZE * 0.8,
          };
        });
        boxes.forEach((box, i) => {
          expect(box.x >= x && box.x + box.width <= x + width).toBe(true);
          expect(box.y >= y && box.y + box.height <= y + height).toBe(true);
          for (const other of boxes.slice(i + 1)) expect(meet(box, other)).toBe(false);
        });
      }),
      { numRuns: 80 },
    );
  });

  it('is told apart by its shape, with a guard and with a position that springs back', () => {
    const drawn = SYMBOLS.flatMap((symbol) => [
      controlSvg(control(symbol)),
      controlSvg(control(symbol, true)),
      controlSvg(control(symbol, false, true)),
    ]);
    expect(new Set(drawn).size).toBe(drawn.length);
  });

  it('says in words what it shows', () => {
    expect(parsedXml(controlSvg(control('toggle'))).getAttribute('aria-label')).toBe('switch: OFF and ON');
  });
});
