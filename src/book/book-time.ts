/** What the pages of sequences, timelines and sounds show, as plain data. See `book.ts`. */
import type { Address, DefinedPage, Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';

export interface ModeView {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  /** "at first", "normal", "final", and what entering it sets: "sets Start battery to 5 min". */
  readonly marks: readonly string[];
  /** The aircraft on which some run leads to it. Absent: none. */
  readonly reached?: Effectivity;
}
export interface TransitionView {
  /** As in the drawing: 1 is the first in the order of priority. */
  readonly number: number;
  readonly from: readonly string[];
  readonly to: string;
  /** What it waits for beside time; "nothing else" where it waits for time alone. */
  readonly waits: readonly Inline[];
  /** "held for 2 s", "after 60 s ± 5 s in the mode", "2 s after ..."; empty where it is taken at once. */
  readonly delay: readonly Inline[];
  /** Where it can be taken, if not wherever the sequence is fitted. Aircraft may be none. */
  readonly on?: Effectivity;
}
export interface StoreView {
  readonly id: string;
  readonly title: string;
  /** "0 to 12 min, 12 min at first". */
  readonly range: string;
  readonly flows: readonly { readonly rate: string; readonly when: readonly Inline[] }[];
}
export interface StateDiagramView {
  readonly id: string;
  readonly title: string;
  /** The id of the vertex that it starts in. */
  readonly initial: string;
  readonly vertices: readonly { readonly id: string; readonly text: string; readonly final: boolean }[];
  /** One for each transition and each mode that it leads from. `number` is the transition's. */
  readonly edges: readonly { readonly from: string; readonly to: string; readonly number: number }[];
  /** What each transition waits for, in the order of their numbers. */
  readonly key: readonly (readonly Inline[])[];
  /** The same as Mermaid text, with the words of the guards. */
  readonly mermaid: string;
}
export interface SequencePage extends DefinedPage {
  readonly kind: 'sequence';
  readonly latch: boolean;
  readonly panel: Listed;
  readonly fitted: Effectivity;
  readonly modes: readonly ModeView[];
  /** Whether transitions can be due at once on purpose. */
  readonly priorityDeclared: boolean;
  readonly transitions: readonly TransitionView[];
  /** Signals that the guards name, spelt out. */
  readonly signals: readonly { readonly title: string; readonly words: readonly Inline[] }[];
  readonly stores: readonly StoreView[];
  readonly diagram: StateDiagramView;
  readonly timelines: readonly TimelineView[];
  /** Timelines that show it on the page of another sequence. */
  readonly timelinesElsewhere: readonly TimelineListed[];
  readonly items: readonly Listed[];
  readonly messages: readonly Listed[];
  readonly sounds: readonly Listed[];
  readonly sequences: readonly Listed[];
  readonly reads: readonly Listed[];
}
export interface SequencesPage extends PageBase {
  readonly kind: 'sequences';
  readonly sequences: readonly Listed[];
  readonly latches: readonly Listed[];
  readonly timelines: readonly TimelineListed[];
  /** Timelines that show no sequence. */
  readonly own: readonly TimelineView[];
}

export type TimelineListed = Listed & { readonly anchor: string };

/** A worked example, replayed. */
export interface TimelineView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly on: { readonly registration: string; readonly to: Address };
  readonly rows: readonly TimelineRow[];
  readonly steps: readonly TimelineStep[];
  /** All the times of the steps, and the end: "0 s", "3 s". */
  readonly times: readonly string[];
  /** Some delay on the way has a tolerance: the course is that of the delays as such. */
  readonly tolerant: boolean;
  /** What the documents don't state, where the run stops because of it. */
  readonly stopped?: string;
}
/** One shown thing and its course. */
export interface TimelineRow {
  readonly id: string;
  readonly title: Listed;
  readonly kind: 'sequence' | 'item';
  /** From and to are indices into the times. */
  readonly spans: readonly { readonly from: number; readonly to: number; readonly state: StateView }[];
}
export interface TimelineStep {
  readonly time: string;
  /** "APU run control RUN", one each. */
  readonly inputs: readonly (readonly Inline[])[];
  /** "APU: starting → running", with the earliest and latest time where a delay has a tolerance. */
  readonly changes: readonly string[];
  /** What each row is after this; `again` where it was so before. */
  readonly states: readonly { readonly state: StateView; readonly again: boolean }[];
}

/** Movements that set a sound off. */
export interface TriggerRowView {
  readonly moves: readonly Inline[];
  readonly from: readonly Inline[];
  readonly to: readonly Inline[];
  /** What must move with it; empty where nothing does. */
  readonly forced: readonly Inline[];
  readonly cases: readonly Inline[];
  readonly heard: 'heard' | 'may be heard';
}
export interface TriggerTableView {
  readonly id: string;
  /** "Heard at each movement of the seat-belt switch. Nothing else sets it off." */
  readonly sentence: readonly Inline[];
  readonly rows: readonly TriggerRowView[];
}
export interface SoundGroup {
  readonly id: string;
  readonly effectivity: Effectivity;
  /** Not there: the aircraft has no such sound. Several: which one holds depends on options that nobody knows. */
  readonly tables: readonly TriggerTableView[];
  readonly dependsOn: readonly string[];
}
export interface SoundPage extends DefinedPage {
  readonly kind: 'sound';
  readonly sounds: string;
  readonly panel: Listed;
  readonly groups: readonly SoundGroup[];
  readonly reads: readonly Listed[];
}
