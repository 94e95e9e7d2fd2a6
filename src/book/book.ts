/**
 * What the pages show, as plain data. Astro components draw it and decide nothing: every word, link, row and edge on a
 * page stands here, so that tests can hold the page to it and it to the logic.
 */
import type { Glyph, ItemKind, MessageClass, Note } from '../model/index.ts';

/** The address of a page, relative to the book's root, e.g. `controls/logo.html`. */
export type Address = string;

/** A run of text on a page. */
export type Inline =
  | { readonly kind: 'text'; readonly text: string }
  /** What stands on the panel or on a screen, drawn in a thin frame. */
  | { readonly kind: 'legend'; readonly text: string }
  | { readonly kind: 'link'; readonly to: Address; readonly anchor?: string; readonly text: string };

/** Words that name a state, with the glyph that stands before them. */
export interface StateView {
  readonly glyph: Glyph | 'not-fitted' | 'impossible' | 'either' | 'depends' | 'not-stated';
  readonly text: string;
}

/** Which aircraft something holds for. `registrations` in the fleet's order; `text` says them in words. */
export interface Effectivity {
  readonly whole: boolean;
  readonly aircraft: readonly { readonly registration: string; readonly to: Address }[];
  /** "the whole fleet", "QQ-OAA to QQ-OAD and QQ-OAF, 5 aircraft". Without a full stop. */
  readonly text: string;
}

export interface Cell {
  readonly text: readonly Inline[];
  /** The column does not matter in this row. */
  readonly any: boolean;
  /** Says the same as the cell above within the same group of rows; drawn quieter, never left out. */
  readonly again: boolean;
}
export interface Row {
  readonly cells: readonly Cell[];
  readonly result: StateView;
  /** Starts a new group: its first cell differs from the row above. */
  readonly first: boolean;
}
export interface TableView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly { readonly title: readonly Inline[]; readonly note?: string }[];
  readonly resultTitle: string;
  readonly rows: readonly Row[];
}

/** A decision: the question asked (a column's title). An end: the state reached. */
export interface FlowVertex {
  readonly id: string;
  readonly kind: 'question' | 'state';
  readonly text: string;
  /** States only. */
  readonly glyph?: StateView['glyph'];
}
export interface FlowEdge {
  readonly from: string;
  readonly to: string;
  readonly label: string;
}
export interface FlowView {
  readonly id: string;
  /** What the diagram shows, for its text alternative: "Logo lights, normal cases". */
  readonly title: string;
  readonly vertices: readonly FlowVertex[];
  readonly edges: readonly FlowEdge[];
  /** The same as Mermaid flowchart text. */
  readonly mermaid: string;
}

/** The tables of one attribute of one item for one fit group. */
export interface GroupView {
  readonly id: string;
  readonly effectivity: Effectivity;
  /** Absent when the item is not fitted on this group. */
  readonly normal?: TableView;
  readonly abnormal?: TableView;
  readonly flow?: FlowView;
  /** Set when there is nothing to tabulate: "Not fitted", or one state in every case ("Lit in every case"). */
  readonly constant?: StateView;
}
export interface AttributeView {
  readonly id: string;
  /** "Logo lights", or "Left landing light: lamp" where the item has several attributes. */
  readonly title: string;
  /** Where the attribute's own page is. */
  readonly to: Address;
  readonly groups: readonly GroupView[];
}

/** One sentence a position, by group of aircraft on which all sentences of the control read the same. */
export interface PositionSentence {
  readonly legend: string;
  readonly position: string;
  readonly sentence: readonly Inline[];
}
export interface SentenceGroup {
  readonly effectivity: Effectivity;
  readonly positions: readonly PositionSentence[];
}

export interface Listed {
  readonly to: Address;
  readonly title: string;
  /** A few words after the title: "toggle switch", "white". */
  readonly detail?: string;
}
export interface CitationView {
  readonly text: string;
}
export interface PageBase {
  readonly address: Address;
  readonly title: string;
  /** Where it stands, from the home page down, without the page itself. */
  readonly trail: readonly Listed[];
}
export interface DefinedPage extends PageBase {
  readonly id: string;
  readonly about?: string;
  readonly citations: readonly CitationView[];
  readonly notes: readonly Note[];
}

export interface HomePage extends PageBase {
  readonly kind: 'home';
  readonly panels: readonly {
    readonly panel: Listed;
    readonly controls: readonly Listed[];
    readonly items: readonly Listed[];
  }[];
  readonly messages: readonly Listed[];
  readonly aircraft: readonly (Listed & { readonly baseline: boolean })[];
  readonly conditions: readonly Listed[];
  readonly options: readonly Listed[];
}
export interface PanelPage extends DefinedPage {
  readonly kind: 'panel';
  readonly controls: readonly (Listed & { readonly positions: readonly string[]; readonly effectivity: Effectivity })[];
  readonly items: readonly Listed[];
}
/** How to recognise which control is fitted: what one group of aircraft has in this place. */
export interface RecognitionCue {
  /** "Three positions: OFF, AUTO, ON", or "Not fitted". */
  readonly text: readonly Inline[];
  readonly effectivity: Effectivity;
  /** The option values that go with it. */
  readonly because: readonly Inline[];
}
export interface ControlPage extends DefinedPage {
  readonly kind: 'control';
  readonly form: string;
  readonly panel: Listed;
  readonly cues: readonly RecognitionCue[];
  readonly sentences: readonly SentenceGroup[];
  readonly attributes: readonly AttributeView[];
  readonly messages: readonly Listed[];
  readonly supply: readonly Listed[];
  /** What its items depend on beside the control itself. */
  readonly reads: readonly Listed[];
  /** Items of other controls whose rules read this one. */
  readonly readBy: readonly Listed[];
}
export interface ItemPage extends DefinedPage {
  readonly kind: 'item';
  readonly itemKind: ItemKind;
  readonly panel: Listed;
  readonly controls: readonly Listed[];
  readonly colour?: string;
  readonly legend?: string;
  readonly messageClass?: MessageClass;
  readonly attributes: readonly AttributeView[];
  readonly supply: readonly Listed[];
  readonly reads: readonly Listed[];
  readonly readBy: readonly Listed[];
}
export interface ConditionPage extends DefinedPage {
  readonly kind: 'condition';
  readonly values: readonly { readonly title: string; readonly says: string; readonly normal: boolean }[];
  /** Numbers: "0 to 400 kt in steps of 1 kt". */
  readonly range?: string;
  readonly readBy: readonly Listed[];
}
export interface OptionPage extends DefinedPage {
  readonly kind: 'option';
  readonly values: readonly { readonly title: string; readonly effectivity: Effectivity }[];
  /** Controls, positions and items that exist or behave by this option. */
  readonly decides: readonly Listed[];
}
/** What one comparison of two fits says of one attribute of one item. */
export interface DifferenceView {
  readonly item: Listed;
  /** 'differs' | 'not fitted on A' …, in words. */
  readonly verdict: string;
  readonly example: readonly Inline[];
  /** Columns as in a state table, with two results. */
  readonly table?: {
    readonly id: string;
    readonly columns: TableView['columns'];
    readonly resultTitles: readonly [string, string];
    readonly rows: readonly {
      readonly cells: readonly Cell[];
      readonly results: readonly [StateView, StateView];
      readonly first: boolean;
    }[];
  };
}
export interface AircraftPage extends PageBase {
  readonly kind: 'aircraft';
  readonly registration: string;
  readonly serial: string;
  readonly baseline: boolean;
  readonly fit: readonly { readonly option: Listed; readonly value: string; readonly asBaseline: boolean }[];
  /** Other aircraft with the very same values. */
  readonly sameFit: Effectivity;
  /** Each item, and where the tables of its fit group stand. */
  readonly items: readonly (Listed & { readonly anchor: string; readonly state?: StateView })[];
  /** Positions of controls that differ from the baseline's, in words. */
  readonly controlDifferences: readonly {
    readonly control: Listed;
    readonly here: readonly Inline[];
    readonly baseline: readonly Inline[];
  }[];
  readonly differences: readonly DifferenceView[];
}
/** Every fit of the fleet against the baseline's. */
export interface DifferencesPage extends PageBase {
  readonly kind: 'differences';
  readonly baseline: Listed;
  readonly fits: readonly {
    readonly id: string;
    readonly effectivity: Effectivity;
    readonly options: readonly { readonly option: Listed; readonly here: string; readonly baseline: string }[];
    readonly controlDifferences: AircraftPage['controlDifferences'];
    readonly differences: readonly DifferenceView[];
  }[];
}
export interface AboutPage extends PageBase {
  readonly kind: 'about';
  readonly sources: readonly {
    readonly id: string;
    readonly title: string;
    readonly revision: string;
    readonly date?: string;
    readonly citedBy: readonly Listed[];
  }[];
  readonly notes: readonly Note[];
}

export type Page =
  | HomePage
  | PanelPage
  | ControlPage
  | ItemPage
  | ConditionPage
  | OptionPage
  | AircraftPage
  | DifferencesPage
  | AboutPage;

/** The same on every page. */
export interface Frame {
  readonly operator: string;
  readonly type: string;
  readonly title: string;
  readonly revision: string;
  readonly date: string;
  readonly language: string;
  readonly paper: string;
  readonly cautions: readonly string[];
  /** The contents list beside the page, by panel. */
  readonly contents: readonly { readonly title: string; readonly to: Address; readonly entries: readonly Listed[] }[];
}

export interface Book {
  readonly frame: Frame;
  readonly pages: readonly Page[];
  /** For references in notes: the page of an id, with its title. */
  readonly index: ReadonlyMap<string, Listed>;
  /** For computed tables in notes: the views of an item, by item id. */
  readonly tables: ReadonlyMap<string, readonly AttributeView[]>;
}
