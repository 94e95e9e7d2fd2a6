/**
 * An invented twin-jet airliner in outline, from above and from the sides, and where on it a spot is seen. Lengths are
 * drawing units; the aircraft is as long as LENGTH, its wings reach HALF_SPAN to either side, its fin HEIGHT above the ground.
 */
import type { AircraftUnit } from '../book/index.ts';
import type { Point } from './geometry.ts';

export type View = 'above' | 'left' | 'right';
/** Percent of the length from the nose, of the half span (the left is negative), of the height above the ground. */
export type Spot = AircraftUnit['spot'];

const LENGTH = 316;
const HALF_SPAN = 150;
const HEIGHT = 118;
/** Lamps lower than this, in percent of the height, are under the wing or the fuselage. */
const BENEATH = 24;

export const VIEW_SIZE: Readonly<Record<View, { readonly width: number; readonly height: number }>> = {
  above: { width: 2 * HALF_SPAN, height: LENGTH },
  left: { width: LENGTH, height: HEIGHT },
  right: { width: LENGTH, height: HEIGHT },
};

/**
 * Where a spot is seen; from above the nose points up the page, from a side it points to that side's own left or right.
 * `scale`: of the whole view.
 */
export function project(view: View, spot: Spot, scale = 1): Point {
  const { x, y } = inFullSize(view, spot);
  return { x: x * scale, y: y * scale };
}

function inFullSize(view: View, { along, across, above }: Spot): Point {
  const ahead = (along / 100) * LENGTH;
  if (view === 'above') return { x: HALF_SPAN + (across / 100) * HALF_SPAN, y: ahead };
  return { x: view === 'left' ? ahead : LENGTH - ahead, y: HEIGHT - (above / 100) * HEIGHT };
}

/** Whether the airframe itself stands between the viewer and the spot. */
export function isHidden(view: View, { across, above }: Spot): boolean {
  if (view === 'above') return above < BENEATH;
  return view === 'left' ? across > 0 : across < 0;
}

/** Parts from the farthest to the nearest: each covers what lies behind it. `fine` lines are details within a part. */
export interface Part {
  readonly path: string;
  readonly fine?: boolean;
}

/** The right half of a part that is alike on both sides, around the axis x = 0; the left half is its mirror image. */
const HALVES: readonly Part[] = [
  { path: 'M42 104C42 98 45 95 50 95C55 95 58 98 58 104L57 142L43 142Z' },
  { path: 'M12 106L52 133L148 186Q151 190 150 198L146 198L52 174L12 180Z' },
  { path: 'M104 188L132 195M70 180L98 186M60 142L140 188', fine: true },
  { path: 'M6 266L50 297Q54 301 53 307L4 300Z' },
];

const FROM_ABOVE: readonly Part[] = [
  ...HALVES,
  {
    path: 'M0 0C7 2 16 18 16 46L16 206C16 248 7 296 2 315L-2 315C-7 296 -16 248 -16 206L-16 46C-16 18 -7 2 0 0Z',
  },
  { path: 'M-9 17Q0 10 9 17M-11 22Q0 14 11 22', fine: true },
  { path: 'M0 236C2 262 2.4 292 1.4 310L-1.4 310C-2.4 292 -2 262 0 236Z' },
];

const FROM_THE_LEFT: readonly Part[] = [
  { path: 'M37 92L37 110M41 92L41 110', fine: true },
  { path: 'M33.500 112a5.500 5.500 0 1 0 11 0a5.500 5.500 0 1 0 -11 0Z' },
  { path: 'M173 92L173 108', fine: true },
  { path: 'M162 111a7 7 0 1 0 14 0a7 7 0 1 0 -14 0ZM171 111a7 7 0 1 0 14 0a7 7 0 1 0 -14 0Z' },
  { path: 'M246 60L288 4Q290 1 294 1L306 1Q309 1 309 4L306 64Z' },
  { path: 'M296 6L291 60', fine: true },
  {
    path: 'M0 80C3 70 22 59 46 59L232 59C268 59 300 63 315 69L315 74C292 82 256 95 214 95L42 95C20 95 4 90 0 80Z',
  },
  { path: 'M16 69L26 65L30 71L15 73Z', fine: true },
  { path: 'M48 72L48 88L57 88L57 72ZM240 69L240 84L248 84L248 69Z', fine: true },
  { path: 'M66 74L230 74', fine: true },
  { path: 'M262 66L305 62L311 64L276 69Z' },
  { path: 'M100 96C100 92 104 90 110 90L138 92L142 99L138 106L108 107C102 107 100 102 100 96Z' },
  { path: 'M110 93L186 80L200 80L182 95Q140 97 110 93Z' },
];

/** The outlines of a view in drawing units. */
export function outlines(view: View): readonly Part[] {
  return view === 'above' ? FROM_ABOVE : FROM_THE_LEFT;
}

/** The transforms under which the parts of a view are drawn, each part under each of them. */
export function placements(view: View, part: Part): readonly string[] {
  if (view === 'left') return [''];
  if (view === 'right') return [`translate(${LENGTH} 0) scale(-1 1)`];
  const half = `translate(${HALF_SPAN} 0)`;
  return HALVES.includes(part) ? [half, `${half} scale(-1 1)`] : [half];
}
