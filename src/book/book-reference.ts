/** What the pages show that gather things of one kind, for looking up: messages and sounds, legends, and others. See `book.ts`. */
import type { MessageClass } from '../model/index.ts';
import type { ChangeView, CitationView, Effectivity, Inline, Listed, OptionPage, PageBase, StateView } from './book.ts';

/** When a state is reached: alternatives, each of which is enough. */
export interface OccasionView {
  readonly state: StateView;
  readonly alternatives: readonly (readonly Inline[])[];
  /** What the alternatives are about: every case, the normal ones alone, or the author's rules where cases would be too many. */
  readonly of: 'all cases' | 'normal cases' | 'rules';
  /** It is reached in other cases too, which only the tables tell. */
  readonly more: boolean;
}
export interface OccasionGroup {
  readonly effectivity: Effectivity;
  readonly occasions: readonly OccasionView[];
}

/** One crew alerting message. */
export interface MessageView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** As it stands on the screen. */
  readonly text: string;
  readonly colour?: string;
  readonly message: Listed;
  readonly panel: Listed;
  readonly about?: string;
  readonly on: Effectivity;
  /** When it is raised, whatever may hold it back. */
  readonly groups: readonly OccasionGroup[];
  /** What holds it back, what takes its place, whether it is latched: each said, also where there is none. */
  readonly held: readonly (readonly Inline[])[];
  /** Lights, sounds and latches that it sets off. */
  readonly setsOff: readonly Listed[];
}
export interface SoundEntry {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly sound: Listed;
  /** "single low chime". */
  readonly sounds: string;
  readonly about?: string;
  readonly groups: readonly {
    readonly effectivity: Effectivity;
    /** What sets it off; empty where the aircraft have no such sound. */
    readonly sentences: readonly (readonly Inline[])[];
  }[];
}
export interface MessagesPage extends PageBase {
  readonly kind: 'messages';
  /** Every text in alphabetical order, for whoever reads one on the screen; the anchors are of this page. */
  readonly texts: readonly { readonly text: string; readonly anchor: string; readonly colour?: string }[];
  /** In the order of urgency; only those that have messages. */
  readonly classes: readonly {
    readonly id: string;
    readonly messageClass: MessageClass;
    readonly title: string;
    readonly about: string;
    readonly messages: readonly MessageView[];
  }[];
  readonly sounds: readonly SoundEntry[];
}

/** One item that a legend stands on. */
export interface LegendThing {
  readonly item: Listed;
  /** "annunciator", "sign". */
  readonly kind: string;
  readonly colour?: string;
  /** "APU and power", "APU cut push-button", "zone attendant seat". */
  readonly where: readonly (readonly Inline[])[];
  readonly about?: string;
  /** The aircraft on which the legend stands on it. */
  readonly on: Effectivity;
  readonly groups: readonly OccasionGroup[];
  /** What stands above all that: a lamp check, a failed driver. The strongest first. */
  readonly above: readonly (OccasionView & { readonly title: string })[];
  /** What sets and resets the latches that it follows. */
  readonly latches: readonly (readonly Inline[])[];
}
export interface LegendView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly text: string;
  readonly things: readonly LegendThing[];
  /** Where else the same words stand: a message, a position of a control. */
  readonly elsewhere: readonly (readonly Inline[])[];
}
export interface LegendsPage extends PageBase {
  readonly kind: 'legends';
  /** By initial, in alphabetical order. */
  readonly letters: readonly {
    readonly id: string;
    readonly letter: string;
    readonly legends: readonly LegendView[];
  }[];
}

/** A named expression. */
export interface SignalView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  /** The expression as the author wrote it, in titles. */
  readonly words: readonly Inline[];
  /** The cases in which it is true, by aircraft on which they are the same. */
  readonly groups: readonly OccasionGroup[];
  readonly reads: readonly Listed[];
  readonly readBy: readonly Listed[];
  readonly citations: readonly CitationView[];
}
export interface ConditionsPage extends PageBase {
  readonly kind: 'conditions';
  readonly conditions: readonly {
    readonly condition: Listed;
    readonly values: readonly { readonly title: string; readonly says: string; readonly normal: boolean }[];
  }[];
  readonly numbers: readonly {
    readonly condition: Listed;
    readonly range: string;
    readonly detectors: readonly { readonly detector: Listed; readonly trips: string }[];
    /** Which of its detectors never trips before another. */
    readonly order: readonly string[];
  }[];
  readonly signals: readonly SignalView[];
  /** What never happens together: alternatives that are each impossible. */
  readonly never: readonly {
    readonly alternatives: readonly (readonly Inline[])[];
    readonly citations: readonly CitationView[];
  }[];
}

export interface OptionsPage extends PageBase {
  readonly kind: 'options';
  readonly options: readonly {
    /** Anchor, unique on its page. */
    readonly id: string;
    readonly option: Listed;
    readonly about?: string;
    readonly values: OptionPage['values'];
    readonly constraints: OptionPage['constraints'];
    readonly decides: readonly Listed[];
  }[];
}

/** One value of one option on the aircraft of a row. */
export interface FleetCell {
  readonly value: string;
  readonly unknown: boolean;
  /** Unlike the baseline. */
  readonly differs: boolean;
  /** Known changes of single aircraft of the row, by date. */
  readonly later: readonly { readonly registration: string; readonly value: string; readonly date: string }[];
}
/** Aircraft that have the same values today. */
export interface FleetRow {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly aircraft: readonly Listed[];
  /** The baseline is one of them. */
  readonly baseline: boolean;
  /** Parallel to the options. */
  readonly cells: readonly FleetCell[];
  /** How many of them differ from the baseline. */
  readonly differing: number;
}
/** Every aircraft by every option. */
export interface FleetPage extends PageBase {
  readonly kind: 'fleet';
  readonly asOf: string;
  readonly baseline: Listed;
  readonly options: readonly Listed[];
  /** The baseline's row first, then in the order of the fleet. */
  readonly rows: readonly FleetRow[];
  /** Training devices, apart from the aircraft. */
  readonly devices: readonly FleetRow[];
  /** Every known change, by date. */
  readonly changes: readonly (ChangeView & { readonly aircraft: Listed })[];
}

export interface TermView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly meaning: string;
  /** Other words for it. */
  readonly also: readonly string[];
  readonly see: readonly Listed[];
  readonly citations: readonly CitationView[];
}
export interface GlossaryPage extends PageBase {
  readonly kind: 'glossary';
  readonly letters: readonly { readonly id: string; readonly letter: string; readonly terms: readonly TermView[] }[];
}

/** A word or legend of the index, and where it leads. */
export interface TermEntry {
  readonly text: string;
  /** As it stands on a panel or a screen. */
  readonly legend: boolean;
  /** What is found, and where: "toggle switch", "another word for". */
  readonly ways: readonly { readonly kind: string; readonly to: Listed }[];
}
export interface TermsPage extends PageBase {
  readonly kind: 'terms';
  readonly letters: readonly { readonly id: string; readonly letter: string; readonly entries: readonly TermEntry[] }[];
}

export type ReferencePage =
  | MessagesPage
  | LegendsPage
  | ConditionsPage
  | OptionsPage
  | FleetPage
  | GlossaryPage
  | TermsPage;
