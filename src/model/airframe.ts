/**
 * The places on an airframe that content can name. They belong to no type of aircraft: percentages of an airliner's length,
 * half span and height, good enough to say on a drawing where to look.
 */
import type { Spot } from './fleet.ts';

/** Percent of the length, of the half span (the left is negative), and of the height above the ground. */
type Where = readonly [along: number, across: number, above: number];

/** On the axis of the aircraft. */
const CENTRE: Readonly<Record<string, Where>> = {
  nose: [1, 0, 35],
  'flight deck': [7, 0, 44],
  'top of the fuselage': [44, 0, 51],
  'belly of the fuselage': [45, 0, 22],
  'nose leg': [12, 0, 12],
  'nose wheel well': [12, 0, 22],
  'fin tip': [95, 0, 99],
  'tail cone': [99.5, 0, 40],
  'tail compartment': [92, 0, 38],
  'cargo hatch': [68, 11, 32],
};

/** On both sides; as on the right. */
const SIDED: Readonly<Record<string, Where>> = {
  'nose leg': [12, 4.5, 12],
  'front door': [16, 10, 40],
  'rear door': [77, 10, 40],
  'overwing exit': [47, 11, 42],
  'fuselage side': [32, 11, 38],
  'wing root': [37, 16, 29],
  'leading edge': [47, 55, 29],
  'wing underside': [50, 42, 21],
  'wing tip': [60.5, 98, 33],
  engine: [32, 34, 16],
  'wheel well': [54, 7, 21],
  'main leg': [55, 14, 11],
  'stabiliser tip': [96.5, 35, 46],
};

/** "left-wing-tip" for the words "left wing tip". */
function idOf(words: string): string {
  return words.replaceAll(' ', '-');
}

function spotOf([along, across, above]: Where): Spot {
  return { along, across, above };
}

/** Every named spot: by its id the words that say it, and where it is. */
export const NAMED_SPOTS: ReadonlyMap<string, { readonly words: string; readonly spot: Spot }> = new Map([
  ...Object.entries(CENTRE).map(([words, where]) => [idOf(words), { words, spot: spotOf(where) }] as const),
  ...Object.entries(SIDED).flatMap(([words, [along, across, above]]) => [
    [idOf(`left ${words}`), { words: `left ${words}`, spot: spotOf([along, -across, above]) }] as const,
    [idOf(`right ${words}`), { words: `right ${words}`, spot: spotOf([along, across, above]) }] as const,
  ]),
]);

export function sideOf({ across }: Spot): 'left' | 'right' | 'centre' {
  return across === 0 ? 'centre' : across < 0 ? 'left' : 'right';
}
