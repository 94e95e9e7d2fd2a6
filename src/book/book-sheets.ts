/** What printed sheets show: blocks of rows that a browser lays out on pages of a stated size. See `book.ts`. */
import type { Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';

/** A run of words in a cell, with the state that it is about where there is one. */
export interface SheetLine {
  readonly state?: StateView;
  readonly words: readonly Inline[];
}
export interface SheetCell {
  readonly lines: readonly SheetLine[];
  /** Left out on a worksheet, to be filled in. */
  readonly answer: boolean;
  /** Says the same as the cell above, or does not matter in its row. */
  readonly quiet: boolean;
  /** How many columns it takes. */
  readonly span: number;
  /** Its row holds with these lamps working, or with them failed: the anchors of their tables. */
  readonly lamps?: { readonly state: 'serviceable' | 'failed'; readonly anchors: readonly string[] };
}
export interface SheetRow {
  readonly cells: readonly SheetCell[];
  /** Starts a group of rows. */
  readonly first: boolean;
  /** The lamp that it is about, by the anchor of its tables. */
  readonly lamp?: string;
  /** The aircraft that it is for, where it is not for all of its block. */
  readonly effectivity?: Effectivity;
}
/** A table under its heading, the same on some aircraft. */
export interface SheetBlock {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly title: string;
  /** Where the book tells the whole of it. */
  readonly to?: Listed;
  /** "Normal cases". */
  readonly note?: string;
  /** The lamps that it is about, by the anchors of their tables; absent where it is about lights as such or other things. */
  readonly lamps?: readonly string[];
  readonly effectivity: Effectivity;
  /** Titles of the columns; none where the rows explain themselves. */
  readonly columns: readonly (readonly Inline[])[];
  readonly rows: readonly SheetRow[];
}

/** Something that a sheet can be about. */
export interface SheetTopicView {
  /** Unique in the book: "panel-exterior-lights". */
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly SheetBlock[];
}

export interface SheetLimits {
  readonly from: number;
  readonly to: number;
}
export interface SheetPaper {
  readonly size: 'A4' | 'A5' | 'Letter';
  readonly orientation: 'portrait' | 'landscape';
  readonly twoUp: boolean;
  /** How many sheets of paper are filled: the fewest on which all of it fits. */
  readonly sheets: SheetLimits;
  /** In points. */
  readonly type: SheetLimits;
  readonly columns: SheetLimits;
}

/** One sheet as the author defined it. */
export interface SheetPage extends PageBase {
  readonly kind: 'sheet';
  readonly about?: string;
  readonly paper: SheetPaper;
  readonly topics: readonly SheetTopicView[];
  /** The aircraft that it shows until a reader chooses one: serial. */
  readonly shown: string;
  /** Where it can be read again, for the code in its corner. */
  readonly online?: string;
}
/** The sheet that a reader puts together. */
export interface OwnSheetPage extends PageBase {
  readonly kind: 'own-sheet';
  readonly paper: SheetPaper;
  /** What it can be about, in groups. */
  readonly choice: readonly { readonly title: string; readonly topics: readonly Omit<SheetTopicView, 'blocks'>[] }[];
  readonly shown: string;
  readonly online?: string;
}
export interface SheetsPage extends PageBase {
  readonly kind: 'sheets';
  /** `detail` says size and number. */
  readonly sheets: readonly (Listed & { readonly about?: string })[];
  readonly own: Listed;
}
