/**
 * The definitions of two releases as those of one fleet: the fits of the later one come first, then those of the earlier one.
 * What both define is called as the later one calls it, and has the values that it has in either.
 */
import { compareDecimals } from '../../language/index.ts';
import type {
  OnFits,
  PackedControl,
  PackedDefinitions,
  PackedItem,
  PackedMeaning,
  PackedPosition,
} from '../comparison/packed-comparison.ts';

export interface MergedDefinitions {
  readonly definitions: PackedDefinitions;
  /** Of the fits, and of the settled fits, those before this one are the later release's. */
  readonly laterFits: number;
}

/** `before` has the ids of `now` already, and others for what is another thing now. */
export function mergedDefinitions(before: PackedDefinitions, now: PackedDefinitions): MergedDefinitions {
  const own = { before: all(before.settled), now: all(now.settled) };
  const shift = (fits: OnFits): OnFits => fits.map((fit) => fit + now.settled.length);
  const onBefore = shift(own.before);
  /** What is fitted where, of a thing that one of the two or both have. */
  const fitted = (there: Fitted | undefined, here: Fitted | undefined): { fitted?: OnFits } => {
    if (there && here && !there.fitted && !here.fitted) return {};
    const on = (one: Fitted | undefined, whole: OnFits): OnFits => (one ? (one.fitted ?? whole) : []);
    return { fitted: [...on(here, own.now), ...shift(on(there, own.before))] };
  };
  const legends = (
    there: WithLegends | undefined,
    here: WithLegends | undefined,
  ): { when: OnFits; legend: string }[] => [
    ...(here?.legends ?? []),
    ...(there?.legends ?? []).map(({ when, legend }) => ({ when: shift(when), legend })),
    ...(there?.legend === undefined || there.legend === here?.legend ? [] : [{ when: onBefore, legend: there.legend }]),
  ];
  const aircraft = union(before.aircraft, now.aircraft, 'serial', (_, here) => here);
  const options = union(before.options, now.options, 'id', (there, here) => ({
    ...here,
    values: union(there.values, here.values, 'id', (_, value) => value),
  }));
  const placesOf = (one: PackedDefinitions) => (values: readonly number[]) =>
    options.map(({ id, values: every }) => {
      const at = one.options.findIndex((option) => option.id === id);
      const value = one.options[at]?.values[values[at] ?? -1];
      return every.findIndex((each) => each.id === value?.id);
    });
  const serialAt = (one: PackedDefinitions) => (at: number) =>
    aircraft.findIndex(({ serial }) => serial === one.aircraft[at]?.serial);
  const fitsOf = (one: PackedDefinitions, by: number): PackedDefinitions['fits'] =>
    one.fits.map(({ options: values, holders, settled }) => ({
      options: placesOf(one)(values),
      holders: holders.map(([at, from, until]) => [serialAt(one)(at), from, until] as const),
      settled: settled.map((each) => each + by),
    }));
  const position = (there: PackedPosition | undefined, here: PackedPosition | undefined): PackedPosition => {
    const { fitted: _, ...rest } = (here ?? there) as PackedPosition;
    return { ...rest, ...fitted(there, here), legends: legends(there, here) };
  };
  const control = (there: PackedControl | undefined, here: PackedControl | undefined): PackedControl => {
    const { fitted: _, ...rest } = (here ?? there) as PackedControl;
    const positions = both(there?.positions ?? [], here?.positions ?? [], 'id').map(([old, young]) =>
      position(old, young),
    );
    return { ...rest, ...fitted(there, here), positions };
  };
  const item = (there: PackedItem | undefined, here: PackedItem | undefined): PackedItem => {
    const { fitted: _, ...rest } = (here ?? there) as PackedItem;
    return {
      ...{ ...rest, ...fitted(there, here), legends: legends(there, here) },
      attributes: union(there?.attributes ?? [], here?.attributes ?? [], 'id', (old, young) => ({
        ...young,
        states: union(old.states, young.states, 'id', (_, state) => state),
      })),
    };
  };
  const definitions: PackedDefinitions = {
    asOf: now.asOf,
    ...{ aircraft, options },
    settled: [...now.settled.map(placesOf(now)), ...before.settled.map(placesOf(before))],
    fits: [...fitsOf(now, 0), ...fitsOf(before, now.settled.length)],
    panels: union(before.panels, now.panels, 'id', (_, panel) => panel),
    controls: both(before.controls, now.controls, 'id').map(([there, here]) => control(there, here)),
    conditions: union(before.conditions, now.conditions, 'id', (there, here) => ({
      ...here,
      values: union(there.values, here.values, 'id', (_, value) => value),
    })),
    sequences: union(before.sequences, now.sequences, 'id', (there, here) => ({
      ...here,
      modes: union(there.modes, here.modes, 'id', (_, mode) => mode),
    })),
    items: both(before.items, now.items, 'id').map(([there, here]) => item(there, here)),
    meanings: meaningsOf(before.meanings, now.meanings),
    occurring: [],
  };
  return { definitions, laterFits: now.fits.length };
}

interface Fitted {
  readonly fitted?: OnFits;
}
interface WithLegends {
  readonly legend?: string;
  readonly legends: readonly { readonly when: OnFits; readonly legend: string }[];
}

const all = (list: readonly unknown[]): number[] => [...list.keys()];

/** Each by what names it, the later ones in their order, then what only the earlier release has. */
function both<T, K extends keyof T>(
  before: readonly T[],
  now: readonly T[],
  key: K,
): (readonly [before: T | undefined, now: T | undefined])[] {
  const find = (list: readonly T[], one: T): T | undefined => list.find((other) => other[key] === one[key]);
  return [
    ...now.map((here) => [find(before, here), here] as const),
    ...before.filter((there) => !find(now, there)).map((there) => [there, undefined] as const),
  ];
}

function union<T, K extends keyof T>(
  before: readonly T[],
  now: readonly T[],
  key: K,
  join: (there: T, here: T) => T,
): T[] {
  return both(before, now, key).map(([there, here]) => (there && here ? join(there, here) : ((here ?? there) as T)));
}

/** The variables of both, each with the values of both. Levels are their places. */
function meaningsOf(before: readonly PackedMeaning[], now: readonly PackedMeaning[]): PackedMeaning[] {
  const keyed = (meanings: readonly PackedMeaning[]) =>
    meanings.map((meaning) => ({ meaning, key: variableKey(meaning) }));
  return both(keyed(before), keyed(now), 'key').map(([there, here], level) => {
    const meaning = (here ?? there)?.meaning as PackedMeaning;
    if (meaning.kind !== 'number' || there?.meaning.kind !== 'number') return { ...meaning, level };
    return { ...meaning, level, cuts: cutsOf([...there.meaning.cuts, ...meaning.cuts]) };
  });
}

/** What names a variable. */
export function variableKey(meaning: PackedMeaning): string {
  return meaning.kind === 'lamp' ? `${meaning.id}.${meaning.lamp}` : meaning.id;
}

type Cuts = Extract<PackedMeaning, { kind: 'number' }>['cuts'];

/** Rising, each once. Where both stand at one value, the cell of that value alone lies between them. */
function cutsOf(cuts: Cuts): Cuts {
  const sorted = cuts.toSorted(([a, lowerA], [b, lowerB]) => compareDecimals(a, b) || Number(lowerA) - Number(lowerB));
  return sorted.filter(([value, lower], at) => {
    const [last, lastLower] = sorted[at - 1] ?? [];
    return last === undefined || compareDecimals(last, value) !== 0 || lastLower !== lower;
  });
}
