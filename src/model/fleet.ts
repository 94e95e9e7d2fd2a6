/**
 * The Fleet: everything that an author defines, typed and checked, each value with its place.
 * It is the only thing that compile/ and book/ know of the content files. Order is the author's order throughout.
 */
import type { Place, SourceFile } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';

/** A citation: a document of sources.yaml and, where given, a paragraph in it. */
export interface Citation {
  readonly document: string;
  readonly paragraph?: string;
  readonly place: Place;
}

/** What every definition has. `title` is for headings and table columns, `about` is one plain paragraph. */
export interface Defined {
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  readonly source?: Citation;
  /** Where the id stands. */
  readonly place: Place;
}

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
  readonly paper: 'A4' | 'A5' | 'Letter';
  /** BCP 47, for the html lang attribute. */
  readonly language: string;
  readonly place: Place;
}

export interface OptionValue {
  readonly id: string;
  readonly title: string;
  readonly place: Place;
}
export interface Option extends Defined {
  readonly values: readonly OptionValue[];
}

/** One airframe. `fit` maps every option id to a value id, as of the book's date. */
export interface Aircraft {
  readonly serial: string;
  readonly registration: string;
  readonly fit: ReadonlyMap<string, string>;
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

/** What never happens together: the expression is false in every case. It reads variables only. */
export interface Never {
  readonly expression: Expression;
  readonly source?: Citation;
  readonly place: Place;
}

export interface Signal extends Defined {
  readonly expression: Expression;
}

export interface Position {
  readonly id: string;
  /** What stands on the panel. */
  readonly legend: string;
  /** Over options only; absent means on every fit that has the control. */
  readonly fitted?: Expression;
  /** The author's words in place of the generated sentence, and the claim that they carry. */
  readonly place: Place;
}

export interface Control extends Defined {
  readonly panel: string;
  /** What it is: "toggle switch", "push-button". */
  readonly form: string;
  readonly fitted?: Expression;
  readonly positions: readonly Position[];
}

export type ItemKind = 'light' | 'sign' | 'annunciator' | 'message';
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
  readonly then: string;
  /** Of the whole rule; diagnostics about the premise use `when.place`. */
  readonly place: Place;
  readonly source?: Citation;
}

export interface Attribute {
  readonly id: string;
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
  readonly fitted?: Expression;
  /** For sentences: "the logo lights" and whether it takes a plural verb. */
  readonly noun: string;
  readonly plural: boolean;
  /** Lights: the colour seen. Annunciators: the colour of the legend. */
  readonly colour?: string;
  /** Annunciators: the legend. Messages: the text. */
  readonly legend?: string;
  readonly messageClass?: MessageClass;
  /** Conditions that feed it, for the "supply" line; they must be among what its rules read. */
  readonly supply: readonly string[];
  readonly attributes: readonly Attribute[];
}

export interface Panel extends Defined {
  readonly controls: readonly string[];
  readonly items: readonly string[];
}

export interface Source {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  readonly date?: string;
  readonly place: Place;
}

/** A statement that must hold in every case on every fit. */
export interface Claim {
  readonly expression: Expression;
  /** The author's sentence, plain text. */
  readonly sentence: string;
  /** Of the expression. */
  readonly place: Place;
}

/** A note: Markdown parsed into an mdast tree with its references and computed blocks checked. */
export interface Note {
  readonly id: string;
  readonly title: string;
  /** Ids of the definitions whose pages show it. */
  readonly about: readonly string[];
  readonly source: SourceFile;
  readonly body: import('mdast').Root;
  readonly claims: readonly Claim[];
  readonly place: Place;
}

export interface Fleet {
  readonly book: BookInfo;
  readonly options: readonly Option[];
  readonly aircraft: readonly Aircraft[];
  readonly conditions: readonly Condition[];
  readonly never: readonly Never[];
  readonly signals: readonly Signal[];
  readonly panels: readonly Panel[];
  readonly controls: readonly Control[];
  /** Lights, signs, annunciators and messages. */
  readonly items: readonly Item[];
  readonly sources: readonly Source[];
  readonly claims: readonly Claim[];
  readonly notes: readonly Note[];
}
