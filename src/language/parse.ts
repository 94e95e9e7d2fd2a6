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

/** Words that can never be a value: what follows "is" would have two readings. */
const JOINING = new Set(['and', 'or', 'not', 'implies', 'is', 'are']);
/** Words that cannot start a comparison. Some are values all the same: "slats are in". */
const KEYWORDS = new Set([...JOINING, 'in', 'fitted', 'always', 'never']);

/** Whether a word has a meaning of its own in expressions, so that nothing may be called by it. */
export function isReservedWord(word: string): boolean {
  return KEYWORDS.has(word);
}

/**
 * Parses a text; each fault is given to `report` with its span.
 *
 * @param isNumber whether a name is a number, so that of "airspeed is above 240 kt" only the "is" is wrong.
 */
export function parse(
  text: string,
  report: (fault: SyntaxFault, span: Span) => void,
  isNumber: (name: string) => boolean,
): Syntax {
  const parser = new Parser(tokenize(text), report, isNumber);
  return parser.whole();
}

class Parser {
  readonly #tokens: readonly Token[];
  readonly #report: (fault: SyntaxFault, span: Span) => void;
  readonly #isNumber: (name: string) => boolean;
  #at = 0;
  /** How many brackets are open around the token. */
  #depth = 0;

  constructor(
    tokens: readonly Token[],
    report: (fault: SyntaxFault, span: Span) => void,
    isNumber: (name: string) => boolean,
  ) {
    this.#tokens = tokens;
    this.#report = report;
    this.#isNumber = isNumber;
  }

  whole(): Syntax {
    if (this.#token.kind === 'end') return this.#fail({ fault: 'empty' }, this.#token);
    return this.#implication();
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
    let conclusion = this.#connected();
    for (let second = this.#take('implies'); second; second = this.#take('implies')) {
      this.#report({ fault: 'implies twice' }, second);
      const last = this.#connected();
      conclusion = { op: 'implies', premise: conclusion, conclusion: last, start: conclusion.start, end: last.end };
    }
    return { op: 'implies', premise, conclusion, start: premise.start, end: conclusion.end };
  }

  /** A chain of operands joined by `and` or by `or`. */
  #connected(): Syntax {
    const args = [this.#closedOperand()];
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
      args.push(this.#closedOperand());
    }
    return { op: word, args, start: (args[0] as Syntax).start, end: (args.at(-1) as Syntax).end };
  }

  /** An operand, and behind it a joint, the closing bracket or the end. Anything else is reported and skipped. */
  #closedOperand(): Syntax {
    const operand = this.#operand();
    const { kind, text } = this.#token;
    if (kind === 'end' || (kind === 'word' && JOINTS.test(text)) || (kind === ')' && this.#depth > 0)) return operand;
    if (operand.op === 'unreadable') {
      this.#skip();
      return operand;
    }
    const joints = `${operand.op === 'name' ? '"is", ' : ''}"and", "or" or ${this.#depth > 0 ? '")"' : 'the end'}`;
    const rest = this.#unexpected(joints);
    // What a bare name or number lacks may be the very word that was reported: "logo ON", "airspeed > 200 < 240 kt".
    return operand.op === 'name' || (operand.op === 'compare' && !operand.unit) ? rest : operand;
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
    // Ids are lower case, so that "NOT" is no name.
    if (token.kind !== 'word' || KEYWORDS.has(token.text.toLowerCase())) return this.#unexpected('a name');
    return this.#comparison(this.#name());
  }

  #bracketed(): Syntax {
    const open = this.#next();
    this.#depth += 1;
    const inner = this.#implication();
    this.#depth -= 1;
    const close = this.#take(')');
    if (!close) this.#report({ fault: 'bracket' }, open);
    return { ...inner, start: open.start, end: (close ?? inner).end };
  }

  #fitted(word: Token): Syntax {
    const open = this.#take('(');
    if (!open) return this.#unexpected('"(" after "fitted"');
    const first = this.#token;
    if (first.kind !== 'word' || KEYWORDS.has(first.text)) return this.#unexpectedInBrackets('a control or item');
    const name = this.#name();
    const close = this.#take(')');
    if (close) return { op: 'fitted', name, start: word.start, end: close.end };
    return this.#token.kind === 'end' ? this.#fail({ fault: 'bracket' }, open) : this.#unexpectedInBrackets('")"');
  }

  #name(): Name {
    const { text, start, end } = this.#next();
    if (this.#token.kind !== '.') return { text, start, end };
    this.#next();
    const part = this.#token;
    if (!isValue(part)) {
      this.#report({ fault: 'expected', wanted: 'a name after the dot', found: part.text }, part);
      return { text, start, end };
    }
    this.#next();
    return { text, start, end, part };
  }

  #comparison(name: Name): Syntax {
    const { start } = name;
    if (this.#token.kind === 'operator') return this.#numeric(name, this.#next());
    const verb = this.#take('is') ?? this.#take('are');
    const negated = this.#take('not') !== undefined;
    if (this.#token.text === 'in' && (!verb || this.#startsList())) {
      this.#next();
      return this.#among(name, negated);
    }
    if (!verb && negated) return this.#unexpected('"in"');
    if (!verb) return { op: 'name', name, start, end: (name.part ?? name).end };
    const value = this.#token;
    if (!isValue(value)) return this.#unexpected(`a value after "${verb.text}"`);
    this.#next();
    if (this.#isNumber(name.text)) this.#skip();
    return { op: 'is', name, values: [value], negated, start, end: value.end };
  }

  /** Whether the word "in" at the token belongs to a list, and is not the value of "slats are in". */
  #startsList(): boolean {
    const following = this.#tokens[this.#at + 1];
    return following !== undefined && (following.kind === '(' || isValue(following));
  }

  #numeric(name: Name, by: Token): Syntax {
    const number = this.#token;
    if (!isValue(number)) return this.#unexpected(`a number after "${by.text}"`);
    this.#next();
    const withUnit = number.kind === 'number' && this.#token.kind === 'word' && !KEYWORDS.has(this.#token.text);
    const unit = withUnit ? this.#next() : undefined;
    const end = (unit ?? number).end;
    return { op: 'compare', name, by, number, ...(unit ? { unit } : {}), start: name.start, end };
  }

  #among(name: Name, negated: boolean): Syntax {
    if (!this.#take('(')) return this.#unexpected('"(" after "in"');
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

  /** Reports, then goes on behind the part that cannot be read. */
  #fail(fault: SyntaxFault, span: Span, stopAtJoint = true): Syntax {
    this.#report(fault, span);
    this.#skip(stopAtJoint);
    return { op: 'unreadable', start: span.start, end: span.end };
  }

  /** Goes to the next joint or closing bracket of the same depth. A bracket that closes nothing is passed over. */
  #skip(stopAtJoint = true): void {
    let depth = 0;
    for (; this.#token.kind !== 'end'; this.#next()) {
      const { kind, text } = this.#token;
      const joint = stopAtJoint && kind === 'word' && JOINTS.test(text);
      const closing = kind === ')' && (this.#depth > 0 || !stopAtJoint);
      if (depth === 0 && (closing || joint)) return;
      if (kind === '(') depth += 1;
      if (kind === ')') depth = Math.max(0, depth - 1);
    }
  }
}

/** Words that join two statements, where reading goes on behind a fault. */
const JOINTS = /^(?:and|or|implies)$/;

function isValue(token: Token): boolean {
  return token.kind === 'number' || (token.kind === 'word' && !JOINING.has(token.text));
}
