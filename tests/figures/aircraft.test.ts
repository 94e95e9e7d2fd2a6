/** Lamps on the aircraft: each drawn once, named once, with room for its words. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { AircraftUnit } from '../../src/book/index.ts';
import { aircraftFigure, unitsSeen } from '../../src/figures/aircraft.ts';
import { VIEW_SIZE, type View } from '../../src/figures/airframe.ts';
import { cross, meet } from '../../src/figures/boxes.ts';
import { labelRows } from '../../src/figures/label-rows.ts';
import { placeMarks } from '../../src/figures/marks.ts';
import { wrap } from '../../src/figures/text.ts';
import { demoUnits } from '../helpers/demo-lights.ts';
import { parsedXml } from '../helpers/xml.ts';

const VIEWS: readonly View[] = ['above', 'left', 'right'];
const draw = (view: View, units: readonly AircraftUnit[], labels: 'words' | 'numbers' = 'numbers'): string =>
  aircraftFigure({ id: 'f', view, title: 'Lamps', units, labels });

const anyUnits = fc
  .array(
    fc.record({
      along: fc.integer({ min: 0, max: 100 }),
      across: fc.constantFrom(-98, -40, -5, 0, 0, 5, 40, 98),
      above: fc.integer({ min: 0, max: 100 }),
      lit: fc.boolean(),
    }),
    { minLength: 1, maxLength: 16 },
  )
  .map((spots) =>
    spots.map(
      ({ lit, ...spot }, i): AircraftUnit => ({
        id: `unit-${i}`,
        light: `light-${i}`,
        tag: String(i + 1),
        title: `lamp ${'x'.repeat(i % 7)}`,
        at: 'somewhere',
        colour: i % 2 ? 'red' : 'white',
        spot,
        state: lit ? { glyph: 'flashing', text: 'flashing' } : { glyph: 'dark', text: 'dark' },
      }),
    ),
  );

describe('A drawing of the aircraft', () => {
  test.each(VIEWS)('from %s marks every lamp of the demo that it shows once, and names it with its place', (view) => {
    const units = demoUnits();
    expect(units.length).toBeGreaterThan(30);
    const root = parsedXml(draw(view, units));
    const drawn = [...root.querySelectorAll('[data-unit]')].map((mark) => mark.getAttribute('data-unit'));
    const seen = unitsSeen(view, units);
    expect(drawn).toEqual(seen.map(({ id }) => id));
    const words = root.querySelector('desc')?.textContent ?? '';
    for (const { tag, title, at, colour } of seen)
      expect(words).toContain(`${tag} ${title}${title === at ? '' : `, ${at}`}, ${colour}`);
  });

  it('shows from above every lamp, from a side each pair once', () => {
    const units = demoUnits();
    expect(unitsSeen('above', units)).toEqual(units);
    for (const view of ['left', 'right'] as const) {
      const seen = unitsSeen(view, units);
      for (const unit of units) {
        const same = seen.filter(
          ({ light, spot }) =>
            light === unit.light &&
            spot.along === unit.spot.along &&
            Math.abs(spot.across) === Math.abs(unit.spot.across),
        );
        expect(same.length).toBeGreaterThan(0);
        // Two lamps at one and the same spot are both shown, as the tail lamp and its spare.
        if (unit.spot.across !== 0) expect(same.length).toBe(1);
      }
    }
  });

  it('tells the state of each lamp in words, and by a shape of its own', () => {
    const [first] = demoUnits();
    const of = (glyph: 'lit' | 'dark' | 'unserviceable' | 'either', text: string): Element =>
      parsedXml(draw('above', [{ ...(first as AircraftUnit), state: { glyph, text } }]));
    const shapes = (['lit', 'dark', 'unserviceable', 'either'] as const).map((glyph) => {
      const root = of(glyph, `is ${glyph}`);
      expect(root.querySelector('desc')?.textContent).toMatch(new RegExp(`: is ${glyph}\\.$`));
      return root.querySelector('[data-unit]')?.innerHTML;
    });
    expect(new Set(shapes).size).toBe(4);
  });

  it('draws a sector clockwise from one bearing to the other, once for lamps that share it', () => {
    const tail = { along: 50, across: 0, above: 40 };
    const unit = (id: string): AircraftUnit => ({
      id,
      light: 'l',
      tag: '1',
      title: id,
      at: id,
      spot: tail,
      sector: { from: 110, to: 250 },
    });
    const paths = [...parsedXml(draw('above', [unit('a'), unit('b')], 'words')).querySelectorAll('.sector')];
    expect(paths.length).toBe(1);
    const [, x1, y1, x2, y2] = (
      /L([\d.]+) ([\d.]+)A44 44 0 0 1 ([\d.]+) ([\d.]+)Z$/.exec(paths[0]?.getAttribute('d') ?? '') ?? []
    ).map(Number) as [number, number, number, number, number];
    // 110° is to the right of the axis and behind the beam; 250° is its mirror image (plane geometry).
    expect(x1 - 150).toBeCloseTo(44 * Math.cos((20 * Math.PI) / 180), 1);
    expect(y1 - 158).toBeCloseTo(44 * Math.sin((20 * Math.PI) / 180), 1);
    expect([x2 - 150, y2]).toEqual([expect.closeTo(150 - x1, 1), y1]);
  });

  it('is the same text each time', () => {
    expect(draw('above', demoUnits())).toBe(draw('above', demoUnits()));
  });
});

describe('Marks', () => {
  test.each(VIEWS)('from %s never overlap, nor their numbers, wherever lamps are', (view) => {
    fc.assert(
      fc.property(anyUnits, (units) => {
        const marks = placeMarks(
          view,
          units.map((unit) => ({ ...unit, half: 7 })),
          VIEW_SIZE[view].width / 2,
        );
        const boxes = marks.flatMap(({ box, tag }) => (tag ? [box, tag] : [box]));
        boxes.forEach((box, i) => {
          // A number stands right beside its own mark.
          for (const other of boxes.slice(i + 1)) expect(meet(box, other)).toBe(false);
        });
        expect(marks.map(({ unit }) => unit.id)).toEqual(units.map(({ id }) => id));
      }),
      { numRuns: 60, seed: 86 },
    );
  });
});

describe('Labels', () => {
  it('never overlap each other or the drawing, and their lines do not cross within a row', () => {
    const drawing = { x: 0, y: 0, width: 300, height: 316 };
    fc.assert(
      fc.property(anyUnits, (units) => {
        const named = units.map(({ spot, title }) => ({
          at: { x: spot.across + 150, y: spot.along * 3 },
          half: 7,
          text: wrap(`${title}, white`, 400, 92),
        }));
        const placed = labelRows(named, drawing);
        expect(placed.length).toBe(units.length);
        placed.forEach((one, i) => {
          expect(meet(one.box, drawing)).toBe(false);
          for (const other of placed.slice(i + 1)) {
            expect(meet(one.box, other.box)).toBe(false);
            const sameRow = one.box.y < 0 === other.box.y < 0;
            const sameMark = one.named.at.x === other.named.at.x && one.named.at.y === other.named.at.y;
            if (sameRow && !sameMark) expect(cross(one.leader, other.leader)).toBe(false);
          }
        });
      }),
      { numRuns: 100, seed: 86 },
    );
  });

  test.each(VIEWS)('and marks from %s stay within the drawing', (view) => {
    fc.assert(
      fc.property(anyUnits, fc.constantFrom('words' as const, 'numbers' as const), (units, labels) => {
        const root = parsedXml(draw(view, units, labels));
        const [x, y, width, height] = (root.getAttribute('viewBox') ?? '').split(' ').map(Number) as [
          number,
          number,
          number,
          number,
        ];
        const inside = (px: number, py: number): void => {
          expect(px >= x && px <= x + width && py >= y && py <= y + height).toBe(true);
        };
        for (const path of root.querySelectorAll('.leader')) {
          const [x1, y1, x2, y2] = (path.getAttribute('d') ?? '').slice(1).split(/[ L]/).map(Number) as [
            number,
            number,
            number,
            number,
          ];
          inside(x1, y1);
          inside(x2, y2);
        }
        for (const mark of root.querySelectorAll('[data-unit] > g')) {
          const numbers = (mark.getAttribute('transform') ?? '').match(/-?[\d.]+/g) ?? [];
          const [mx, my] = numbers.map(Number) as [number, number];
          inside(mx + 1, my + 1);
          inside(mx + 19, my + 19);
        }
      }),
      { numRuns: 40, seed: 86 },
    );
  });
});
