/** What the pages of procedures show, as plain data. See `book.ts`. */
import type { DefinedPage, Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';
import type { AircraftUnit } from './book-figures.ts';

/** Where a control stands in a stage, on the aircraft on which the same is to be said of it. */
export interface StandView {
  readonly control: Listed;
  /** As it stands on the panel; on an aircraft of which too little is known, each that it may be. */
  readonly position: readonly Inline[];
  /** Where it springs back to. */
  readonly back?: readonly Inline[];
  /** "when cleared for take-off". */
  readonly says?: string;
  readonly effectivity: Effectivity;
  /** The same on every aircraft that has it. */
  readonly everywhere: boolean;
  /** It stood there before: the stage says so again. */
  readonly again: boolean;
}

/** What is so of a condition, or of a sequence by now. */
export interface FactView {
  readonly what: Listed;
  readonly value: string;
  readonly effectivity: Effectivity;
}

/** One state of something that is lit, and when it is so; `when` is empty where it is so in every case of the stage. */
export interface LitState {
  readonly state: StateView;
  readonly when: readonly Inline[];
}

export type LitKind = 'light' | 'sign' | 'annunciator' | 'message';

/** Something that is lit in a stage, or was in the stage before and is no more. */
export interface LitView {
  readonly kind: LitKind;
  /** Comes on or changes, stays as it was, or goes out. */
  readonly change: 'new' | 'stays' | 'out';
  readonly item: Listed;
  /** Its number in the drawings; only lights that stand in them have one. */
  readonly number?: string;
  /** Messages: the text. */
  readonly legend?: string;
  /** Several where it depends on what the stage leaves open. Of what goes out: what it was. */
  readonly states: readonly LitState[];
  readonly effectivity: Effectivity;
  /** The same on every aircraft that has it. */
  readonly everywhere: boolean;
}

/** The aircraft with the lamps that are lit, for all aircraft on which they are the same. */
export interface StageDrawing {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly effectivity: Effectivity;
  /** Each with its state; the tags are the numbers of the lights. */
  readonly units: readonly AircraftUnit[];
}

export interface StageView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** From 1. */
  readonly number: number;
  readonly title: string;
  readonly about?: string;
  /** What this stage says, and modes that have changed by themselves. */
  readonly facts: readonly FactView[];
  /** What is so beside it, since an earlier stage. */
  readonly kept: readonly FactView[];
  readonly wanted: readonly StandView[];
  /** All other controls, where they stand. */
  readonly others: readonly StandView[];
  readonly lit: readonly LitView[];
  readonly drawings: readonly StageDrawing[];
  /** Sentences that the build has held to the rules. */
  readonly claims: readonly string[];
  readonly citation?: string;
}

/** A row of the drawing: what one thing is in each stage. */
export interface PhaseRow {
  readonly item: Listed;
  readonly kind: LitKind;
  /** One a stage: lit in every case on every aircraft that has it, in some cases or on some aircraft, or not at all. */
  readonly cells: readonly { readonly lit: 'all' | 'some' | 'none'; readonly flashing: boolean }[];
}

export interface ProcedurePage extends DefinedPage {
  readonly kind: 'procedure';
  readonly stages: readonly StageView[];
  readonly phases: readonly PhaseRow[];
}

/** Several procedures, listed. */
export interface ProceduresPage extends PageBase {
  readonly kind: 'procedures';
  readonly procedures: readonly Listed[];
}

/** What a control or an item has to do in the stages of one procedure. */
export interface UseView {
  readonly procedure: Listed;
  readonly stages: readonly {
    readonly stage: Listed & { readonly anchor: string };
    /** The last stage, where the same is to be said of several in a row. */
    readonly until?: Listed & { readonly anchor: string };
    /** Controls: where it should stand. */
    readonly stands: readonly StandView[];
    /** Items: what it is. */
    readonly lit: readonly LitView[];
  }[];
}
