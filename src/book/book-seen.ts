/**
 * What a reader may see, and what each of it says: which aircraft it can be, and what it can mean. The page lists it all; its
 * script combines several observations. See `book.ts`.
 */
import type { Effectivity, Inline, Listed, PageBase } from './book.ts';
import type { OccasionView } from './book-reference.ts';

/** One way to see a thing: "lit", "lit, blue", "three positions". */
export interface SeenChoice {
  /** Unique in its observation. */
  readonly id: string;
  readonly title: string;
  /** The aircraft that can show it, in some case. */
  readonly effectivity: Effectivity;
}
/** Something to look at. */
export interface Observation {
  /** Unique on the page: its anchor there. */
  readonly id: string;
  readonly kind: 'legend' | 'colour' | 'light' | 'lamp' | 'control';
  readonly title: string;
  /** A few words: "amber annunciator", "toggle switch". */
  readonly detail?: string;
  readonly colour?: string;
  /** Where all of it is told. */
  readonly more: Listed;
  readonly choices: readonly SeenChoice[];
}
export interface SeenPage extends PageBase {
  readonly kind: 'seen';
  readonly parts: readonly {
    /** Anchor, unique on its page. */
    readonly id: string;
    readonly title: string;
    readonly about: string;
    /** By panel where `title` is set. */
    readonly groups: readonly { readonly title?: string; readonly observations: readonly Observation[] }[];
  }[];
}

/** One thing that shows a choice, and when it does so. */
export interface SeenThing {
  readonly what: Listed;
  /** The settled fits on which it can be seen so: a place in `SeenData.sets`. */
  readonly set: number;
  /** When, by group of fits; `fits` is a place in `SeenData.sets`, of fits and not of settled ones. */
  readonly groups: readonly { readonly fits: number; readonly occasions: readonly OccasionView[] }[];
  /** What stands above all that, such as a lamp check, and what is to be said beside. */
  readonly notes: readonly (readonly Inline[])[];
}
/** A state of one thing, by the place of its attribute among all of them: what an observation is, or one of several. */
export interface SeenPart {
  readonly attribute: number;
  readonly state: string;
  /** The settled fits on which it is meant: a place in `SeenData.sets`. */
  readonly set: number;
}
/** What the script of the page reads. */
export interface SeenData {
  /** Sets of numbers, each once; others name them by their place here. */
  readonly sets: readonly (readonly number[])[];
  /** Each aircraft for each time in which it is one fit, and the settled fits that it may then be. */
  readonly periods: readonly {
    readonly serial: string;
    readonly registration: string;
    readonly from?: string;
    readonly until?: string;
    readonly fit: number;
    readonly settled: number;
  }[];
  /** By observation, then by choice. */
  readonly choices: Readonly<Record<string, Readonly<Record<string, SeenMeaning>>>>;
}
export interface SeenMeaning {
  /** The settled fits on which it can be seen: a place in `SeenData.sets`. */
  readonly set: number;
  readonly things: readonly SeenThing[];
  /** Any of them; none where a control is seen. */
  readonly parts: readonly SeenPart[];
}
