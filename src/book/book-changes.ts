/** What a revision of the book changed, as its pages show it. See `book.ts`. */
import type { Address, Inline, Listed, PageBase } from './book.ts';
import type { DifferingGroup, SharedPanel } from './book-differences.ts';

/** A revision of the book, with its ISO date. */
export interface Revision {
  readonly revision: string;
  readonly date: string;
}

/** What became otherwise about aircraft. */
export interface AircraftChange {
  /** Several to which the same happened, each with the day since when. */
  readonly aircraft: readonly (readonly Inline[])[];
  readonly what: readonly Inline[];
  readonly before: string;
  readonly now: string;
  /** By which document, and whether the earlier revision told of it. */
  readonly because: readonly Inline[];
}

/** Things of one kind: "Lights". */
export interface ListedChanges {
  readonly kind: string;
  readonly entries: readonly {
    readonly words: readonly Inline[];
    /** What was said of it and is not any more, and what is new, line by line. */
    readonly before: readonly string[];
    readonly now: readonly string[];
  }[];
}

/** All that is otherwise than in an earlier revision. */
export interface ChangesPage extends PageBase {
  readonly kind: 'changes';
  readonly since: Revision;
  readonly now: Revision;
  /** How much has changed, in sentences. */
  readonly summary: readonly string[];
  readonly aircraft: readonly AircraftChange[];
  /** "Revision 7" and "Revision 8": what the two columns of facts are called. */
  readonly names: readonly [string, string];
  /** Aircraft of which the same has changed, in short. */
  readonly groups: readonly DifferingGroup[];
  readonly panels: readonly SharedPanel[];
  /** What is new, gone or renamed, and of what something else has changed; empty lists are left out. */
  readonly lists: readonly {
    /** Anchor, unique on its page. */
    readonly id: string;
    readonly title: string;
    readonly lead?: string;
    readonly kinds: readonly ListedChanges[];
  }[];
  /** The pages of what has changed since other revisions. */
  readonly others: readonly Listed[];
}

/** That something has changed since the last revision, and where it is told. */
export interface ToldChanges {
  /** Of the last one. */
  readonly revision: string;
  readonly to: Address;
  readonly anchor?: string;
}
