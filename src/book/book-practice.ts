/** What practice sheets show, as plain data. See `book.ts`. */
import type { PracticeKind } from '../model/index.ts';
import type { Effectivity, Inline, Listed, PageBase } from './book.ts';

export interface PracticeOption {
  /** "A". */
  readonly letter: string;
  readonly words: readonly Inline[];
}

export interface PracticeQuestion {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly number: number;
  readonly kind: PracticeKind;
  /** "QQ-OAG, taxi out": the aircraft and the stage that it takes place in. */
  readonly setting: readonly Inline[];
  readonly words: readonly Inline[];
  readonly options: readonly PracticeOption[];
  /** The letter of the right one. */
  readonly right: string;
  /** A sentence. */
  readonly because: readonly Inline[];
  /** Where the tables stand that say so. */
  readonly proof: readonly Inline[];
  readonly asked: Asked;
}

/** One fact of a question, by ids; of a number the range that is meant, in its unit, both ends included. */
export interface AskedFact {
  readonly of: string;
  readonly value?: string;
  readonly range?: { readonly from: string; readonly to: string };
}

/** That something is in a state on an aircraft with the facts of the question, and with `but` in place of one of them. */
export interface AskedState {
  readonly item: string;
  readonly attribute: string;
  readonly states: readonly string[];
  readonly but?: AskedFact;
}

/** A question in ids, for whoever would judge it without reading its words. */
export interface Asked {
  /** The stage that it takes place in, by ids; absent where nothing but what is fitted matters. */
  readonly stage?: { readonly procedure: string; readonly stage: string };
  /** The condition or control of the one fact that is otherwise than the stage has it. */
  readonly changed?: string;
  /** By serial; several where aircraft are compared. */
  readonly facts: readonly { readonly serial: string; readonly facts: readonly AskedFact[] }[];
  /**
   * One for each option. All `states` hold where it is right; where it is wrong, one of them does not. With `differs` it is
   * right where the item is in two states on the two aircraft, and wrong where it is in the same; with `fitted` it is right
   * where the first aircraft has the control or item and the second has not.
   */
  readonly options: readonly {
    readonly states: readonly AskedState[];
    readonly differs?: { readonly item: string; readonly attribute: string };
    readonly fitted?: string;
  }[];
}

export interface PracticePage extends PageBase {
  readonly kind: 'practice';
  readonly sets: readonly Listed[];
}

/** Questions drawn by one seed. */
export interface PracticeSheet {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly number: number;
  readonly seed: number;
  readonly questions: readonly PracticeQuestion[];
}

export interface PracticeSetPage extends PageBase {
  readonly kind: 'practice-set';
  readonly about?: string;
  readonly effectivity: Effectivity;
  /** How many questions the author asked for on a sheet; some sheets may have fewer. */
  readonly wanted: number;
  readonly sheets: readonly PracticeSheet[];
}
