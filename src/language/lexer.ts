/** Splits the text of an expression into tokens. Offsets are indices into that text. */

export type TokenKind = 'word' | 'number' | 'operator' | 'tolerance' | '(' | ')' | ',' | '.' | 'stray' | 'end';

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Numbers come before words, so that a position called `2` is a number token, which the parser takes as a value too. */
const PATTERNS: readonly (readonly [TokenKind, RegExp])[] = [
  ['number', /-?\d+(?:\.\d+)?(?![\p{L}\p{N}_-])/uy],
  ['word', /[\p{L}\p{N}_°%](?:[\p{L}\p{N}_°/-]*[\p{L}\p{N}_°])?/uy],
  ['tolerance', /\+\/-/y],
  // What other languages write; it is told as a whole what to write here.
  ['stray', /==|!=|<>|=<|=>|&&|\|\|/y],
  ['operator', /<=|>=|<|>|=/y],
  ['(', /\(/y],
  [')', /\)/y],
  [',', /,/y],
  ['.', /\./y],
  ['stray', /[^\s]/uy],
];

/** Where a number belongs it may run straight into its unit ("240kt"), and a comma in it separates nothing ("10,800"). */
const NUMBER_FIRST: typeof PATTERNS = [
  ['stray', /-?\d+(?:,\d+)+(?:\.\d+)?/y],
  ['number', /-?\d+(?:\.\d+)?/y],
  ...PATTERNS,
];

/**
 * The tokens of a text, the last of kind `end`.
 *
 * @param numberFirst whether the text begins where a number belongs.
 */
export function tokenize(text: string, numberFirst: boolean): Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    if (/\s/.test(text.charAt(at))) {
      at += 1;
      continue;
    }
    for (const [kind, pattern] of wantsNumber(tokens.at(-1), numberFirst) ? NUMBER_FIRST : PATTERNS) {
      pattern.lastIndex = at;
      const match = pattern.exec(text);
      if (!match) continue;
      tokens.push({ kind, text: match[0], start: at, end: at + match[0].length });
      at += match[0].length;
      break;
    }
  }
  tokens.push({ kind: 'end', text: '', start: text.length, end: text.length });
  return tokens;
}

/** Whether a number belongs behind the token; `first` says so of the beginning. */
function wantsNumber(token: Token | undefined, first: boolean): boolean {
  if (!token) return first;
  return token.kind === 'operator' || token.kind === 'tolerance' || token.text === 'for';
}
