/** The lights on the outside in the order of a walk around the aircraft: from the nose along the left side, round the tail, back on the right. */
import type { Compiled, Fit } from '../../compile/index.ts';
import type { Sector } from '../../model/index.ts';
import { unitsOf } from '../aircraft-figures.ts';
import type { AircraftUnit } from '../book-figures.ts';
import type { StageView } from '../book-procedures.ts';
import type { SheetCell } from '../book-sheets.ts';
import { link, text, upperFirst } from '../cells.ts';
import { listedItem } from '../links.ts';
import { isItemOn } from '../positions.ts';
import { answer, cell, coversFit, type ListSubject, row, words } from './block.ts';

interface Station {
  readonly key: string;
  readonly title: string;
  /** Whether a lamp is looked at from here. */
  readonly has: (unit: AircraftUnit) => boolean;
  /** Lamps in the order in which they are passed. */
  readonly order: (unit: AircraftUnit) => number;
}

/** In percent of the length: what a walker at the nose or at the tail stands before. */
const NOSE = 18;
const TAIL = 82;

const isMid = ({ spot }: AircraftUnit): boolean => spot.along > NOSE && spot.along < TAIL;
const STATIONS: readonly Station[] = [
  { key: 'nose', title: 'At the nose', has: ({ spot }) => spot.along <= NOSE, order: ({ spot }) => spot.across },
  {
    key: 'left',
    title: 'Along the left side',
    has: (unit) => isMid(unit) && unit.spot.across < 0,
    order: ({ spot }) => spot.along,
  },
  { key: 'tail', title: 'At the tail', has: ({ spot }) => spot.along >= TAIL, order: ({ spot }) => spot.across },
  {
    key: 'right',
    title: 'Along the right side',
    has: (unit) => isMid(unit) && unit.spot.across > 0,
    order: ({ spot }) => -spot.along,
  },
  {
    key: 'middle',
    title: 'Above and beneath the fuselage',
    has: (unit) => isMid(unit) && unit.spot.across === 0,
    order: ({ spot }) => spot.along,
  },
];

/** With a stage, what each lamp does in it. */
export function walkRound(compiled: Compiled, stage?: StageView): ListSubject[] {
  const lamps = compiled.fleet.items
    .filter((item) => item.kind === 'light')
    .flatMap((item) => unitsOf(item, '').map((unit) => ({ item, unit })));
  return STATIONS.map(({ key, title, has, order }) => ({
    key,
    head: {
      title,
      columns: ['Where', 'Light', 'Colour', ...(stage ? ['Then'] : []), 'Seen from, or lights (bearing)'].map(
        (name) => [text(name)],
      ),
    },
    rows: lamps
      .filter(({ unit }) => has(unit))
      .toSorted((a, b) => order(a.unit) - order(b.unit))
      .map(
        ({ item, unit }) =>
          (fit: Fit) =>
            isItemOn(item, fit)
              ? {
                  ...row(
                    words([text(upperFirst(unit.at))]),
                    cell([{ words: [link(listedItem(item).to, item.title)] }], { answer: true }),
                    cell([{ words: [text(unit.colour ?? '–')] }], { answer: true }),
                    ...(stage ? [stateIn(stage, unit, fit)] : []),
                    words([text(unit.sector ? sectorInWords(unit.sector) : '–')]),
                  ),
                  lamp: unit.id,
                }
              : undefined,
      ),
  }));
}

/** As the stage's drawings show it: what they leave out is dark. */
function stateIn({ drawings }: StageView, { id }: AircraftUnit, fit: Fit): SheetCell {
  const drawn = drawings.find(({ effectivity }) => coversFit(effectivity, fit));
  const state = drawn?.units.find((unit) => unit.id === id)?.state;
  if (!state) return answer({ glyph: 'dark', text: 'dark' });
  const { glyph, text: said } = state;
  // Half filled is for drawings.
  if (glyph === 'sometimes' || glyph === 'unserviceable') return cell([{ words: [text(said)] }], { answer: true });
  return answer({ glyph, text: said });
}

/** Relative bearings, clockwise: "250° to 360°". */
function sectorInWords({ from, to }: Sector): string {
  return (to - from + 360) % 360 === 0 ? 'all round' : `${from}° to ${to}°`;
}
