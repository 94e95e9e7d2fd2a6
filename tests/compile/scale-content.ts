/** What a content of the scale family consists of, before it is written as files. */

export type Formula =
  | { readonly op: 'is'; readonly id: string; readonly values: readonly string[]; readonly guarded: boolean }
  | { readonly op: 'above'; readonly id: string; readonly value: number }
  | { readonly op: 'trips'; readonly id: string }
  | { readonly op: 'state'; readonly item: string; readonly state: string }
  | { readonly op: 'not'; readonly of: Formula }
  | { readonly op: 'all' | 'some'; readonly of: readonly Formula[] };

export interface ScaleOption {
  readonly id: string;
  readonly values: readonly string[];
}
/** A value of an option, or none: what is there on every aircraft. */
export type Fitted = { readonly option: string; readonly value: string } | undefined;
export interface ScaleControl {
  readonly id: string;
  readonly panel: number;
  readonly fitted: Fitted;
  readonly positions: readonly { readonly id: string; readonly fitted: Fitted }[];
}
export interface ScaleCondition {
  readonly id: string;
  readonly panel: number;
  /** Empty for a number. The first is the normal one where `normal`. */
  readonly values: readonly string[];
  readonly normal: boolean;
}
/** It trips above a value, within `TOLERANCE`. */
export interface ScaleDetector {
  readonly id: string;
  readonly panel: number;
  readonly number: string;
  readonly above: number;
}
export interface ScaleItem {
  readonly id: string;
  readonly panel: number;
  readonly kind: 'light' | 'sign' | 'annunciator';
  readonly zone: string;
  readonly control: string | undefined;
  readonly fitted: Fitted;
  readonly policy: 'first' | 'any';
  /** The states are dark, lit and flashing. */
  readonly rules: readonly { readonly when: Formula; readonly then: string }[];
  readonly otherwise: string;
}
export interface ScaleOverride {
  readonly id: string;
  readonly kind?: ScaleItem['kind'];
  readonly zone?: string;
  readonly when: Formula;
  readonly then: string;
}
export interface ScaleParameters {
  readonly seed: number;
  readonly options: number;
  readonly conditions: number;
  readonly controls: number;
  readonly detectors: number;
  readonly items: number;
  readonly aircraft: number;
  readonly nevers: number;
  /** The most variables that an item reads in all, options included. */
  readonly support: number;
  /** Items of one panel. */
  readonly perPanel: number;
}
export interface ScaleContent {
  readonly options: readonly ScaleOption[];
  /** By aircraft: the value of each option. */
  readonly aircraft: readonly ReadonlyMap<string, string>[];
  readonly controls: readonly ScaleControl[];
  readonly conditions: readonly ScaleCondition[];
  readonly detectors: readonly ScaleDetector[];
  readonly never: readonly Formula[];
  readonly items: readonly ScaleItem[];
  readonly overrides: readonly ScaleOverride[];
  readonly files: Readonly<Record<string, string>>;
}

/** Numbers go from 0 to this by 10, detectors trip within this tolerance. */
export const NUMBER_TO = 400;
export const TOLERANCE = 40;
