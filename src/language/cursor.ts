/** A place in the tokens of a text, with how faults are reported there and where reading goes on behind one. */
import { type Token, tokenize } from './lexer.ts';
import type { Span } from './syntax.ts';
import { isJoint } from './words.ts';

/** What can be wrong with the writing itself. */
export type SyntaxFault =
  | { readonly fault: 'empty' }
  | { readonly fault: 'stray'; readonly text: string }
  | { readonly fault: 'expected'; readonly wanted: string; readonly found: string }
  | { readonly fault: 'bracket' }
  | { readonly fault: 'mixed' }
  | { readonly fault: 'implies twice' }
  /** "for" that does not stand at the end of a guard. */
  | { readonly fault: 'for'; readonly guard: boolean }
  | { readonly fault: 'blank'; readonly meant: string }
  | { readonly fault: 'deep'; readonly most: number };

export type ReportFault = (fault: SyntaxFault, span: Span) => void;

export interface Unreadable extends Span {
  readonly op: 'unreadable';
}

export class Cursor {
  readonly report: ReportFault;
  readonly #tokens: readonly Token[];
  #at = 0;
  /** How many brackets are open around the token. */
  depth = 0;

  /** @param numberFirst whether the text begins with a number, which may run straight into its unit. */
  constructor(text: string, report: ReportFault, numberFirst = false) {
    this.#tokens = tokenize(text, numberFirst);
    this.report = report;
  }

  get token(): Token {
    return this.ahead(0);
  }

  /** The token that stands so many behind this one; the end behind the last. */
  ahead(by: number): Token {
    return this.#tokens[Math.min(this.#at + by, this.#tokens.length - 1)] as Token;
  }

  next(): Token {
    const token = this.token;
    this.#at += 1;
    return token;
  }

  take(...texts: readonly string[]): Token | undefined {
    return texts.includes(this.token.text) ? this.next() : undefined;
  }

  unexpected(wanted: string, stopAtJoint = true): Unreadable {
    const { token } = this;
    if (token.kind === 'stray') return this.fail({ fault: 'stray', text: token.text }, token, stopAtJoint);
    return this.fail({ fault: 'expected', wanted, found: token.text }, token, stopAtJoint);
  }

  /** As `unexpected` behind an open bracket: goes on behind the bracket that closes it. */
  unexpectedInBrackets(wanted: string): Unreadable {
    const unreadable = this.unexpected(wanted, false);
    this.take(')');
    return unreadable;
  }

  /** Reports, then goes on behind the part that cannot be read. */
  fail(fault: SyntaxFault, span: Span, stopAtJoint = true): Unreadable {
    this.report(fault, span);
    this.skip(stopAtJoint);
    return { op: 'unreadable', start: span.start, end: span.end };
  }

  /** Goes to the next joint or closing bracket of the same depth. A bracket that closes nothing is passed over. */
  skip(stopAtJoint = true): void {
    let depth = 0;
    for (; this.token.kind !== 'end'; this.next()) {
      const { kind } = this.token;
      const joint = stopAtJoint && isJoint(this.token);
      const closing = kind === ')' && (this.depth > 0 || !stopAtJoint);
      if (depth === 0 && (closing || joint)) return;
      if (kind === '(') depth += 1;
      if (kind === ')') depth = Math.max(0, depth - 1);
    }
  }
}
