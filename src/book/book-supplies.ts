/** What the pages of electrical supplies show, and what is seen when one is lost. See `book.ts`. */
import type { Address, AttributeView, DefinedPage, Effectivity, Inline, Listed, PageBase, StateView } from './book.ts';

/** One feeder, in the order in which they are tried. */
export interface FeederView {
  readonly feeder: Listed;
  /** What must hold beside; empty where nothing must. */
  readonly when: readonly Inline[];
}
export interface SupplyView {
  readonly supply: Listed;
  readonly feeders: readonly FeederView[];
  /** It is lost whatever feeds it when this holds. */
  readonly unless: readonly Inline[];
}
export type LossKind = 'lost' | 'moved' | 'dark' | 'message' | 'other';
/** Things that are seen to differ in the same way on the same aircraft. */
export interface LossRow {
  readonly kind: LossKind;
  readonly items: readonly Listed[];
  /** What they are in the normal cases in which they differ then. */
  readonly normally: readonly StateView[];
  readonly then: StateView;
  /** The normal cases in which they become so; empty: in all of them. */
  readonly when: readonly Inline[];
  readonly effectivity: Effectivity;
}
/** What differs from the normal cases where one thing, or the few that it takes, is not as it normally is. */
export interface LossView {
  readonly id: string;
  /** "AC bus 2 lost". */
  readonly title: string;
  readonly cause: readonly Inline[];
  /** In the order of the kinds, what is always so first. Empty: nothing that this book shows differs. */
  readonly rows: readonly LossRow[];
}
export interface SuppliesPage extends PageBase {
  readonly kind: 'supplies';
  readonly supplies: readonly SupplyView[];
  readonly losses: readonly LossView[];
}
export interface SupplyPage extends DefinedPage {
  readonly kind: 'supply';
  readonly panel: Listed;
  readonly order: SupplyView;
  readonly attributes: readonly AttributeView[];
  /** Supplies, lights and lamps that it feeds. */
  readonly feeds: readonly (Listed & { readonly effectivity: Effectivity })[];
  /** The fewest conditions that take it away, and where the table of what else differs then stands. */
  readonly lostBy: readonly { readonly to: Address; readonly anchor: string; readonly words: readonly Inline[] }[];
  readonly reads: readonly Listed[];
  readonly readBy: readonly Listed[];
}
