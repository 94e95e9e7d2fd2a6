/**
 * Expressions after parsing and checking: every name is resolved, every value is one that the name can have.
 * They are what the model holds and what compile/ turns into diagrams.
 */
import type { Place } from '../diagnostics/index.ts';

/**
 * What a comparison reads. `attribute` is set exactly when `kind` is `item` or `lamp`. A `lamp` is whether one lamp of a
 * light is `serviceable` or `failed`; which of its states it is in is read as an `item`, since a lamp is an attribute.
 */
export interface Reference {
  readonly kind: 'option' | 'condition' | 'control' | 'item' | 'lamp' | 'sequence';
  readonly id: string;
  readonly attribute?: string;
}

export type Comparison = '<' | '<=' | '>' | '>=' | '=';
/** A store passes a level and does not stand at it, so that nothing is asked to equal one. */
export type LevelComparison = Exclude<Comparison, '='>;

/** How many lamps of a light a statement is about: "any lamp of", "all lamps of", "at least 2 lamps of". */
export type Quantifier = 'any' | 'all' | 'at least' | 'at most' | 'exactly';

export type Expression =
  | { readonly op: 'constant'; readonly value: boolean; readonly place: Place }
  | { readonly op: 'and' | 'or'; readonly args: readonly Expression[]; readonly place: Place }
  | { readonly op: 'not'; readonly arg: Expression; readonly place: Place }
  | { readonly op: 'implies'; readonly premise: Expression; readonly conclusion: Expression; readonly place: Place }
  /** The value of `of` is one of `values` (ids in the order written, no duplicates). "is not" is `not` around it. */
  | { readonly op: 'among'; readonly of: Reference; readonly values: readonly string[]; readonly place: Place }
  /** A number condition compared with a number in the condition's own unit. `value` is a decimal as written, e.g. "88.5". */
  | {
      readonly op: 'compare';
      readonly condition: string;
      readonly by: Comparison;
      readonly value: string;
      readonly unit: string;
      readonly place: Place;
    }
  /** The control or item is fitted; with `position`, the control is fitted and has that position on this fit. */
  | { readonly op: 'fitted'; readonly of: Reference; readonly position?: string; readonly place: Place }
  /** A named expression holds. */
  | { readonly op: 'signal'; readonly id: string; readonly place: Place }
  /** A detector trips. */
  | { readonly op: 'detector'; readonly id: string; readonly place: Place }
  /** `quantifier` (with `count`, where it has one) of the statements `args` hold: one `among` for each lamp of `item`. */
  | {
      readonly op: 'lamps';
      readonly quantifier: Quantifier;
      readonly count?: number;
      readonly item: string;
      readonly args: readonly Expression[];
      readonly place: Place;
    }
  /** A store of a sequence compared with a level in its own unit. In the guards of transitions only. */
  | {
      readonly op: 'level';
      readonly store: string;
      readonly by: LevelComparison;
      readonly value: string;
      readonly unit: string;
      readonly place: Place;
    };

/** A time with how far the actual one may lie from it; decimals as written, both in seconds. */
export interface Duration {
  readonly seconds: string;
  readonly tolerance?: string;
  readonly place: Place;
}

/** What a transition waits for: that an expression holds, and where given that it has held that long without a break. */
export interface Guard {
  readonly when: Expression;
  readonly holds?: Duration;
}

/** What the checker needs to know of a name. The model gives one for each id that expressions may read. */
export type Declaration =
  | { readonly kind: 'option'; readonly id: string; readonly values: readonly string[] }
  | { readonly kind: 'condition'; readonly id: string; readonly values: readonly string[] }
  | {
      /** A `store` is read like a number, in guards only. */
      readonly kind: 'number' | 'store';
      readonly id: string;
      readonly unit: string;
      readonly from: string;
      readonly to: string;
      readonly step: string;
    }
  | {
      readonly kind: 'control';
      readonly id: string;
      readonly values: readonly string[];
      /** Words that stand for several positions: "held" for those that spring back. */
      readonly groups?: ReadonlyMap<string, readonly string[]>;
    }
  | {
      readonly kind: 'item';
      readonly id: string;
      /** By attribute id: its states. Lamps are attributes too. */
      readonly attributes: ReadonlyMap<string, readonly string[]>;
      /** The attributes that are lamps. */
      readonly lamps?: readonly string[];
      /** Words that stand for several states of every attribute: "powered" for all feeders of a supply. */
      readonly groups?: ReadonlyMap<string, readonly string[]>;
    }
  | { readonly kind: 'sequence'; readonly id: string; readonly values: readonly string[] }
  | { readonly kind: 'detector'; readonly id: string }
  | { readonly kind: 'signal'; readonly id: string };

export type Scope = ReadonlyMap<string, Declaration>;
