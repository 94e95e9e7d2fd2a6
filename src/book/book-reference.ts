/** What the pages show that gather things of one kind, for looking up: messages and sounds, legends, and others. See `book.ts`. */
import type { MessageClass } from '../model/index.ts';
import type { Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';

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

export type ReferencePage = MessagesPage | LegendsPage;
