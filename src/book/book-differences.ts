/** What differs between two fits, or between one fit and several, as the pages show it. See `book.ts`. */
import type { Cell, Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';

/** What a comparison says of one thing that can be seen, or of several lamps of a light at once. */
export interface DifferenceView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly item: Listed;
  /** The lamps that it is about, by the anchors of their tables; absent where it is about a light as such or another thing. */
  readonly lamps?: readonly string[];
  /** "Differs", "May differ", "Stated on QQ-OAC only", "Only possible on QQ-OAA". */
  readonly verdict: string;
  /** A plain case; empty where the table is no longer than that. */
  readonly example: readonly Inline[];
  /** Columns as in a state table, with two results. */
  readonly table: {
    readonly id: string;
    /** `each`: what the column is for each of the lamps, in their order, where that differs. */
    readonly columns: readonly {
      readonly title: readonly Inline[];
      readonly each?: readonly (readonly Inline[])[];
      /** Whether these lamps work: the anchors of their tables. */
      readonly lamps?: readonly string[];
    }[];
    readonly resultTitles: readonly [string, string];
    readonly rows: readonly {
      /** As in `Row`. */
      readonly key: string;
      readonly cells: readonly Cell[];
      readonly results: readonly [StateView, StateView];
      readonly first: boolean;
    }[];
  };
}
/** A position, mode or value that only one of the two can have, and what is seen then. */
export interface LoneView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** The id of the control, sequence or condition; of counterparts the one that the others count as. */
  readonly of: string;
  /** "While the APU is cooling down". */
  readonly title: readonly Inline[];
  /** "Only possible on QQ-OAQ". */
  readonly verdict: string;
  /** Sentences on normal cases; a link leads each to its tables. */
  readonly says: readonly { readonly words: readonly Inline[]; readonly tables: readonly Inline[] }[];
}
/** Positions of controls that differ between two fits, in words. */
export interface ControlDifference {
  readonly control: Listed;
  readonly here: readonly Inline[];
  readonly baseline: readonly Inline[];
}
/** Things that only one of the two has. */
export interface NotFittedView {
  /** "Not fitted on QQ-OAA". */
  readonly verdict: string;
  readonly items: readonly Listed[];
}
/** All of one panel. */
export interface PanelDifferences {
  readonly panel: Listed;
  readonly looks: readonly ControlDifference[];
  readonly notFitted: readonly NotFittedView[];
  readonly lone: readonly LoneView[];
  readonly differences: readonly DifferenceView[];
}

/** Something that is said once for all aircraft of which it is true. */
export interface Shared<T> {
  readonly what: T;
  readonly effectivity: Effectivity;
}
/** All of one panel against one fit, each thing said once. */
export interface SharedPanel {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly panel: Listed;
  readonly looks: readonly Shared<ControlDifference>[];
  readonly notFitted: readonly Shared<NotFittedView>[];
  readonly lone: readonly Shared<LoneView>[];
  readonly differences: readonly Shared<DifferenceView>[];
}
/** Aircraft that differ from the reference in the same ways, in short. */
export interface DifferingGroup {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly effectivity: Effectivity;
  readonly options: readonly { readonly option: Listed; readonly here: string; readonly baseline: string }[];
  /** Sentences by panel; a panel in which nothing differs is left out. */
  readonly panels: readonly { readonly panel: Listed; readonly sentences: readonly (readonly Inline[])[] }[];
}
/** Every fit of the fleet against that of the baseline, or a training device against every aircraft. */
export interface DifferencesPage extends PageBase {
  readonly kind: 'differences';
  /** The baseline or the training device. */
  readonly reference: Listed;
  /** "QQ-OAA": what the second column of facts is called, and "Here" the first. */
  readonly names: readonly [string, string];
  readonly groups: readonly DifferingGroup[];
  readonly panels: readonly SharedPanel[];
  /** The pages of training devices, on that of the baseline. */
  readonly devices: readonly Listed[];
  /** Where any other two are compared; absent where there are no two. */
  readonly compare?: Listed;
}
/** All that differs between two aircraft on a day. */
export interface ComparisonView {
  /** What the two are called on that day. */
  readonly names: readonly [string, string];
  /** What the anchors of its parts begin with. */
  readonly anchor: string;
  /** "QQ-OAF is compared as it is since 2026-12-01." */
  readonly notes: readonly string[];
  /** How much differs, in sentences. */
  readonly summary: readonly string[];
  readonly options: readonly { readonly option: Listed; readonly here: string; readonly there: string }[];
  readonly inShort: DifferingGroup['panels'];
  readonly panels: readonly PanelDifferences[];
}
/** Where a reader compares any two aircraft. */
export interface ComparePage extends PageBase {
  readonly kind: 'compare';
  /** As on the book's date, then as from each later day on which an aircraft changes. */
  readonly lists: readonly AircraftList[];
  /** Pages that compare without a script. */
  readonly built: readonly Listed[];
}
/** The fleet as it is from a day on. */
export interface AircraftList {
  /** ISO. */
  readonly from: string;
  /** Aircraft that are fitted alike, then training devices. */
  readonly groups: readonly {
    /** "Fitted alike, as the baseline". */
    readonly title: string;
    /** `anchor`: the address of the page with it chosen. */
    readonly aircraft: readonly { readonly serial: string; readonly registration: string; readonly anchor: string }[];
  }[];
}

/** The baseline with one option at another value, all others as they are as far as the constraints permit. */
export interface OtherwiseView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** "Automatic instead of Manual". */
  readonly title: string;
  /** What the constraints ask to be changed along with it. */
  readonly along: readonly { readonly option: Listed; readonly value: string; readonly instead: string }[];
  /** The aircraft that are fitted so; absent where none is. */
  readonly effectivity?: Effectivity;
  /** Why nothing is compared: no aircraft may be fitted so, or the rules of the book cannot be used on one. */
  readonly none?: 'forbidden' | 'unsound';
  /** Items whose rules were not written for such an aircraft. */
  readonly unruled: readonly Listed[];
  readonly differences: readonly PanelDifferences[];
}
/** What hangs on one option alone. */
export interface SoleOption {
  readonly lead: readonly Inline[];
  /** What the two columns of facts are called. */
  readonly names: readonly [string, string];
  readonly values: readonly OtherwiseView[];
}
