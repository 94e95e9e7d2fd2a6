/**
 * Expressions after parsing and checking: every name is resolved, every value is one that the name can have.
 * They are what the model holds and what compile/ turns into diagrams.
 */
import type { Place } from '../diagnostics/index.ts';

/** What a comparison reads. `attribute` is set exactly when `kind` is `item`. */
export interface Reference {
  readonly kind: 'option' | 'condition' | 'control' | 'item';
  readonly id: string;
  readonly attribute?: string;
}

export type Comparison = '<' | '<=' | '>' | '>=' | '=';

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
  | { readonly op: 'signal'; readonly id: string; readonly place: Place };

/** What the checker needs to know of a name. The model gives one for each id that expressions may read. */
export type Declaration =
  | { readonly kind: 'option'; readonly id: string; readonly values: readonly string[] }
  | { readonly kind: 'condition'; readonly id: string; readonly values: readonly string[] }
  | {
      readonly kind: 'number';
      readonly id: string;
      readonly unit: string;
      readonly from: string;
      readonly to: string;
      readonly step: string;
    }
  | { readonly kind: 'control'; readonly id: string; readonly values: readonly string[] }
  | { readonly kind: 'item'; readonly id: string; readonly attributes: ReadonlyMap<string, readonly string[]> }
  | { readonly kind: 'signal'; readonly id: string };

export type Scope = ReadonlyMap<string, Declaration>;
