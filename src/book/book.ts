/**
 * What the pages show, as plain data. Astro components draw it and decide nothing: every word, link, row and edge on a
 * page stands here, so that tests can hold the page to it and it to the logic.
 */
import type { Glyph, ItemKind, MessageClass, Note } from '../model/index.ts';
import type { ChangesPage, ToldChanges } from './book-changes.ts';
import type { ComparePage, DifferencesPage, PanelDifferences, SoleOption } from './book-differences.ts';
import type { ExplorerPage } from './book-explorer.ts';
import type { AircraftFigureView, SchematicView } from './book-figures.ts';
import type { NoticeListed, NoticePage, NoticesPage, QuoteView } from './book-notices.ts';
import type { PracticePage, PracticeSetPage } from './book-practice.ts';
import type { ProcedurePage, ProceduresPage, UseView } from './book-procedures.ts';
import type { ReferencePage } from './book-reference.ts';
import type { SeenData, SeenPage } from './book-seen.ts';
import type { OwnSheetPage, SheetPage, SheetsPage, SheetTopicView } from './book-sheets.ts';
import type { SuppliesPage, SupplyPage } from './book-supplies.ts';
import type { SequencePage, SequencesPage, SoundPage } from './book-time.ts';
import type { TourPage, ToursPage } from './book-tours.ts';
import type { PackedComparison } from './comparison/packed-comparison.ts';
import type { PackedExplorer } from './explorer/packed-explorer.ts';
import type { SearchEntry } from './search.ts';

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
  /** Of what is lit: red, amber, green or blue, where all of the item has that colour. */
  readonly colour?: string;
  /** Where the words lead: to the query that asks what is not stated. */
  readonly link?: { readonly to: Address; readonly anchor: string };
}

/** One aircraft that something holds for. ISO dates, both days included, where it does so for a part of the time. */
export interface EffectiveAircraft {
  readonly registration: string;
  readonly to: Address;
  readonly from?: string;
  readonly until?: string;
  /** The time in words: "from 2026-12-01". */
  readonly detail?: string;
}

/** Which aircraft something holds for, in the fleet's order; `text` says them in words. */
export interface Effectivity {
  /** Every aircraft, for good. */
  readonly whole: boolean;
  readonly aircraft: readonly EffectiveAircraft[];
  /** "the whole fleet", "QQ-OAA to QQ-OAD, 4 aircraft; QQ-OAF from 2026-12-01". Without a full stop. */
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
  /** Unique in its table, made of the ids of its values: what its anchor ends in. */
  readonly key: string;
  readonly cells: readonly Cell[];
  readonly result: StateView;
  /** Starts a new group: its first cell differs from the row above. */
  readonly first: boolean;
  /** It says something else than the last revision. */
  readonly changed?: true;
}
export interface TableView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly {
    readonly title: readonly Inline[];
    readonly note?: string;
    /** Whether this lamp works: the anchor of its tables. */
    readonly lamp?: string;
  }[];
  /** The lamps that work in all of its cases. */
  readonly working?: readonly string[];
  readonly resultTitle: string;
  readonly rows: readonly Row[];
  /** Where some rows have changed since the last revision. */
  readonly changed?: ToldChanges;
}

/** A decision: the question asked (a column's title). An end: the state reached, or the part in which the flow goes on. */
export interface FlowVertex {
  readonly id: string;
  readonly kind: 'question' | 'state' | 'part';
  readonly text: string;
  /** States only. */
  readonly glyph?: StateView['glyph'];
  readonly colour?: string;
}
export interface FlowEdge {
  readonly from: string;
  readonly to: string;
  readonly label: string;
}
/** One drawing: a tree from its first vertex, a question, to ends; each end is drawn for itself. */
export interface FlowPart {
  readonly id: string;
  /** What the drawing shows, for its text alternative: "Logo lights, normal cases", "Part A: Landing gear". */
  readonly title: string;
  /** The answers that lead here, where only one way does: "Belt selector AUTO, Main gear struts extended". */
  readonly after?: string;
  readonly vertices: readonly FlowVertex[];
  readonly edges: readonly FlowEdge[];
  /** The same as Mermaid flowchart text. */
  readonly mermaid: string;
}
/** A flow in as many parts as it takes to be legible, in reading order; ends of kind `part` name a later one by its text. */
export interface FlowView {
  readonly id: string;
  readonly title: string;
  readonly parts: readonly FlowPart[];
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

/** The sentences of each position, by group of aircraft on which all sentences of the control read the same. */
export interface PositionSentence {
  readonly legend: string;
  readonly position: string;
  /** What it lights and puts out, then what it asks nothing of. */
  readonly says: readonly (readonly Inline[])[];
}
export interface SentenceGroup {
  readonly effectivity: Effectivity;
  readonly positions: readonly PositionSentence[];
}

/** When an item is what, a sentence for each thing that can be seen of it. */
export interface StateSentences {
  readonly effectivity: Effectivity;
  readonly sentences: readonly (readonly Inline[])[];
}

export interface Listed {
  readonly to: Address;
  readonly title: string;
  /** Where on the page it stands, if not at its head. */
  readonly anchor?: string;
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
  /** What of it has changed since the last revision. */
  readonly changed?: ToldChanges;
  /** Current crew notices that mention what it is about. */
  readonly notices?: readonly NoticeListed[];
}
export interface DefinedPage extends PageBase {
  readonly id: string;
  readonly about?: string;
  readonly citations: readonly CitationView[];
  readonly notes: readonly Note[];
}

export interface HomePage extends PageBase {
  readonly kind: 'home';
  /** What has changed since the last revision; absent where there is none. */
  readonly changes?: Listed;
  /** The pages that answer one kind of question; `detail` says which. What a reader in a hurry looks up comes first. */
  readonly lookUp: readonly Listed[];
  readonly panels: readonly {
    readonly panel: Listed;
    readonly controls: readonly Listed[];
    /** "12 lights, signs and annunciators"; empty where there are none. */
    readonly seen: string;
  }[];
  readonly aircraft: readonly (Listed & { readonly baseline: boolean })[];
  /** Training devices, named apart from the aircraft. */
  readonly devices: readonly Listed[];
}
/** A hole in a panel, and what is fitted in it by aircraft. */
export interface PlaceView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  /** Without a control: nothing is fitted there. */
  readonly fitted: readonly { readonly control?: Listed; readonly effectivity: Effectivity }[];
}
export interface PanelPage extends DefinedPage {
  readonly kind: 'panel';
  /** The panel drawn; absent where it has no controls and no annunciators. */
  readonly schematic?: SchematicView;
  readonly places: readonly PlaceView[];
  readonly controls: readonly Listed[];
  readonly items: readonly Listed[];
  /** Where its lights are on the aircraft. */
  readonly where?: AircraftFigureView;
  readonly supplies: readonly Listed[];
  readonly sequences: readonly Listed[];
  readonly sounds: readonly Listed[];
  readonly tours: readonly Listed[];
}
/** How to recognise which control is fitted: what one group of aircraft has in this place. */
export interface RecognitionCue {
  /** "Three positions: OFF, AUTO, ON", or "Not fitted". */
  readonly text: readonly Inline[];
  readonly effectivity: Effectivity;
  /** The option values that go with it. */
  readonly because: readonly Inline[];
  /** What is fitted in the same place there, where this control is not. */
  readonly instead: readonly Inline[];
}
/** What the positions of a control do to a sequence, on some aircraft. */
export interface ControlledSequence {
  readonly sequence: Listed;
  /** "the APU". */
  readonly noun: string;
  readonly effectivity: Effectivity;
  /** Positions that do nothing to it have no sentences. */
  readonly positions: readonly { readonly legend: string; readonly sentences: readonly (readonly Inline[])[] }[];
}
export interface ControlPage extends DefinedPage {
  readonly kind: 'control';
  readonly form: string;
  /** Where a reader moves it. */
  readonly tryIt: Listed;
  readonly panel: Listed;
  /** Sentences on the control as such: guarded, its place, what it counts as. */
  readonly facts: readonly (readonly Inline[])[];
  readonly cues: readonly RecognitionCue[];
  readonly sentences: readonly SentenceGroup[];
  readonly sequences: readonly ControlledSequence[];
  readonly attributes: readonly AttributeView[];
  readonly messages: readonly Listed[];
  readonly supply: readonly Listed[];
  /** What its items depend on beside the control itself. */
  readonly reads: readonly Listed[];
  /** Items of other controls whose rules read this one. */
  readonly readBy: readonly Listed[];
  /** Where procedures want it. */
  readonly use: readonly UseView[];
}
/** One lamp of a light. */
export interface LampView {
  /** Its tables: an anchor on the page. */
  readonly anchor: string;
  readonly title: string;
  readonly at?: string;
  readonly side?: string;
  readonly colour?: string;
  readonly supply: readonly Listed[];
}
/** A rule of wider scope that stands above an item's own rules. */
export interface OverrideView {
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  /** "Lit with the lamp check at PRESSED." */
  readonly sentence: readonly Inline[];
  readonly citations: readonly CitationView[];
  /** The open query about rules marked as holding in every case that it breaks. */
  readonly query?: readonly Inline[];
}
/** How an item comes to be in one of its states. */
export interface WayView {
  readonly state: StateView;
  /** A plain case in which it is so. */
  readonly example: readonly Inline[];
  /** The fewest of its facts that are enough in every case; empty where all are needed. */
  readonly reasons: readonly Inline[];
  /** How the start of the steps differs from the plainest case; empty where it does not. Absent: no steps were sought. */
  readonly start?: readonly Inline[];
  /** The fewest movements; none where it is so from the start. Absent: none lead there, or none were found. */
  readonly steps?: readonly (readonly Inline[])[];
}
export interface WaysView {
  readonly id: string;
  readonly title: string;
  readonly groups: readonly {
    readonly id: string;
    readonly effectivity: Effectivity;
    readonly ways: readonly WayView[];
  }[];
}
export interface ItemPage extends DefinedPage {
  readonly kind: 'item';
  readonly itemKind: ItemKind;
  readonly zone?: string;
  /** Legends by aircraft, where they differ. */
  readonly legends: readonly { readonly legend: string; readonly effectivity: Effectivity }[];
  readonly lamps: readonly LampView[];
  /** "The left and tail lamps behave alike, apart from failures of their own." */
  readonly lampsAlike: readonly string[];
  /** Where its lamps are on the aircraft. */
  readonly where?: AircraftFigureView;
  /** The strongest first. */
  readonly overrides: readonly OverrideView[];
  /** Sentences on what holds whatever overrides say. */
  readonly inEveryCase: readonly (readonly Inline[])[];
  /** Sentences on how a message is held back, latched and suppressed. */
  readonly held: readonly (readonly Inline[])[];
  /** Open questions on it. */
  readonly queries: readonly (readonly Inline[])[];
  readonly panel: Listed;
  readonly controls: readonly Listed[];
  readonly colour?: string;
  readonly legend?: string;
  readonly messageClass?: MessageClass;
  readonly attributes: readonly AttributeView[];
  readonly supply: readonly Listed[];
  readonly reads: readonly Listed[];
  readonly readBy: readonly Listed[];
  readonly ways: readonly WaysView[];
  /** The stages of procedures in which it is lit. */
  readonly use: readonly UseView[];
}
export interface DetectorView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  readonly about?: string;
  /** "Trips above 10,000 ft, with a tolerance of 300 ft: certainly not at 9,700 ft or below, ..." */
  readonly trips: string;
  /** How sentences say that it is tripped, and that it is not. */
  readonly says: readonly [string, string];
  readonly readBy: readonly Listed[];
  readonly citations: readonly CitationView[];
}
export interface ConditionPage extends DefinedPage {
  readonly kind: 'condition';
  readonly values: readonly {
    readonly id: string;
    readonly title: string;
    readonly says: string;
    readonly normal: boolean;
  }[];
  /** Numbers: "0 to 400 kt in steps of 1 kt". */
  readonly range?: string;
  /** Detectors on the number. */
  readonly detectors: readonly DetectorView[];
  /** "Whenever the second detector trips, so does the first." */
  readonly order: readonly string[];
  readonly readBy: readonly Listed[];
}
export interface OptionPage extends DefinedPage {
  readonly kind: 'option';
  readonly values: readonly { readonly id: string; readonly title: string; readonly effectivity: Effectivity }[];
  /** What a value asks of the other options: "Automatic requires that ...". */
  readonly constraints: readonly (readonly Inline[])[];
  /** Controls, positions and items that exist or behave by this option. */
  readonly decides: readonly Listed[];
  /** Absent where nobody knows the value of the baseline. */
  readonly otherwise?: SoleOption;
}
/** One known change of an aircraft after the book's date. */
export interface ChangeView {
  readonly date: string;
  /** "Logo light control" as a link, or "Registration". */
  readonly what: readonly Inline[];
  readonly before: string;
  readonly after: string;
  /** The document that orders it. */
  readonly document?: readonly Inline[];
}
/** What an aircraft will be from a date on, against what it is on the book's date. */
export interface LaterView {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly date: string;
  /** "From 2026-12-01" or "From 2026-12-01 to 2027-01-31". */
  readonly title: string;
  readonly differences: readonly PanelDifferences[];
}
export interface AircraftPage extends PageBase {
  readonly kind: 'aircraft';
  /** A training device, not an aircraft. */
  readonly device: boolean;
  readonly registration: string;
  readonly serial: string;
  readonly baseline: boolean;
  readonly fit: readonly { readonly option: Listed; readonly value: string; readonly asBaseline: boolean }[];
  /** Other aircraft with the very same values. */
  readonly sameFit: Effectivity;
  /** Where it is compared with any other; absent where there is none. */
  readonly compare?: Listed;
  /** Where its controls are moved; absent where the book has none. */
  readonly explorer?: Listed;
  /** Each item, and where the tables of its fit group stand. */
  readonly items: readonly (Listed & {
    readonly anchor: string;
    readonly state?: StateView;
    /** The lamp that the tables are of, by the anchor of all its tables. */
    readonly lamp?: string;
  })[];
  /** From the baseline, by panel. */
  readonly differences: readonly PanelDifferences[];
  /** Known changes after the book's date, in order. */
  readonly changes: readonly ChangeView[];
  /** The book's date: what later fits are compared with. */
  readonly asOf: string;
  readonly later: readonly LaterView[];
}
/** A question to the owner of a document. */
export interface QueryView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** "Q-3". */
  readonly name: string;
  readonly title: string;
  readonly question: string;
  readonly askedOf: string;
  readonly asked: string;
  readonly about?: string;
  readonly citations: readonly CitationView[];
  readonly answered?: { readonly date: string; readonly answer: string; readonly citations: readonly CitationView[] };
  /** What is not stated until it is answered: a link and what about it. */
  readonly usedBy: readonly (readonly Inline[])[];
}
export interface QueriesPage extends PageBase {
  readonly kind: 'queries';
  readonly open: readonly QueryView[];
  readonly answered: readonly QueryView[];
}
export interface AboutPage extends PageBase {
  readonly kind: 'about';
  /** Lights are drawn in their colours, so that it must be said how true these are. */
  readonly colours?: { readonly id: string };
  /** Definitions whose citation names another revision than the document has now. */
  readonly toReview: readonly (readonly Inline[])[];
  readonly sources: readonly {
    /** Anchor, unique on its page. */
    readonly id: string;
    readonly title: string;
    readonly revision: string;
    readonly date?: string;
    readonly citedBy: readonly Listed[];
  }[];
  readonly notes: readonly Note[];
}

/** At an address that a page had when its id was another one. In no list, and not searched for. */
export interface MovedPage extends PageBase {
  readonly kind: 'moved';
  /** The page that it leads to. */
  readonly to: Listed;
  /** The former id and the present one, for anchors that were made of it. */
  readonly former: string;
  readonly present: string;
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
  | ComparePage
  | ChangesPage
  | ExplorerPage
  | SuppliesPage
  | SupplyPage
  | SequencesPage
  | SequencePage
  | SoundPage
  | ReferencePage
  | ToursPage
  | TourPage
  | NoticesPage
  | NoticePage
  | SheetsPage
  | SheetPage
  | OwnSheetPage
  | PracticePage
  | PracticeSetPage
  | ProceduresPage
  | ProcedurePage
  | QueriesPage
  | AboutPage
  | MovedPage
  | SeenPage;

/** An aircraft or a training device in lists to choose from. */
export interface FleetEntry {
  readonly serial: string;
  readonly registration: string;
  readonly device: boolean;
  /** Its registrations after the book's date, in order. */
  readonly later?: readonly (readonly [from: string, registration: string])[];
}

/** The same on every page. */
export interface Frame {
  readonly operator: string;
  readonly type: string;
  readonly title: string;
  readonly revision: string;
  readonly date: string;
  readonly language: string;
  readonly paper: string;
  /** Where the book can be read, with a slash at its end, and where remarks of readers are mailed to. */
  readonly address?: string;
  readonly remarks?: string;
  readonly cautions: readonly string[];
  /** Whom a reader may fly or train on, in the fleet's order. */
  readonly fleet: readonly FleetEntry[];
  /** Where any two of them are compared; absent where there are no two. */
  readonly compare?: Address;
  /** The contents list beside the page, by panel. */
  readonly contents: readonly { readonly title: string; readonly to: Address; readonly entries: readonly Listed[] }[];
}

export interface Book {
  readonly frame: Frame;
  readonly pages: readonly Page[];
  /** For references in notes: the page of an id, with its title. */
  readonly index: ReadonlyMap<string, Listed>;
  /** Anchors from before an id was changed, by "page#anchor" of what stands there now. */
  readonly formerAnchors: ReadonlyMap<string, readonly string[]>;
  /** What the page "from what I see" combines. */
  readonly seen: SeenData;
  /** What comparing any two aircraft in a browser needs, and the words of the explorer; undefined where there is neither. */
  readonly comparison: PackedComparison | undefined;
  /** What following cases in a browser needs beside that; undefined where there is nothing to move. */
  readonly explorer: PackedExplorer | undefined;
  /** What a reader can search for. */
  readonly search: readonly SearchEntry[];
  /** What sheets can be about, by id: a reader's own brings them in. */
  readonly topics: ReadonlyMap<string, SheetTopicView>;
  /** For computed tables in notes: the views of an item, by item id. */
  readonly tables: ReadonlyMap<string, readonly AttributeView[]>;
  /** For what else the author's texts ask for, by the key that the model gives it. */
  readonly quotes: ReadonlyMap<string, QuoteView>;
}
