/**
 * The Fleet: everything that an author defines, typed and checked, each value with its place.
 * It is the only thing that compile/ and book/ know of the content files. Order is the author's order throughout.
 */
import type { Place, SourceFile } from '../diagnostics/index.ts';
import type { Duration, Expression, Guard } from '../language/index.ts';

/** A citation: a document of sources.yaml and, where given, a paragraph in it and the revision that was read. */
export interface Citation {
  readonly document: string;
  readonly paragraph?: string;
  /** Another than the document's own: what cites it is to be reviewed. */
  readonly revision?: string;
  readonly place: Place;
}

/** What every definition has. `title` is for headings and table columns, `about` is one plain paragraph. */
export interface Defined {
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly source?: Citation;
  /** Ids that it had in earlier releases. */
  readonly formerly?: readonly string[];
  /** Where the id stands. */
  readonly place: Place;
}

export type PaperSize = 'A4' | 'A5' | 'Letter';

export interface BookInfo {
  readonly operator: string;
  readonly type: string;
  readonly title: string;
  readonly revision: string;
  /** ISO date; the book is built as of it. */
  readonly date: string;
  /** Serial of the aircraft that others are compared with. */
  readonly baseline: string;
  readonly cautions: readonly string[];
  readonly paper: PaperSize;
  /** Where the book can be read, with a slash at its end. */
  readonly address?: string;
  /** The mail address for remarks of readers. */
  readonly remarks?: string;
  /** BCP 47, for the html lang attribute. */
  readonly language: string;
  readonly place: Place;
  readonly revisionPlace: Place;
}

export interface OptionValue {
  readonly id: string;
  readonly title: string;
  readonly formerly?: readonly string[];
  readonly place: Place;
}
export interface Option extends Defined {
  readonly values: readonly OptionValue[];
}

/** What an aircraft with one option value must have, or must not have, in its other options. Over options only. */
export interface Constraint {
  readonly option: string;
  readonly value: string;
  readonly kind: 'requires' | 'excludes';
  readonly expression: Expression;
  readonly place: Place;
}

/** The value that says that nobody knows which of the others it is. Every option can have it. */
export const UNKNOWN = 'unknown';

/** A change of an aircraft on a day. */
export interface Change {
  /** ISO date: the first day with the new value. */
  readonly date: string;
  /** What changes: an option id, or `registration`. */
  readonly option: string;
  readonly value: string;
  /** The document of sources.yaml that orders it. */
  readonly document?: string;
  readonly place: Place;
}

/** One airframe, or a training device. `fit` maps every option id to a value id or `unknown`, as of the book's date. */
export interface Aircraft {
  readonly serial: string;
  readonly registration: string;
  readonly kind: 'aircraft' | 'device';
  readonly fit: ReadonlyMap<string, string>;
  /** Known changes after the book's date while in service, in order of their dates. */
  readonly changes: readonly Change[];
  /** Those up to that date, which `fit` has in it, in order of their dates. */
  readonly made: readonly Change[];
  readonly place: Place;
}

export interface ConditionValue {
  readonly id: string;
  /** The words of a table cell: "on the ground". */
  readonly title: string;
  /** The words of a sentence, starting with a preposition or conjunction: "on the ground", "with the slats out". */
  readonly says: string;
  readonly place: Place;
}
/** A number as decimals in the author's own notation; steps are counted exactly, never as floats. */
export interface NumberRange {
  readonly unit: string;
  readonly from: string;
  readonly to: string;
  readonly step: string;
}
export interface Condition extends Defined {
  /** Exactly one of `values` and `number`. */
  readonly values?: readonly ConditionValue[];
  readonly number?: NumberRange;
  /** The value that it has in normal cases, where there is one. Value conditions only. */
  readonly normal?: string;
  /** How a sentence names a number: "the airspeed". */
  readonly noun?: string;
}

/**
 * A named threshold on a number. It trips at an actual point somewhere in the tolerance on either side; between,
 * it may or may not. All that read it see the same answer.
 */
export interface Detector extends Defined {
  /** The number condition. */
  readonly number: string;
  readonly by: '<' | '<=' | '>' | '>=';
  /** Decimals in the number's unit. */
  readonly value: string;
  readonly tolerance: string;
  /** The words of a sentence: "with the cabin altitude detector tripped". */
  readonly says: string;
  readonly saysNot: string;
}

/** Detectors that trip in this order: whenever one trips, so do those before it. Two others are independent. */
export interface DetectorOrder {
  readonly detectors: readonly string[];
  readonly place: Place;
}

/** What never happens together: the expression is false in every case. It reads variables only. */
export interface Never {
  readonly expression: Expression;
  readonly source?: Citation;
  readonly place: Place;
}

export interface Signal extends Defined {
  readonly expression: Expression;
  /** For sentences, where the author gives them: "in the take-off window", "outside the take-off window". */
  readonly says?: string;
  readonly saysNot?: string;
}

/** What stands on the panel where an expression over options holds. */
export interface FittedLegend {
  readonly when: Expression;
  readonly legend: string;
}

export interface Position {
  readonly id: string;
  /** What stands on the panel, where none of `legends` holds. */
  readonly legend: string;
  /** The first that holds decides. */
  readonly legends: readonly FittedLegend[];
  /** Over options only; absent means on every fit that has the control. */
  readonly fitted?: Expression;
  /** The position that it springs back to when it is let go. */
  readonly returns?: string;
  /** Cases in which the control stands there are abnormal. The same for positions that count as one. */
  readonly abnormal: boolean;
  /** The position of the counterpart control that it is the same as. */
  readonly as?: string;
  readonly formerly?: readonly string[];
  readonly place: Place;
}

/** A hole in a panel, where different controls may be fitted; one at most on each aircraft. */
export interface PanelPlace extends Defined {
  readonly panel: string;
}

export interface Control extends Defined {
  readonly panel: string;
  /** What it is: "toggle switch", "push-button". */
  readonly form: string;
  readonly fitted?: Expression;
  readonly positions: readonly Position[];
  /** The place that it is fitted in, where the author names places. */
  readonly at?: string;
  readonly guarded: boolean;
  /** The heading of the row in which drawings of the panel show it. */
  readonly row?: string;
  /**
   * The control that it counts as where aircraft are compared: positions marked `as` are the same value as that one's.
   * The two are never fitted together.
   */
  readonly counterpart?: string;
}

/** A `supply` is an electrical bus: its one attribute `source` has the states `from-FEEDER`, in order, and `lost`. */
export type ItemKind = 'light' | 'sign' | 'annunciator' | 'message' | 'supply';
export type MessageClass = 'warning' | 'caution' | 'advisory' | 'reminder';
export type Glyph = 'dark' | 'lit' | 'flashing' | 'none';

export interface State {
  readonly id: string;
  /** The word shown: "Lit", in lower case: "lit". */
  readonly title: string;
  readonly glyph: Glyph;
  readonly place: Place;
}

export type HitPolicy = 'any' | 'unique' | 'first';

export interface Rule {
  /** Absent on `otherwise`. */
  readonly when?: Expression;
  /** The id of a state; `not stated` where `query` is set. */
  readonly then: string;
  /** The open query that asks what happens: nothing is stated of these cases. */
  readonly query?: string;
  /** Holds in every case: an override that breaks it is a finding. */
  readonly inEveryCase?: boolean;
  /** Of the whole rule; diagnostics about the premise use `when.place`. */
  readonly place: Place;
  readonly source?: Citation;
}

/**
 * A point of an airframe: percent of the length from the nose, of the half span from the axis (the left is negative), and
 * of the height from the ground.
 */
export interface Spot {
  readonly along: number;
  readonly across: number;
  readonly above: number;
}
/** What a lamp is seen from: relative bearings in degrees, clockwise from dead ahead; 0 to 360 is all round. */
export interface Sector {
  readonly from: number;
  readonly to: number;
}
/** Where one unit of a light stands on the airframe, for drawings. */
export interface Mounting {
  /** In words: "left wing tip". */
  readonly at: string;
  readonly side: 'left' | 'right' | 'centre';
  readonly spot: Spot;
  readonly sector?: Sector;
}

/** One lamp of a light. */
export interface Lamp {
  /** Where on the airframe, in words: "left wing tip". */
  readonly at?: string;
  readonly side?: 'left' | 'right' | 'centre';
  readonly mounting?: Mounting;
  readonly colour?: string;
  /** Supplies and conditions that feed it; its rules read them. */
  readonly supply: readonly string[];
}

/**
 * Something that can be seen of an item. A lamp of a light is one too, with rules of its own: dark when failed or
 * unfed, otherwise as the light's attribute `lamp` says.
 */
export interface Attribute {
  readonly id: string;
  /** Set where the attribute is one lamp; whether it has failed is a variable, `Reference.kind` `lamp`. */
  readonly lamp?: Lamp;
  readonly title: string;
  /** The control that drives it, the first column of its tables: its own, or else the item's. */
  readonly control?: string;
  readonly states: readonly State[];
  readonly policy: HitPolicy;
  readonly rules: readonly Rule[];
  /** Of the rule list: where a gap is reported. */
  readonly place: Place;
}

export interface Item extends Defined {
  readonly panel: string;
  readonly kind: ItemKind;
  /** The part of the aircraft that overrides can name: "cabin". */
  readonly zone?: string;
  /** Legends by option, the first that holds decides; `legend` where none does. */
  readonly legends: readonly FittedLegend[];
  /** Controls that can each ask for it. Empty where there is one at most. */
  readonly stations: readonly string[];
  /** Lights that name no lamps: where their units are, where that is said. */
  readonly mountings: readonly Mounting[];
  readonly fitted?: Expression;
  /** For sentences: "the logo lights" and whether it takes a plural verb. */
  readonly noun: string;
  readonly plural: boolean;
  /** Lights: the colour seen. Annunciators: the colour of the legend. */
  readonly colour?: string;
  /** Annunciators: the legend. Messages: the text. */
  readonly legend?: string;
  readonly messageClass?: MessageClass;
  /** Messages: the signals in which it is held back, and the messages that suppress it. Its rules read them. */
  readonly inhibit: readonly string[];
  readonly suppressedBy: readonly string[];
  /** Messages: the sequence that latches it, where it is latched. */
  readonly latch?: string;
  /** Conditions and supplies that feed it, for the "supply" line; they must be among what its rules read. */
  readonly supply: readonly string[];
  readonly attributes: readonly Attribute[];
}

export interface Panel extends Defined {
  readonly controls: readonly string[];
  readonly items: readonly string[];
}

/** Stands above the own rules of the items in its scope. Earlier ones stand above later ones. */
export interface Override extends Defined {
  /** An item is in scope when it fulfils every part that is given. */
  readonly scope: {
    readonly kinds?: readonly ItemKind[];
    readonly panels?: readonly string[];
    readonly zones?: readonly string[];
    readonly items?: readonly string[];
    readonly except?: readonly string[];
  };
  /** The attribute that it sets, where an item in scope has it and the state. */
  readonly attribute: string;
  readonly when: Expression;
  readonly then: string;
  /** Messages and sounds read items as if it did not exist. */
  readonly quiet: boolean;
  /** The open query about rules marked as holding in every case that it breaks. */
  readonly query?: string;
}

/** What sets a sound off: a change from one case to another in which one thing moves. */
export interface Trigger {
  /** The control, condition or sequence that moves; absent: any. */
  readonly moves?: string;
  /** Values before and after; absent: any. */
  readonly from?: readonly string[];
  readonly to?: readonly string[];
  /** False before and true after. */
  readonly becomes?: Expression;
  /** Holds after the change. */
  readonly while?: Expression;
  readonly place: Place;
  readonly source?: Citation;
}

/** A chime, horn or spoken word: an event, not a state. */
export interface Sound extends Defined {
  readonly panel: string;
  readonly noun: string;
  readonly fitted?: Expression;
  /** In words: "single low chime". */
  readonly sounds: string;
  readonly triggers: readonly Trigger[];
}

export interface Mode {
  readonly id: string;
  readonly title: string;
  /** The words of a sentence: "while the unit is starting". */
  readonly says: string;
  /** Stores that entering the mode sets to a level. */
  readonly sets: readonly { readonly store: string; readonly level: string; readonly place: Place }[];
  /** No transition leads out of it, on purpose. */
  readonly final: boolean;
  readonly place: Place;
}

/** A level between 0 and `capacity` that drains and fills; rates in its unit per minute. */
export interface Store extends Defined {
  readonly unit: string;
  /** Decimals. */
  readonly capacity: string;
  readonly start: string;
  readonly flows: readonly {
    readonly kind: 'fills' | 'drains';
    readonly when: Expression;
    readonly perMinute: string;
    readonly place: Place;
  }[];
}

/** From one of several modes to another. Earlier transitions of a sequence have priority over later ones. */
export interface Transition {
  readonly from: readonly string[];
  readonly to: string;
  /** Holds, perhaps for some time without a break; absent: as soon as the other guards allow. */
  readonly guard?: Guard;
  /** Time in the mode. */
  readonly after?: Duration;
  /** Time since an expression became true while in the mode, or was true on entry. */
  readonly since?: { readonly event: Expression; readonly delay: Duration; readonly restarts: boolean };
  readonly place: Place;
  readonly source?: Citation;
}

/** Modes that follow each other in time. Items, signals and claims read the mode; time stands in its guards only. */
export interface Sequence extends Defined {
  readonly panel: string;
  /** A latch of a panel, or the latch of a message, has the modes `reset` and `set`. */
  readonly kind: 'sequence' | 'latch';
  readonly noun: string;
  readonly fitted?: Expression;
  readonly initial: string;
  /** The mode that it has in normal cases, where there is one. */
  readonly normal?: string;
  readonly modes: readonly Mode[];
  readonly stores: readonly Store[];
  /** The author knows that transitions can be due at once, and means the earlier one to win. */
  readonly priorityDeclared: boolean;
  readonly transitions: readonly Transition[];
}

/** A worked example: inputs that change at given times, replayed on one aircraft. */
export interface Timeline extends Defined {
  /** The serial of the aircraft or device. */
  readonly on: string;
  /** Sequences and items whose course is shown: an item's attribute as `item.attribute`. */
  readonly shows: readonly { readonly id: string; readonly attribute?: string; readonly place: Place }[];
  /** Seconds, rising, decimals as written; the first is 0. Variables that no step sets are as `initialInputs` says. */
  readonly steps: readonly {
    readonly at: string;
    readonly sets: readonly { readonly id: string; readonly value: string; readonly place: Place }[];
    readonly place: Place;
  }[];
  /** Seconds. */
  readonly until: string;
  /** What must hold at some time, with changes of that very time taken. */
  readonly expects: readonly { readonly at: string; readonly holds: Expression; readonly place: Place }[];
}

/** What is so in a stage: of a condition, or the mode of a sequence. Exactly one of `values` and `range`. */
export interface StageFact {
  readonly id: string;
  /** It may be any of these values or modes. */
  readonly values?: readonly string[];
  /** A number between two decimals, both ends included. */
  readonly range?: { readonly from: string; readonly to: string };
  readonly place: Place;
}

/** Where a control is wanted in a stage. */
export interface WantedPosition {
  /** Over options only; absent: wherever no earlier one holds. */
  readonly when?: Expression;
  readonly position: string;
  /** The words after the position: "when cleared for take-off". */
  readonly says?: string;
  /** Of the position. */
  readonly place: Place;
}

/** A part of a procedure. What it does not say is as the stage before left it. */
export interface Stage {
  /** Unique in its procedure. */
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly source?: Citation;
  readonly place: Place;
  readonly facts: readonly StageFact[];
  /** For each control the first wanted position that holds; none where none does. */
  readonly positions: readonly {
    readonly control: string;
    readonly wanted: readonly WantedPosition[];
    readonly place: Place;
  }[];
  /** What must hold in the stage, in every case that can be then. */
  readonly claims: readonly Claim[];
}

/** The operator's own use of the controls through a flight. */
export interface Procedure extends Defined {
  readonly stages: readonly Stage[];
}

/** A question to the owner of a document. */
export interface Query extends Defined {
  readonly question: string;
  readonly to: string;
  readonly asked: string;
  readonly answered?: { readonly date: string; readonly answer: string; readonly source?: Citation };
}

export interface Source {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly date?: string;
  readonly place: Place;
}

/** A word of the trade, or of the house, and what it means here. */
export interface Term extends Defined {
  /** One plain paragraph. */
  readonly meaning: string;
  /** Other words for it, as crews say them. */
  readonly also: readonly string[];
  /** Ids of definitions, and of other terms, that it leads to. */
  readonly see: readonly string[];
}

/** A statement that must hold in every case on every fit. */
export interface Claim {
  readonly expression: Expression;
  /** The author's sentence, plain text. */
  readonly sentence: string;
  /** Of the expression. */
  readonly place: Place;
}

/** Text of the author's: Markdown parsed into an mdast tree with its references and computed blocks checked. */
export interface Prose {
  /** Unique in the book. */
  readonly id: string;
  readonly body: import('mdast').Root;
}

/** What a text asks the book to put in, beside the tables of items. `key` tells it from others; see `quoteKey`. */
export type Quote =
  /** How a control, an item or a whole panel on one aircraft differs from another's, by registration. */
  | {
      readonly kind: 'difference';
      readonly key: string;
      readonly of: string;
      readonly on: string;
      readonly from: string;
    }
  /** The aircraft of which something over options is true, now or later. */
  | { readonly kind: 'aircraft'; readonly key: string; readonly with: Expression }
  /** The changes of aircraft that a document orders, made or to come. */
  | { readonly kind: 'changes'; readonly key: string; readonly by: string };

export interface Note extends Prose {
  readonly title: string;
  /** Ids of the definitions whose pages show it. */
  readonly about: readonly string[];
  readonly source: SourceFile;
  readonly claims: readonly Claim[];
  readonly quotes: readonly Quote[];
  readonly place: Place;
}

/** One stop of a tour. */
export interface TourStop {
  /** The control, place, light, sign or annunciator that it is at. */
  readonly at: string;
  /** What the author calls it, where that is not its title. */
  readonly words?: string;
  readonly remarks: Prose;
  /** What crews fall into here. */
  readonly traps: readonly Prose[];
  readonly place: Place;
}

/** A walk along a panel, for a trainer. */
export interface Tour {
  readonly id: string;
  readonly title: string;
  readonly panel: string;
  /** Over options only: the aircraft that it is for; absent: all. */
  readonly for?: Expression;
  /** How long it takes, as written. */
  readonly minutes?: string;
  readonly source: SourceFile;
  /** What is said before the first stop. */
  readonly opening: Prose;
  readonly stops: readonly TourStop[];
  readonly claims: readonly Claim[];
  readonly quotes: readonly Quote[];
  readonly place: Place;
}

/** What crews are to know by a day, until another. */
export interface Notice extends Prose {
  /** The part of its address: the file's name. */
  readonly name: string;
  /** "26-07": unique in the book. */
  readonly number: string;
  readonly title: string;
  /** ISO dates: of issue, and the last day on which it holds. */
  readonly date: string;
  readonly expires: string;
  readonly issuedBy?: string;
  /** Over options only: the aircraft that it is for. At most one of the two; with neither it is for all. */
  readonly for?: Expression;
  /** The document whose changes make aircraft affected. */
  readonly changedBy?: string;
  /** Ids of the definitions whose pages lead to it. */
  readonly about: readonly string[];
  readonly source: SourceFile;
  readonly claims: readonly Claim[];
  readonly quotes: readonly Quote[];
  readonly place: Place;
}

/** What a part of a sheet is about. */
export type SheetTopic =
  | {
      readonly kind: 'panel';
      readonly panel: string;
      readonly show: 'tables' | 'positions';
      readonly abnormal: boolean;
    }
  /** `panel`: what stands on it alone. */
  | { readonly kind: 'stages'; readonly procedure: string; readonly panel?: string }
  | { readonly kind: 'legends' }
  | { readonly kind: 'messages'; readonly classes: readonly MessageClass[] }
  /** Serials. Without `of` the aircraft that the reader chooses. */
  | { readonly kind: 'differences'; readonly from: string; readonly of?: string }
  | { readonly kind: 'device'; readonly device: string }
  /** With a stage of a procedure, what each lamp does in it. */
  | { readonly kind: 'walk-round'; readonly procedure?: string; readonly stage?: string }
  | { readonly kind: 'fleet' };

/** A sheet of paper, or several, that a reader prints. */
export interface Sheet extends Defined {
  readonly size: PaperSize;
  readonly orientation: 'portrait' | 'landscape';
  /** Two pages on each sheet. */
  readonly twoUp: boolean;
  /** Of paper: the fewest on which all of it fits are taken. */
  readonly sheets: Limits;
  /** Points. */
  readonly type: Limits;
  readonly columns: Limits;
  readonly topics: readonly SheetTopic[];
}
/** Both ends are permitted. */
export interface Limits {
  readonly from: number;
  readonly to: number;
}

/** What a practice sheet asks: the state, the position, the message that follows, what is left after a loss, what differs. */
export const PRACTICE_KINDS = ['state', 'position', 'message', 'loss', 'difference'] as const;
export type PracticeKind = (typeof PRACTICE_KINDS)[number];

/** Sheets of questions that are drawn from what has been computed. */
export interface PracticeSet extends Defined {
  /** Of the first sheet; each further one has the next. From 0 to 2^32 - 1. */
  readonly seed: number;
  readonly sheets: number;
  /** On each sheet. */
  readonly questions: number;
  readonly kinds: readonly PracticeKind[];
  /** Over options only: the aircraft that are asked about; absent: all. */
  readonly for?: Expression;
  /** The panels whose lights and messages are asked about. */
  readonly panels: readonly string[];
}

export interface Fleet {
  readonly book: BookInfo;
  readonly options: readonly Option[];
  readonly constraints: readonly Constraint[];
  /** In service on the book's date. */
  readonly aircraft: readonly Aircraft[];
  readonly conditions: readonly Condition[];
  readonly detectors: readonly Detector[];
  readonly detectorOrders: readonly DetectorOrder[];
  readonly never: readonly Never[];
  readonly signals: readonly Signal[];
  readonly panels: readonly Panel[];
  readonly places: readonly PanelPlace[];
  readonly controls: readonly Control[];
  /** Supplies, then lights, signs, annunciators and messages. */
  readonly items: readonly Item[];
  readonly overrides: readonly Override[];
  readonly sounds: readonly Sound[];
  /** Sequences and latches as they stand on the panels, each message's latch with its message. */
  readonly sequences: readonly Sequence[];
  readonly timelines: readonly Timeline[];
  readonly procedures: readonly Procedure[];
  readonly sources: readonly Source[];
  readonly queries: readonly Query[];
  readonly glossary: readonly Term[];
  readonly claims: readonly Claim[];
  readonly notes: readonly Note[];
  readonly tours: readonly Tour[];
  /** In the order of their numbers. */
  readonly notices: readonly Notice[];
  readonly sheets: readonly Sheet[];
  readonly practice: readonly PracticeSet[];
  /** What earlier revisions of the book were, as `switchleaf release` wrote them; not read yet. */
  readonly releases: readonly SourceFile[];
}
