/** An expression as it was written, before names are resolved. `start` and `end` are indices into its text. */
import type { Quantifier } from './expression.ts';

export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Word extends Span {
  readonly text: string;
}

/** A name, with the attribute or position behind the dot. */
export interface Name extends Word {
  readonly part?: Word;
}

export type Syntax =
  | (Span & { readonly op: 'constant'; readonly value: boolean })
  | (Span & { readonly op: 'and' | 'or'; readonly args: readonly Syntax[] })
  | (Span & { readonly op: 'not'; readonly arg: Syntax })
  | (Span & { readonly op: 'implies'; readonly premise: Syntax; readonly conclusion: Syntax })
  | (Span & { readonly op: 'is'; readonly name: Name; readonly values: readonly Word[]; readonly negated: boolean })
  /** `number` may be a word that was written where a number belongs. */
  | (Span & {
      readonly op: 'compare';
      readonly name: Name;
      readonly by: Word;
      readonly number: Word;
      readonly unit?: Word;
    })
  | (Span & { readonly op: 'fitted'; readonly name: Name })
  | (Span & {
      readonly op: 'lamps';
      readonly quantifier: Quantifier;
      /** Set where the quantifier has a count; a number token. */
      readonly count?: Word;
      readonly item: Name;
      readonly values: readonly Word[];
      readonly negated: boolean;
    })
  | (Span & { readonly op: 'name'; readonly name: Name })
  /** A part that could not be read; it has been reported. */
  | (Span & { readonly op: 'unreadable' });

/** A time as it was written: a number, and the word behind it where there is one. */
export interface AmountSyntax extends Span {
  readonly number: Word;
  readonly unit?: Word;
}

export interface DurationSyntax extends Span {
  readonly time: AmountSyntax;
  readonly tolerance?: AmountSyntax;
}

/** `holds` is undefined where nothing is said of it, or where it cannot be read, which has been reported. */
export interface GuardSyntax {
  readonly when: Syntax;
  readonly holds?: DurationSyntax;
}
