/**
 * What the page needs to follow cases by itself beside the words of `PackedComparison`: which settings can stand, the transitions,
 * and what every item is, on each settled fit. Plain JSON.
 */
import type { HeardAt, Meaning } from '../../compile/index.ts';
import { type PackedDiagrams, pack } from '../../logic/index.ts';
import {
  outcomesOf,
  type PackedComparison,
  type PackedMeaning,
  packedMeaning,
} from '../comparison/packed-comparison.ts';
import type { ExploredFleet } from './explored-fleet.ts';

/** Values by level, -1 where a level has none. */
type Values = readonly number[];

/** What is hidden from readers, by the id of its definition. */
type PackedHidden =
  | {
      readonly kind: 'detector';
      readonly level: number;
      readonly id: string;
      readonly title: string;
      /** The level of its number. */
      readonly number: number;
      readonly rises: boolean;
    }
  | {
      readonly kind: 'unstated';
      readonly level: number;
      readonly id: string;
      readonly attribute: string;
      readonly query: string;
    };

export interface PackedExplorer {
  /** Of all levels but those of options and stores, in order. */
  readonly meanings: readonly (PackedMeaning | PackedHidden)[];
  readonly outcomes: PackedComparison['outcomes'];
  readonly diagrams: PackedDiagrams;
  readonly sounds: readonly {
    readonly id: string;
    readonly title: string;
    readonly sounds: string;
    readonly triggers: readonly HeardAt[];
  }[];
  readonly leaps: readonly (readonly [level: number, from: number, to: number])[];
  /** Parallel to the leaps. */
  readonly delays: readonly string[];
  /** Parallel to the settled fits; diagrams by their places. */
  readonly on: readonly {
    readonly constraints: readonly number[];
    readonly possible: readonly number[];
    /** Three for each leap: at once, in time, what must have happened. */
    readonly guards: readonly number[];
    readonly behaviours: readonly number[];
    /** Two for each trigger of each sound: what becomes so, -1 where nothing must, and what holds then. */
    readonly hearings: readonly (readonly number[])[];
    /** Parallel to the meanings. */
    readonly start: Values;
  }[];
}

export function packExplorer({ explorer: { fleet }, delays }: ExploredFleet): PackedExplorer {
  const { space, diagrams, on, leaps, sounds } = fleet;
  const meanings = space.meanings.flatMap((meaning, level) => meaningAt(fleet, meaning, level));
  const roots = [
    ...new Set(
      on.flatMap(({ constraints, possible, guards, behaviours, hearings }) => [
        ...constraints,
        ...possible,
        ...guards.flatMap(({ now, later, event }) => [now, later, event]),
        ...behaviours,
        ...hearings.flatMap((each) =>
          each.flatMap(({ becomes, during }) => (becomes === undefined ? [during] : [becomes, during])),
        ),
      ]),
    ),
  ];
  const places = new Map(roots.map((root, at) => [root, at]));
  const placesOf = (nodes: readonly number[]): number[] => nodes.map((node) => places.get(node) ?? -1);
  const packed = pack(diagrams, roots);
  return {
    meanings,
    outcomes: outcomesOf(fleet, packed.terminals),
    diagrams: packed,
    sounds: sounds.map(({ sound: { id, title, sounds: words }, triggers }) => ({ id, title, sounds: words, triggers })),
    leaps: leaps.map(({ level, from, to }) => [level, from, to] as const),
    delays,
    on: on.map(({ constraints, possible, guards, behaviours, hearings, start }) => ({
      constraints: placesOf(constraints),
      possible: placesOf(possible),
      guards: placesOf(guards.flatMap(({ now, later, event }) => [now, later, event])),
      behaviours: placesOf(behaviours),
      hearings: hearings.map((each) => placesOf(each.flatMap(({ becomes, during }) => [becomes ?? -1, during]))),
      start: meanings.map(({ level }) => start.get(level) ?? -1),
    })),
  };
}

function meaningAt(
  { detectors, unstated }: ExploredFleet['explorer']['fleet'],
  meaning: Meaning,
  level: number,
): PackedExplorer['meanings'] {
  switch (meaning.kind) {
    case 'option':
    case 'store':
      return [];
    case 'detector': {
      const found = detectors.find((each) => each.level === level);
      if (!found) throw new Error(`no detector stands at level ${level}`);
      const { id, title } = meaning.detector;
      return [{ kind: 'detector', level, id, title, number: found.number, rises: found.rises }];
    }
    case 'unstated': {
      const { item, attribute } = meaning;
      return [{ kind: 'unstated', level, id: item.id, attribute: attribute.id, query: unstated.get(level) ?? '' }];
    }
    default:
      return packedMeaning(meaning, level);
  }
}
