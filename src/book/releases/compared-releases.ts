/** An earlier release beside the present book: one fleet that has the fits of both, to be compared as any two fits are. */
import {
  absentValue,
  type Compiled,
  type Fit,
  IMPOSSIBLE,
  type Meaning,
  NOT_FITTED,
  Outcomes,
  type Space,
  valueIds,
} from '../../compile/index.ts';
import { compareDecimals } from '../../language/index.ts';
import { Diagrams, type Node } from '../../logic/index.ts';
import type { ComparedFleet } from '../comparison/comparison.ts';
import { type PackedComparison, type PackedDefinitions, packComparison } from '../comparison/packed-comparison.ts';
import { comparedOf, readForms } from '../comparison/read-comparison.ts';
import { type ReadDefinitions, readDefinitions } from '../comparison/read-definitions.ts';
import { mergedDefinitions, variableKey } from './merged-definitions.ts';
import { occurringIds, type Release, type Released } from './released.ts';
import { renamed } from './renamed.ts';
import { setApart } from './set-apart.ts';
import { type LevelIn, translated } from './translate.ts';

/** One aircraft that both have: how each has it on its own date. */
export interface Before {
  readonly serial: string;
  readonly before: Fit;
  readonly now: Fit;
}

export interface ComparedReleases {
  /** By the present ids. */
  readonly release: Release;
  /** Of what both define. The fits of the present book come first, with the indices that they have there. */
  readonly fleet: ComparedFleet;
  readonly aircraft: readonly Before[];
  /** By the present book's own levels: where they stand in `fleet`. */
  readonly present: ReadonlyMap<number, LevelIn>;
}

/** `release` is any earlier one. Throws a `PackedError` where its diagrams are damaged. */
export function compareReleases(compiled: Compiled, release: Release): ComparedReleases {
  const nowPacked = packComparison(compiled);
  const old = setApart(renamed(release, compiled.fleet), nowPacked);
  const { definitions, laterFits } = mergedDefinitions(old.comparison, nowPacked);
  const read = readDefinitions(definitions);
  const outcomes = new Outcomes();
  const sides = { before: sideOf(old.comparison, outcomes), now: sideOf(nowPacked, outcomes) };
  const levels = {
    before: levelsIn(sides.before.read.space, read.space, old.comparison, definitions),
    now: levelsIn(sides.now.read.space, read.space, nowPacked, definitions),
  };
  const order = sides.now.diagrams.order.flatMap((level) => levels.now.get(level)?.level ?? []);
  const diagrams = new Diagrams(read.space.variables, {
    order: [...order, ...read.space.meanings.keys()].filter((level, at, all) => all.indexOf(level) === at),
  });
  const own = (side: Side, levels: ReadonlyMap<number, LevelIn>): FormsOf =>
    formsIn(side, translated(side.diagrams, diagrams, levels, IMPOSSIBLE), diagrams.terminal(NOT_FITTED));
  const [now, before] = [own(sides.now, levels.now), own(sides.before, levels.before)];
  const names = read.items.flatMap((item) => item.attributes.map((attribute) => `${item.id}.${attribute.id}`));
  const forms = names.map((name) => [...now(name), ...before(name)]);
  const here = read.fits.slice(0, laterFits);
  const whole = comparedOf(definitions, read, { diagrams, outcomes, forms }, here);
  const isBoth = (name: string): boolean => sides.now.forms.has(name) && sides.before.forms.has(name);
  const fleet: ComparedFleet = {
    ...whole,
    occurring: occurringIn(read.space, [occurringIds(compiled), old.occurring]),
    ignoresPossibility: true,
    fleet: {
      ...whole.fleet,
      items: whole.fleet.items.filter(inBoth(old.comparison.items, nowPacked.items)),
      controls: whole.fleet.controls.filter(inBoth(old.comparison.controls, nowPacked.controls)),
    },
    behaviours: whole.behaviours.filter(({ item, attribute }) => isBoth(`${item.id}.${attribute.id}`)),
  };
  const there = read.fits.slice(laterFits);
  return {
    release: { ...release, ...old },
    fleet,
    present: new Map([...levels.now].map(([at, there]) => [nowPacked.meanings[at]?.level as number, there])),
    aircraft: compiled.fleet.aircraft.flatMap(({ serial }) => {
      const [now, before] = [fitNow(here, serial), fitNow(there, serial)];
      return now && before ? [{ serial, now, before }] : [];
    }),
  };
}

/** The fit of an aircraft on the date of its book. */
function fitNow(fits: readonly Fit[], serial: string): Fit | undefined {
  return fits.find(({ holders }) => holders.some((one) => one.aircraft.serial === serial && one.from === undefined));
}

function inBoth(...lists: readonly (readonly { readonly id: string }[])[]): (one: { readonly id: string }) => boolean {
  const ids = lists.map((list) => new Set(list.map(({ id }) => id)));
  return ({ id }) => ids.every((each) => each.has(id));
}

/** By "item.attribute", the forms on each fit of one release. */
type FormsOf = (name: string) => readonly Node[];

/** `lacking` where the release has no such attribute. */
function formsIn({ forms, fits }: Side, into: (node: Node) => Node, lacking: Node): FormsOf {
  return (name) => forms.get(name)?.map(into) ?? Array.from({ length: fits }, () => lacking);
}

interface Side {
  readonly read: ReadDefinitions;
  readonly diagrams: Diagrams;
  /** By "item.attribute", then by fit. */
  readonly forms: ReadonlyMap<string, readonly Node[]>;
  /** How many. */
  readonly fits: number;
}

function sideOf(packed: PackedComparison, outcomes: Outcomes): Side {
  const read = readDefinitions(packed);
  const { diagrams, forms } = readForms(packed, read.space, outcomes);
  const names = read.items.flatMap((item) => item.attributes.map((attribute) => `${item.id}.${attribute.id}`));
  return {
    ...{ read, diagrams },
    fits: packed.fits.length,
    forms: new Map(names.map((name, at) => [name, forms[at] as readonly Node[]])),
  };
}

/** Where the variables of one release stand among those of both, by level. */
function levelsIn(own: Space, merged: Space, packed: PackedDefinitions, both: PackedDefinitions): Map<number, LevelIn> {
  const places = new Map(both.meanings.map((meaning, level) => [variableKey(meaning), level]));
  return new Map(
    packed.meanings.flatMap((meaning, at): [number, LevelIn][] => {
      const level = places.get(variableKey(meaning));
      const [here, there] = [own.meanings[at], level === undefined ? undefined : merged.meanings[level]];
      if (level === undefined || !here || !there) return [];
      return [[at, { level, values: valuesIn(here, there) }]];
    }),
  );
}

/** By value of the variable of both, the value that it is of one release's, or -1. */
function valuesIn(own: Meaning, merged: Meaning): number[] {
  if (own.kind === 'number' && merged.kind === 'number') {
    const cuts = own.cells.flatMap(({ above }) => above ?? []);
    return merged.cells.map(({ below }) => {
      if (!below) return 0;
      const isBelow = (value: string, belongsTo: string): boolean => {
        const order = compareDecimals(value, below.value);
        return order < 0 || (order === 0 && (belongsTo === 'upper' || below.belongsTo === 'lower'));
      };
      return cuts.filter(({ value, belongsTo }) => isBelow(value, belongsTo)).length;
    });
  }
  if (own.kind === 'control' && merged.kind === 'control') {
    const values = new Map(
      own.values.flatMap((each, value) =>
        [...each].map(([control, at]) => [`${control.id} ${control.positions[at]?.id}`, value] as const),
      ),
    );
    const found = merged.values.map((each) =>
      [...each].flatMap(([control, at]) => values.get(`${control.id} ${control.positions[at]?.id}`) ?? []),
    );
    return [...found.map(([value = -1]) => value), absentValue(own)];
  }
  if (own.kind === 'lamp') return [0, 1];
  const ids = valueIds(own);
  const found = valueIds(merged).map((id) => ids.indexOf(id));
  return own.kind === 'sequence' ? [...found, absentValue(own)] : found;
}

/** The values that occur on a fit, out of those of each release by id; `fits` of the first come first. */
function occurringIn(
  space: Space,
  [now, before]: readonly [Released['occurring'], Released['occurring']],
): ComparedFleet['occurring'] {
  const count = Object.values(now)[0]?.length ?? 0;
  return (level, { index }) => {
    const meaning = space.meanings[level];
    if (!meaning || (meaning.kind !== 'control' && meaning.kind !== 'sequence' && meaning.kind !== 'condition'))
      return [];
    const id = space.variables[level]?.id ?? '';
    const ids = (index < count ? now[id]?.[index] : before[id]?.[index - count]) ?? [];
    const all = valueIds(meaning);
    return all.flatMap((one, value) => (ids.includes(one) ? [value] : []));
  };
}
