/** What the explorer shows: the page itself, and a case that is followed on it, as plain data. See `book.ts`. */
import type { Inline, Listed, PageBase, StateView } from './book.ts';
import type { AircraftList } from './book-differences.ts';

export interface ExplorerPage extends PageBase {
  readonly kind: 'explorer';
  /** As on the book's date, then as from each later day on which an aircraft changes. */
  readonly lists: readonly AircraftList[];
  /** What can be moved; a script puts its positions beside each. */
  readonly panels: readonly { readonly panel: Listed; readonly controls: readonly InputListed[] }[];
  readonly conditions: readonly InputListed[];
}
/** Something that can be moved. `id` is its anchor on the page, made of its own. */
export interface InputListed extends Listed {
  readonly id: string;
}

/** One setting of a control, a condition, a number or a lamp. `step` is what the address gains when it is chosen. */
export interface SettingView {
  readonly step: string;
  readonly words: readonly Inline[];
  readonly chosen: boolean;
  /** The control springs back from there. */
  readonly held: boolean;
  /** It cannot be chosen as things stand. */
  readonly barred: boolean;
}
export interface StepView {
  readonly step: string;
  readonly words: string;
}
export interface InputView {
  /** The anchor on the page: a counterpart stands at its own. */
  readonly id: string;
  readonly title: Listed;
  readonly settings: readonly SettingView[];
  /** Whether it stands otherwise than at the start. */
  readonly moved: boolean;
  /** Why some settings cannot be chosen, and the step that moves what is in their way, where that is one thing. */
  readonly barred: readonly { readonly words: readonly Inline[]; readonly along?: StepView }[];
  /** Where a control is held: what lets it go. */
  readonly letGo?: StepView;
}
/** One thing and what it is: an item, one of its attributes, or some of its lamps. */
export interface ShownView {
  readonly what: Listed;
  readonly state: StateView;
}
export interface ChangedView {
  readonly what: Listed;
  readonly before: StateView;
  readonly after: StateView;
}
/** What goes on by itself when time passes. */
export interface WaitView extends StepView {
  readonly sequence: Listed;
  /** "opening to starting". */
  readonly modes: string;
  /** "after 60 s in the mode". */
  readonly delay: string;
  /** Whether only an answer that is open decides if it is waited for. */
  readonly perhaps: boolean;
}
/** What is open, and the steps that suppose one answer. */
export interface OpenView {
  readonly what: Listed;
  /** Why: a tolerance, or what came of one. */
  readonly words: string;
  readonly answers: readonly StepView[];
}
/** A case, and what the last step changed. */
export interface CaseView {
  /** What the aircraft is called on that day. */
  readonly registration: string;
  readonly notes: readonly string[];
  /** The last step in words; absent at the start. */
  readonly last?: string;
  readonly moved: readonly ChangedView[];
  readonly changed: readonly ChangedView[];
  /** The sounds that the last step sets off. */
  readonly sounds: readonly { readonly what: Listed; readonly words: string; readonly certain: boolean }[];
  /** In one line, for those who hear it. */
  readonly brief: string;
  readonly shows: readonly ShownView[];
  readonly open: readonly OpenView[];
  readonly waits: readonly WaitView[];
  readonly sequences: readonly { readonly what: Listed; readonly mode: string }[];
  readonly panels: readonly { readonly panel: Listed; readonly items: readonly ShownView[] }[];
  readonly inputs: readonly InputView[];
  /** What is set otherwise than at the start: for print, and for those who come to the case by its address. */
  readonly set: readonly { readonly what: Listed; readonly words: readonly Inline[] }[];
}
