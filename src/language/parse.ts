/**
 * Reads an expression by recursive descent, `implies` loosest, then `or` and `and` (never mixed without brackets), `not`
 * tightest. A part that cannot be read is reported and skipped, so that the rest is judged too.
 */
import { type Token, tokenize } from './lexer.ts';
import type { Name, Span, Syntax, Word } from './syntax.ts';

/** What can be wrong with the writing itself. */
export type SyntaxFault =
  | { readonly fault: 'empty' }
  | { readonly fault: 'stray'; readonly text: string }
  | { readonly fault: 'expected'; readonly wanted: string; readonly found: string }
  | { readonly fault: 'bracket' }
  | { readonly fault: 'mixed' }
  | { readonly fault: 'implies twice' };

const KEYWORDS = new Set(['and', 'or', 'not', 'implies', 'is', 'are', 'in', 'fitted', 'always', 'never']);

/** Whether a word has a meaning of its own in expressions, so that nothing may be called by it. */
export function isReservedWord(word: string): boolean {
  return KEYWORDS.has(word);
}

/** Parses a text; each fault is given to `report` with its span. */
export function parse(text: string, report: (fault: SyntaxFault, span: Span) => void): Syntax {
  const parser = new Parser(tokenize(text), report);
  return parser.whole();
}

class Parser {
  readonly #tokens: readonly Token[];
  readonly #report: (fault: SyntaxFault, span: Span) => void;
  #at = 0;

  constructor(tokens: readonly Token[], report: (fault: SyntaxFault, span: Span) => void) {
    this.#tokens = tokens;
    this.#report = report;
  }

  whole(): Syntax {
    if (this.#token.kind === 'end') return this.#fail({ fault: 'empty' }, this.#token);
    const syntax = this.#implication();
    const rest = this.#token;
    if (rest.kind === 'end') return syntax;
    if (rest.text === 'implies') return this.#fail({ fault: 'implies twice' }, rest);
    return this.#unexpected('"and", "or" or the end');
  }

  get #token(): Token {
    return this.#tokens[Math.min(this.#at, this.#tokens.length - 1)] as Token;
  }

  #next(): Token {
    const token = this.#token;
    this.#at += 1;
    return token;
  }

  #take(text: string): Token | undefined {
    return this.#token.kind !== 'number' && this.#token.text === text ? this.#next() : undefined;
  }

  #implication(): Syntax {
    const premise = this.#connected();
    if (!this.#take('implies')) return premise;
    const conclusion = this.#connected();
    return { op: 'implies', premise, conclusion, start: premise.start, end: conclusion.end };
  }

  /** A chain of operands joined by `and` or by `or`. */
  #connected(): Syntax {
    const args = [this.#operand()];
    const word = this.#token.text;
    if (word !== 'and' && word !== 'or') return args[0] as Syntax;
    let mixed = false;
    for (;;) {
      const joint = this.#take('and') ?? this.#take('or');
      if (!joint) break;
      if (joint.text !== word && !mixed) {
        this.#report({ fault: 'mixed' }, joint);
        mixed = true;
      }
      args.push(this.#operand());
    }
    return { op: word, args, start: (args[0] as Syntax).start, end: (args.at(-1) as Syntax).end };
  }

  #operand(): Syntax {
    const token = this.#token;
    if (this.#take('not')) {
      const arg = this.#operand();
      return { op: 'not', arg, start: token.start, end: arg.end };
    }
    if (token.kind === '(') return this.#bracketed();
    if (this.#take('always') || this.#take('never')) {
      return { op: 'constant', value: token.text === 'always', start: token.start, end: token.end };
    }
    if (this.#take('fitted')) return this.#fitted(token);
    if (token.kind !== 'word' || KEYWORDS.has(token.text)) return this.#unexpected('a name');
    return this.#comparison(this.#name());
  }

  #bracketed(): Syntax {
    const open = this.#next();
    const inner = this.#implication();
    const close = this.#take(')');
    if (close) return { ...inner, start: open.start, end: close.end };
    if (this.#token.kind === 'end') return this.#fail({ fault: 'bracket' }, open);
    return this.#unexpectedInBrackets('")"');
  }

  #fitted(word: Token): Syntax {
    if (!this.#take('(')) return this.#unexpected('"(" behind "fitted"');
    const first = this.#token;
    if (first.kind !== 'word' || KEYWORDS.has(first.text)) return this.#unexpectedInBrackets('a control or item');
    const name = this.#name();
    const close = this.#take(')');
    if (close) return { op: 'fitted', name, start: word.start, end: close.end };
    return this.#token.kind === 'end' ? this.#fail({ fault: 'bracket' }, word) : this.#unexpectedInBrackets('")"');
  }

  #name(): Name {
    const { text, start, end } = this.#next();
    if (this.#token.kind !== '.') return { text, start, end };
    this.#next();
    const part = this.#token;
    if (part.kind !== 'word' && part.kind !== 'number') return { text, start, end };
    this.#next();
    return { text, start, end, part };
  }

  #comparison(name: Name): Syntax {
    const { start } = name;
    if (this.#token.kind === 'operator') return this.#numeric(name, this.#next());
    const verb = this.#take('is') ?? this.#take('are');
    const negated = this.#take('not') !== undefined;
    if (this.#take('in')) return this.#among(name, negated);
    if (!verb && negated) return this.#unexpected('"in"');
    if (!verb) return { op: 'name', name, start, end: (name.part ?? name).end };
    const value = this.#token;
    if (!isValue(value)) return this.#unexpected(`a value behind "${verb.text}"`);
    this.#next();
    return { op: 'is', name, values: [value], negated, start, end: value.end };
  }

  #numeric(name: Name, by: Token): Syntax {
    const number = this.#token;
    if (number.kind !== 'number') return this.#unexpected(`a number behind "${by.text}"`);
    this.#next();
    const unit = this.#token.kind === 'word' && !KEYWORDS.has(this.#token.text) ? this.#next() : undefined;
    const end = (unit ?? number).end;
    return { op: 'compare', name, by, number, ...(unit ? { unit } : {}), start: name.start, end };
  }

  #among(name: Name, negated: boolean): Syntax {
    if (!this.#take('(')) return this.#unexpected('"(" behind "in"');
    const values: Word[] = [];
    do {
      if (!isValue(this.#token)) return this.#unexpectedInBrackets('a value');
      values.push(this.#next());
    } while (this.#take(','));
    const close = this.#take(')');
    if (!close) return this.#unexpectedInBrackets('"," or ")"');
    return { op: 'is', name, values, negated, start: name.start, end: close.end };
  }

  #unexpected(wanted: string, stopAtJoint = true): Syntax {
    const token = this.#token;
    if (token.kind === 'stray') return this.#fail({ fault: 'stray', text: token.text }, token, stopAtJoint);
    return this.#fail({ fault: 'expected', wanted, found: token.text }, token, stopAtJoint);
  }

  /** As `#unexpected` behind an open bracket: goes on behind the bracket that closes it. */
  #unexpectedInBrackets(wanted: string): Syntax {
    const unreadable = this.#unexpected(wanted, false);
    this.#take(')');
    return unreadable;
  }

  /** Reports, then goes on at the next joint or closing bracket of the same depth. */
  #fail(fault: SyntaxFault, span: Span, stopAtJoint = true): Syntax {
    this.#report(fault, span);
    let depth = 0;
    while (this.#token.kind !== 'end') {
      const { kind, text } = this.#token;
      const joint = stopAtJoint && kind === 'word' && /^(and|or|implies)$/.test(text);
      if (depth === 0 && (kind === ')' || joint)) break;
      if (kind === '(') depth += 1;
      if (kind === ')') depth -= 1;
      this.#next();
    }
    return { op: 'unreadable', start: span.start, end: span.end };
  }
}

function isValue(token: Token): boolean {
  return token.kind === 'number' || (token.kind === 'word' && !KEYWORDS.has(token.text));
}
