/** What the pages of tours show: a walk along a panel, what is computed at each stop beside what the trainer says there. */
import type { Prose } from '../model/index.ts';
import type { Address, ControlPage, Effectivity, ItemPage, Listed, PageBase, StateSentences } from './book.ts';

/** A control at a stop. */
export interface TourControl extends Pick<ControlPage, 'facts' | 'cues' | 'sentences' | 'use'> {
  /** Anchor, unique on its page. */
  readonly id: string;
  readonly control: Listed;
  /** Where the stop is the place that it is fitted in. */
  readonly about?: string;
}

/** A light, sign or annunciator at a stop. */
export interface TourItem extends Pick<ItemPage, 'legend' | 'legends'> {
  /** Which aircraft have it, and when it is what. */
  readonly fitted: Effectivity;
  readonly states: readonly StateSentences[];
  readonly controls: readonly Listed[];
}

export interface TourStopView {
  /** Anchor, unique on its page. */
  readonly id: string;
  /** From 1. */
  readonly number: number;
  readonly title: string;
  /** "toggle switch", "place", "amber annunciator". */
  readonly what: string;
  /** Where the book tells the whole of it. */
  readonly page: { readonly to: Address; readonly anchor?: string };
  readonly about?: string;
  /** One, or for a place each that may be fitted there; none for an item. */
  readonly controls: readonly TourControl[];
  readonly item?: TourItem;
  readonly drives: readonly Listed[];
  readonly messages: readonly Listed[];
  /** The trainer's own. */
  readonly remarks: Prose;
  readonly traps: readonly Prose[];
}

export interface TourPage extends PageBase {
  readonly kind: 'tour';
  readonly panel: Listed;
  /** The aircraft that it is for. */
  readonly effectivity: Effectivity;
  readonly minutes?: string;
  readonly opening: Prose;
  readonly stops: readonly TourStopView[];
  /** Controls, lights, signs and annunciators of the panel that no stop is at and no stop's control drives. */
  readonly missing: readonly Listed[];
}

export interface ToursPage extends PageBase {
  readonly kind: 'tours';
  readonly tours: readonly Listed[];
}
