/** An expression as it was written, before names are resolved. `start` and `end` are indices into its text. */

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
  | (Span & { readonly op: 'name'; readonly name: Name })
  /** A part that could not be read; it has been reported. */
  | (Span & { readonly op: 'unreadable' });
