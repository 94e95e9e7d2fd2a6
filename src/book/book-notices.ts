/** What the pages of crew notices show, and what the author's texts ask the book to put in. See `book.ts`. */
import type { Notice } from '../model/index.ts';
import type { Effectivity, Inline, Listed, PageBase } from './book.ts';
import type { PanelDifferences } from './book-differences.ts';

/** A notice as a list or a page that it concerns names it. */
export interface NoticeListed extends Listed {
  /** "26-07". */
  readonly number: string;
  /** ISO dates; it holds on both. */
  readonly date: string;
  readonly expires: string;
  /** Its last day lies before the book's date. */
  readonly expired: boolean;
}

export interface NoticesPage extends PageBase {
  readonly kind: 'notices';
  /** The book's date. */
  readonly asOf: string;
  /** The latest first. */
  readonly current: readonly NoticeListed[];
  readonly expired: readonly NoticeListed[];
}

export interface NoticePage extends PageBase {
  readonly kind: 'notice';
  readonly notice: NoticeListed;
  readonly asOf: string;
  readonly issuedBy?: string;
  readonly effectivity: Effectivity;
  /** Why these aircraft: "changed by Engineering order 57, revision 1". */
  readonly because: readonly Inline[];
  readonly text: Notice;
  /** The pages that it concerns. */
  readonly about: readonly Listed[];
}

/** One change of an aircraft that a document orders. */
export interface OrderedChange {
  readonly aircraft: Listed;
  /** "No-smoking sign control: Permanent". */
  readonly what: readonly Inline[];
  readonly date: string;
  /** On the book's date. */
  readonly made: boolean;
}

/** What an author's text asks for beside tables, by the key that the model gives it. */
export type QuoteView =
  | {
      readonly kind: 'difference';
      /** "The no-smoking signs on QQ-OBA, against QQ-OAA": a heading. */
      readonly title: string;
      readonly names: readonly [string, string];
      /** Empty where nothing differs. */
      readonly panels: readonly PanelDifferences[];
    }
  | { readonly kind: 'aircraft'; readonly effectivity: Effectivity }
  | {
      readonly kind: 'changes';
      readonly document: readonly Inline[];
      readonly asOf: string;
      /** In the order of their dates. */
      readonly changes: readonly OrderedChange[];
    };
