/** Lights on drawings of the aircraft: which lamps there are to mark, and which views tell them apart. */
import { list } from '../diagnostics/index.ts';
import type { Item, Mounting } from '../model/index.ts';
import { ABOUT, COLOURS } from './addresses.ts';
import type { AircraftFigureView, AircraftUnit } from './book-figures.ts';
import { listedItem } from './links.ts';

/** The state of a lamp, by the id of its attribute; of a light that names no lamps, of its attribute `lamp`. */
export type StateOf = (item: Item, attribute: string) => AircraftUnit['state'];

/** The lamps of a light that have a spot. */
export function unitsOf(item: Item, tag: string, stateOf?: StateOf): AircraftUnit[] {
  const unit = (id: string, attribute: string, title: string, mounting: Mounting, colour?: string): AircraftUnit => {
    const { at, spot, sector } = mounting;
    const state = stateOf?.(item, attribute);
    return {
      id: `${item.id}-${id}`,
      light: item.id,
      tag,
      title,
      at,
      ...(colour === undefined ? {} : { colour }),
      spot,
      ...(sector ? { sector } : {}),
      ...(state ? { state } : {}),
    };
  };
  return [
    ...item.attributes.flatMap(({ id, title, lamp }) =>
      lamp?.mounting ? unit(id, id, title, { ...lamp.mounting, at: lamp.at ?? lamp.mounting.at }, lamp.colour) : [],
    ),
    ...item.mountings.map((mounting, index) => unit(String(index + 1), 'lamp', mounting.at, mounting, item.colour)),
  ];
}

/** A drawing of one light; undefined where no lamp of it has a spot. */
export function lightFigure(item: Item): AircraftFigureView | undefined {
  const units = unitsOf(item, '1');
  if (units.length === 0) return undefined;
  const views = viewsFor(units);
  return {
    id: 'where',
    heading: 'On the aircraft',
    title: item.title,
    views,
    labels: 'words',
    units,
    key: [],
    notes: [...(units.some(isBeneath) ? [HIDDEN] : []), ...(units.some(({ sector }) => sector) ? [SECTOR] : [])],
    colours: { to: ABOUT, anchor: COLOURS },
  };
}

/**
 * A drawing of several lights, each with a number: its place among those that have spots. `stateOf` tells what each lamp does;
 * without it the drawing only says where they are. Undefined where none has a spot.
 */
export function lightsFigure(
  { id, heading, title }: Pick<AircraftFigureView, 'id' | 'heading' | 'title'>,
  items: readonly Item[],
  stateOf?: StateOf,
): AircraftFigureView | undefined {
  const drawn = items.filter((item) => unitsOf(item, '').length > 0);
  if (drawn.length === 0) return undefined;
  const numbered = drawn.map((item, index) => ({ item, units: unitsOf(item, String(index + 1), stateOf) }));
  const units = numbered.flatMap((each) => each.units);
  return {
    id,
    heading,
    title,
    views: ['above', 'left'],
    labels: 'numbers',
    units,
    key: numbered.map(({ item, units: own }) => ({
      tag: own[0]?.tag ?? '',
      light: { to: listedItem(item).to, title: item.title },
      lamps: lampWords(own),
    })),
    notes: [],
    colours: { to: ABOUT, anchor: COLOURS },
  };
}

const HIDDEN = 'A broken line leads to a lamp that the airframe hides from that side.';
const SECTOR = 'A dotted sector shows from which directions a lamp is seen, or what it lights.';

/** "red: left wing tip; white, lit: tail cone and spare": the lamps that are alike in colour and state, together. */
function lampWords(units: readonly AircraftUnit[]): string {
  const alike = Map.groupBy(units, ({ colour, state }) =>
    [colour, state?.text].filter((word) => word !== undefined).join(', '),
  );
  return [...alike]
    .map(([seen, lamps]) => {
      const where = [...Map.groupBy(lamps, ({ at }) => at)].map(([at, { length }]) => {
        return length > 1 ? `${at} (${length} lamps)` : at;
      });
      return `${seen}${seen === '' ? '' : ': '}${list(where, 'and')}`;
    })
    .join('; ');
}

/** From a side too, where the view from above hides a lamp or does not tell how high it is. */
function viewsFor(units: readonly AircraftUnit[]): AircraftFigureView['views'] {
  if (!units.some((unit) => unit.spot.across === 0 || isBeneath(unit))) return ['above'];
  return ['above', units.every(({ spot }) => spot.across > 0) ? 'right' : 'left'];
}

/** Lower than the wing: the view from above hides it. */
function isBeneath({ spot }: AircraftUnit): boolean {
  return spot.above < 24;
}
