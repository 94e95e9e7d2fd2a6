/** The aircraft in outline with lamps marked on it, as SVG. Colours come from `src/styles/figures.css`. */
import type { AircraftUnit } from '../book/index.ts';
import { outlines, placements, project, VIEW_SIZE, type View } from './airframe.ts';
import { around, type Line } from './boxes.ts';
import type { Box, Point } from './geometry.ts';
import { GLYPH_SIZE, glyphShapes, lightClass } from './glyph.ts';
import { labelRows } from './label-rows.ts';
import { textLines } from './lines.ts';
import { type Marked, type PlacedMark, placeMarks } from './marks.ts';
import { escapeXml, number } from './markup.ts';
import { FONT_SIZE, wrap } from './text.ts';

export interface AircraftDrawing {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly view: View;
  /** "Position lights, from above". */
  readonly title: string;
  readonly units: readonly AircraftUnit[];
  /** Words beside a few lamps, with the sectors they are seen from; numbers beside many, which a list must explain. */
  readonly labels: 'words' | 'numbers';
  /** Half as large, marks and numbers as large as ever: one of several drawings side by side. */
  readonly small?: boolean;
}

const LABEL_WIDTH = 92;
const MARGIN = 6;
const SECTOR = 44;
const SMALL = 0.5;

/** The units that a view shows: of a pair of lamps of one light, a side view shows the one on its own side. */
export function unitsSeen(view: View, units: readonly AircraftUnit[]): AircraftUnit[] {
  if (view === 'above') return [...units];
  const isNear = ({ across }: AircraftUnit['spot']): boolean => (view === 'left' ? across <= 0 : across >= 0);
  return units.filter(
    ({ spot, light }) =>
      isNear(spot) ||
      !units.some(
        (other) =>
          other.light === light &&
          other.spot.across === -spot.across &&
          other.spot.along === spot.along &&
          other.spot.above === spot.above,
      ),
  );
}

/** An SVG that reads and prints without colour. Equal drawings give equal text. */
export function aircraftFigure({ id, view, title, units, labels, small = false }: AircraftDrawing): string {
  const scale = small ? SMALL : 1;
  const seen = unitsSeen(view, units);
  const size = { width: VIEW_SIZE[view].width * scale, height: VIEW_SIZE[view].height * scale };
  const marks = placeMarks(
    view,
    seen.map((unit) => marked(unit, labels)),
    size.width / 2,
    scale,
  );
  const sectors = labels === 'words' && view === 'above' ? sectorsOf(seen) : [];
  const drawing = around([
    { x: 0, y: 0, ...size },
    ...marks.flatMap(({ box, tag }) => (tag ? [box, tag] : [box])),
    ...sectors.map(({ box }) => box),
  ]);
  const words =
    labels === 'words'
      ? labelRows(
          marks.map((mark) => ({
            mark,
            at: mark.at,
            half: mark.unit.half,
            text: wrap(label(mark.unit), 400, LABEL_WIDTH),
          })),
          drawing,
        )
      : [];
  const whole = around([drawing, ...words.map(({ box }) => box)]);
  const [x, y] = [Math.floor(whole.x - MARGIN), Math.floor(whole.y - MARGIN)];
  const [width, height] = [
    Math.ceil(whole.x + whole.width + MARGIN) - x,
    Math.ceil(whole.y + whole.height + MARGIN) - y,
  ];
  const name = escapeXml(id);
  return [
    `<svg class="aircraft-drawing" role="img" aria-labelledby="${name}-title" aria-describedby="${name}-text"`,
    ` width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}">`,
    `<title id="${name}-title">${escapeXml(title)}</title>`,
    `<desc id="${name}-text">${escapeXml(description(view, seen, units.length, labels))}</desc>`,
    ...(small ? [`<g transform="scale(${SMALL})">`, ...airframe(view), '</g>'] : airframe(view)),
    ...sectors.map(({ path }) => `<path class="sector" d="${path}"/>`),
    ...marks.flatMap(({ leader, home }) => (leader ? [line(leader, ''), dot(home)] : [])),
    ...words.map(({ leader, named: { mark } }) => line(leader, mark.hidden ? ' hidden' : '')),
    ...marks.map(markShapes),
    ...words.map(({ box, named }) => textLines(named.text, box, 'flow-label')),
    '</svg>',
  ].join('');
}

function airframe(view: View): string[] {
  return outlines(view).flatMap((part) =>
    placements(view, part).map((transform) => {
      const names = part.fine ? 'airframe fine' : 'airframe';
      return `<path class="${names}"${transform === '' ? '' : ` transform="${transform}"`} d="${part.path}"/>`;
    }),
  );
}

type Mark = AircraftUnit & Marked;

function marked(unit: AircraftUnit, labels: AircraftDrawing['labels']): Mark {
  const half = unit.state === undefined ? 5 : unit.state.glyph === 'flashing' ? 9 : 7;
  const { tag, ...rest } = unit;
  return (labels === 'numbers' ? { ...unit, half } : { ...rest, half }) as Mark;
}

/** A diamond where no state is told: no state has that shape. */
function markShapes({ unit, at, tag }: PlacedMark<Mark>): string {
  const corner = `translate(${number(at.x - GLYPH_SIZE / 2)} ${number(at.y - GLYPH_SIZE / 2)})`;
  const shapes = unit.state
    ? glyphShapes(unit.state.glyph)
    : '<path class="ring lamp" d="M10 5.500L14.500 10L10 14.500L5.500 10Z"/>';
  const behind = unit.state ? '<circle class="behind" cx="10" cy="10" r="5.25"/>' : '';
  const words = tag
    ? `<text class="mark-tag" x="${number(tag.x)}" y="${number(tag.y + FONT_SIZE * 0.85)}">${escapeXml(unit.tag)}</text>`
    : '';
  return `<g class="mark glyph${lightClass(unit.colour)}" data-unit="${escapeXml(unit.id)}"><g transform="${corner}">${behind}${shapes}</g>${words}</g>`;
}

function line({ from, to }: Line, names: string): string {
  return `<path class="leader${names}" d="M${number(from.x)} ${number(from.y)}L${number(to.x)} ${number(to.y)}"/>`;
}

function dot({ x, y }: Point): string {
  return `<circle class="leader-end" cx="${number(x)}" cy="${number(y)}" r="1.5"/>`;
}

/** Each sector once, however many lamps share it. */
function sectorsOf(units: readonly AircraftUnit[]): { path: string; box: Box }[] {
  const paths = new Map<string, Box>();
  for (const { spot, sector } of units) {
    if (!sector) continue;
    const centre = project('above', spot);
    const box = { x: centre.x - SECTOR, y: centre.y - SECTOR, width: 2 * SECTOR, height: 2 * SECTOR };
    paths.set(sectorPath(centre, sector.from, sector.to), box);
  }
  return [...paths].map(([path, box]) => ({ path, box }));
}

/** Bearings are clockwise from dead ahead, which is up the page. */
function sectorPath(centre: Point, from: number, to: number): string {
  const at = (bearing: number): string => {
    const angle = (bearing * Math.PI) / 180;
    return `${number(centre.x + SECTOR * Math.sin(angle))} ${number(centre.y - SECTOR * Math.cos(angle))}`;
  };
  const turn = (to - from + 360) % 360;
  const arc = (end: number, large: boolean): string => `A${SECTOR} ${SECTOR} 0 ${large ? 1 : 0} 1 ${at(end)}`;
  if (turn === 0) return `M${at(0)}${arc(180, false)}${arc(360, false)}Z`;
  return `M${number(centre.x)} ${number(centre.y)}L${at(from)}${arc(to, turn > 180)}Z`;
}

function label({ title, colour, state }: AircraftUnit): string {
  return `${title}${colour === undefined ? '' : `, ${colour}`}${state === undefined ? '' : `: ${state.text}`}`;
}

const SEEN: Readonly<Record<View, string>> = {
  above: 'Seen from above, the nose at the top.',
  left: 'Seen from the left, the nose at the left.',
  right: 'Seen from the right, the nose at the right.',
};

/** Every lamp of the drawing in words, with its state. */
function description(
  view: View,
  units: readonly AircraftUnit[],
  all: number,
  labels: AircraftDrawing['labels'],
): string {
  const lamps = units.map((unit) => {
    const where = unit.title === unit.at ? '' : `, ${unit.at}`;
    const sector = unit.sector ? `, bearings ${unit.sector.from}° to ${unit.sector.to}°` : '';
    const colour = unit.colour === undefined ? '' : `, ${unit.colour}`;
    const state = unit.state === undefined ? '' : `: ${unit.state.text}`;
    const tag = labels === 'numbers' ? `${unit.tag} ` : '';
    return `${tag}${unit.title}${where}${colour}${sector}${state}`;
  });
  const rest = units.length < all ? ' Of a pair only the nearer one is shown.' : '';
  return `${SEEN[view]} ${lamps.join('; ')}.${rest}`;
}
