/** What comes out of replaying a timeline: what changed when, and how long each shown thing stood where. */
import type { Expression } from '../../language/index.ts';
import type { Attribute, DetectorOrder, Item, Never, Sequence, Timeline, Transition } from '../../model/index.ts';
import type { SettledFit } from '../fits.ts';
import type { Fraction } from './fraction.ts';

/** One input that a step sets, as the timeline writes it. */
export type InputChange = Timeline['steps'][number]['sets'][number];

/** A sequence that goes from one mode to another. */
export interface ModeChange {
  readonly sequence: Sequence;
  readonly from: string;
  readonly to: string;
  readonly transition: Transition;
  /** By the tolerance of its own delays, with all else as it was: between which times it may come. */
  readonly range?: { readonly earliest: Fraction; readonly latest: Fraction };
}

export interface CourseStep {
  /** Seconds. */
  readonly at: Fraction;
  readonly inputs: readonly InputChange[];
  /** In the order in which they follow each other, at the same time. */
  readonly changes: readonly ModeChange[];
  /** The shown rows, by index, whose value is another one after all this; at the first step all. */
  readonly shown: readonly number[];
}

/** For how long a row has a value; `until` of the last one is the end of the timeline. */
export interface Span {
  readonly from: Fraction;
  readonly until: Fraction;
  /** The id of a mode, or an outcome. */
  readonly value: string | number;
}

/** A sequence, whose spans have modes as values, or an attribute of an item, whose spans have outcomes. */
export type CourseRow =
  | { readonly kind: 'sequence'; readonly sequence: Sequence; readonly spans: readonly Span[] }
  | {
      readonly kind: 'item';
      readonly item: Item;
      readonly attribute: Attribute;
      readonly spans: readonly Span[];
    };

/** What a timeline gets wrong about the aircraft, or the aircraft's sequences about time. */
export type CourseFault =
  /** An expectation that is not fulfilled, with what the things that it reads were at that time. */
  | {
      readonly kind: 'expected';
      readonly at: Fraction;
      readonly expect: Timeline['expects'][number];
      readonly instead: readonly string[];
      /** The last change of each sequence that it reads, or else the very last one. */
      readonly since: readonly { readonly at: Fraction; readonly change: ModeChange }[];
    }
  | { readonly kind: 'never'; readonly at: Fraction; readonly step: Timeline['steps'][number]; readonly never: Never }
  /** A detector that cannot answer so, by its number or by the order of detectors. */
  | {
      readonly kind: 'detector';
      readonly at: Fraction;
      readonly input: InputChange;
      readonly order?: DetectorOrder;
    }
  /** What the expression reads is not stated, so that nobody knows what follows. */
  | { readonly kind: 'not stated'; readonly at: Fraction; readonly expression: Expression }
  /** Transitions that go round without time passing, or more of them than anyone can read. */
  | {
      readonly kind: 'endless';
      readonly at: Fraction;
      readonly sequences: readonly Sequence[];
      readonly many: boolean;
    };

export interface Course {
  readonly timeline: Timeline;
  readonly fit: SettledFit;
  readonly steps: readonly CourseStep[];
  /** Parallel to what the timeline shows. */
  readonly rows: readonly CourseRow[];
  readonly until: Fraction;
  /** After a fault of the kinds `endless` and `not stated` the course ends there. */
  readonly faults: readonly CourseFault[];
}
