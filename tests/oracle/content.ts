/** A content folder as the oracle sees it: plain data, every expression still text. */
import type { Steps } from './decimal.ts';

export interface StageText {
  readonly id: string;
  readonly title: string;
  /** Conditions and sequences by id: values, `any`, or numbers as written. */
  readonly conditions: ReadonlyMap<string, readonly string[]>;
  /** By control, the first whose `when` holds. */
  readonly positions: ReadonlyMap<string, readonly { readonly when: string; readonly position: string }[]>;
  readonly claims: readonly { readonly sentence: string; readonly holds: string }[];
}
export interface ProcedureText {
  readonly id: string;
  readonly title: string;
  readonly stages: readonly StageText[];
}

export interface ConditionText {
  readonly id: string;
  readonly title: string;
  readonly noun: string | undefined;
  readonly normal: string | undefined;
  readonly number: (Steps & { readonly unit: string }) | undefined;
  /** Value id to its words. Empty for a number. */
  readonly values: ReadonlyMap<string, { readonly title: string; readonly says: string }>;
}
/** Trips as `number by value` says, except from `low` to `high`, where it may trip or not (the ends as the guide says). */
export interface DetectorText {
  readonly id: string;
  readonly title: string;
  readonly number: string;
  readonly by: string;
  readonly value: string;
  readonly low: string;
  readonly high: string;
  readonly says: string;
  readonly saysNot: string;
}
export interface OptionText {
  readonly id: string;
  readonly title: string;
  readonly values: ReadonlyMap<string, string>;
  /** By value: what an aircraft with it must fulfil. */
  readonly permitted: ReadonlyMap<string, string>;
}
export interface AircraftText {
  readonly serial: string;
  /** As of the book's date, as `options` are. */
  readonly registration: string;
  readonly kind: string;
  readonly from: string;
  readonly to: string;
  readonly options: Readonly<Record<string, string>>;
  /** After the book's date and while in service, by date. `option` may be `registration`. */
  readonly changes: readonly { readonly date: string; readonly option: string; readonly value: string }[];
}
export interface LegendText {
  readonly when: string;
  readonly legend: string;
}
export interface PositionText {
  /** Where none of `legends` holds. */
  readonly legend: string;
  readonly legends: readonly LegendText[];
  readonly fitted: string;
  readonly returns: string | undefined;
  readonly abnormal: boolean;
  readonly as: string | undefined;
}
export interface ControlText {
  readonly id: string;
  readonly panel: string;
  readonly title: string;
  readonly form: string;
  readonly fitted: string;
  readonly place: string | undefined;
  readonly counterpart: string | undefined;
  readonly positions: ReadonlyMap<string, PositionText>;
}
export interface RuleText {
  /** Undefined on `otherwise`. */
  readonly when: string | undefined;
  /** `not stated` where there is a query. */
  readonly state: string;
  readonly query: string | undefined;
  readonly inEveryCase: boolean;
}
export interface AttributeText {
  readonly id: string;
  readonly title: string;
  /** The attribute's own control, or else the item's. */
  readonly control: string | undefined;
  readonly policy: 'any' | 'unique' | 'first';
  readonly states: ReadonlyMap<string, { readonly title: string; readonly glyph: string | undefined }>;
  /** Stand above the rules, whatever the policy: the first that holds decides. */
  readonly before: readonly { readonly when: string; readonly state: string }[];
  /** In place of rules: the attribute of the same item whose state it takes. */
  readonly drivenBy: string | undefined;
  /** Set where it is a lamp, which can be `failed` or `serviceable`. */
  readonly lamp:
    | {
        readonly at: string | undefined;
        readonly side: string | undefined;
        readonly colour: string | undefined;
        readonly supply: readonly string[];
      }
    | undefined;
  readonly rules: readonly RuleText[];
}
export interface ItemText {
  readonly id: string;
  readonly panel: string;
  /** Light, sign, annunciator, message or supply. */
  readonly kind: string;
  readonly title: string;
  readonly noun: string;
  readonly plural: boolean;
  readonly fitted: string;
  readonly zone: string | undefined;
  readonly control: string | undefined;
  readonly colour: string | undefined;
  readonly legend: string | undefined;
  readonly legends: readonly LegendText[];
  readonly stations: readonly string[];
  readonly messageClass: string | undefined;
  readonly inhibit: readonly string[];
  readonly suppressedBy: readonly string[];
  /** The sequence that latches a message. */
  readonly latch: string | undefined;
  readonly supply: readonly string[];
  readonly attributes: ReadonlyMap<string, AttributeText>;
}
export interface OverrideText {
  readonly id: string;
  readonly title: string;
  readonly scope: {
    readonly kinds?: readonly string[];
    readonly panels?: readonly string[];
    readonly zones?: readonly string[];
    readonly items?: readonly string[];
    readonly except?: readonly string[];
  };
  readonly attribute: string;
  readonly when: string;
  readonly state: string;
  readonly quiet: boolean;
  readonly query: string | undefined;
}
export interface TimeText {
  readonly seconds: string;
  readonly tolerance: string | undefined;
}
export interface StoreText {
  readonly id: string;
  readonly title: string;
  readonly unit: string;
  readonly capacity: string;
  readonly start: string;
  readonly flows: readonly { readonly kind: 'fills' | 'drains'; readonly when: string; readonly perMinute: string }[];
}
export interface TransitionText {
  readonly from: readonly string[];
  readonly to: string;
  readonly when: string | undefined;
  /** How long `when` must have held. */
  readonly holds: TimeText | undefined;
  readonly after: TimeText | undefined;
  readonly since: { readonly event: string; readonly delay: TimeText; readonly restarts: boolean } | undefined;
}
export interface SequenceText {
  readonly id: string;
  readonly panel: string;
  readonly kind: 'sequence' | 'latch';
  readonly title: string;
  readonly noun: string;
  readonly fitted: string;
  readonly initial: string;
  readonly normal: string | undefined;
  readonly modes: ReadonlyMap<
    string,
    {
      readonly title: string;
      readonly says: string;
      readonly sets: readonly { readonly store: string; readonly level: string }[];
      readonly final: boolean;
    }
  >;
  readonly stores: ReadonlyMap<string, StoreText>;
  readonly transitions: readonly TransitionText[];
}
export interface SoundText {
  readonly id: string;
  readonly panel: string;
  readonly title: string;
  readonly fitted: string;
  readonly sounds: string;
  readonly triggers: readonly {
    readonly moves: string | undefined;
    readonly from: readonly string[] | undefined;
    readonly to: readonly string[] | undefined;
    readonly becomes: string | undefined;
    readonly while: string | undefined;
  }[];
}
/** Times in seconds. */
export interface TimelineText {
  readonly id: string;
  readonly title: string;
  readonly on: string;
  readonly shows: readonly string[];
  readonly steps: readonly { readonly at: string; readonly sets: ReadonlyMap<string, string> }[];
  readonly until: string;
  readonly expects: readonly { readonly at: string; readonly holds: string }[];
}
export interface ContentText {
  readonly book: { readonly operator: string; readonly type: string; readonly date: string; readonly baseline: string };
  readonly options: ReadonlyMap<string, OptionText>;
  readonly aircraft: readonly AircraftText[];
  readonly conditions: ReadonlyMap<string, ConditionText>;
  readonly detectors: ReadonlyMap<string, DetectorText>;
  /** Lists of detectors: none trips before the one that stands before it. */
  readonly inOrder: readonly (readonly string[])[];
  readonly never: readonly string[];
  readonly signals: ReadonlyMap<string, string>;
  readonly panels: ReadonlyMap<string, string>;
  /** Place id to title. */
  readonly places: ReadonlyMap<string, string>;
  readonly controls: ReadonlyMap<string, ControlText>;
  /** Supplies first. */
  readonly items: ReadonlyMap<string, ItemText>;
  /** Not on the aircraft: what raises messages that have rules and a latch. */
  readonly hidden: ReadonlyMap<string, ItemText>;
  readonly overrides: readonly OverrideText[];
  readonly sounds: ReadonlyMap<string, SoundText>;
  /** With the latches of panels and of messages. */
  readonly sequences: ReadonlyMap<string, SequenceText>;
  readonly timelines: ReadonlyMap<string, TimelineText>;
  readonly procedures: ReadonlyMap<string, ProcedureText>;
  readonly queries: ReadonlyMap<string, { readonly title: string; readonly isOpen: boolean }>;
  /** Term id to what glossary.yaml says of it. */
  readonly glossary: ReadonlyMap<
    string,
    {
      readonly title: string;
      readonly meaning: string;
      readonly also: readonly string[];
      readonly see: readonly string[];
    }
  >;
  /** From claims.yaml and from checked sentences in notes, in that order. */
  readonly claims: readonly { readonly sentence: string; readonly holds: string }[];
}
