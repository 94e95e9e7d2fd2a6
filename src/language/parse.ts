/**
 * Reads an expression by recursive descent, `implies` loosest, then `or` and `and` (never mixed without brackets), `not`
 * tightest. A part that cannot be read is reported and skipped, so that the rest is judged too.
 */
import { Cursor, type ReportFault, type Unreadable } from './cursor.ts';
import type { Quantifier } from './expression.ts';
import type { Token } from './lexer.ts';
import { parseDuration } from './parse-duration.ts';
import type { GuardSyntax, Name, Syntax, Word } from './syntax.ts';
import { isJoint, isReservedWord, isValue } from './words.ts';

/** How deep brackets and "not" may nest: far beyond what anybody can read, and far from what the program can bear. */
const DEEPEST = 100;

/**
 * Parses a text; each fault is given to `report` with its span.
 *
 * @param isNumber whether a name is a number, so that of "airspeed is above 240 kt" only the "is" is wrong.
 */
export function parse(text: string, report: ReportFault, isNumber: (name: string) => boolean): Syntax {
  return new Parser(text, report, isNumber, false).whole();
}

/** As `parse`, of an expression that may be followed by "for" and a time. */
export function parseGuard(text: string, report: ReportFault, isNumber: (name: string) => boolean): GuardSyntax {
  return new Parser(text, report, isNumber, true).guard();
}

class Parser extends Cursor {
  readonly #isNumber: (name: string) => boolean;
  readonly #isGuard: boolean;
  /** How many brackets and "not" stand around the token. */
  #nesting = 0;

  constructor(text: string, report: ReportFault, isNumber: (name: string) => boolean, isGuard: boolean) {
    super(text, report);
    this.#isNumber = isNumber;
    this.#isGuard = isGuard;
  }

  whole(): Syntax {
    if (this.token.kind === 'end') return this.fail({ fault: 'empty' }, this.token);
    return this.#implication();
  }

  guard(): GuardSyntax {
    const when = this.whole();
    const word = this.take('for');
    if (!word) return { when };
    const holds = parseDuration(this);
    // "logo is ON for 5 s and taxiing": the time is about all that stands before it, so that nothing may follow.
    if (isJoint(this.token)) this.report({ fault: 'for', guard: true }, word);
    else if (holds && this.token.kind !== 'end') this.unexpected(holds.tolerance ? 'the end' : '"+/-" or the end');
    return holds ? { when, holds } : { when };
  }

  #implication(): Syntax {
    const premise = this.#connected();
    if (!this.take('implies')) return premise;
    let conclusion = this.#connected();
    for (let second = this.take('implies'); second; second = this.take('implies')) {
      this.report({ fault: 'implies twice' }, second);
      const last = this.#connected();
      conclusion = { op: 'implies', premise: conclusion, conclusion: last, start: conclusion.start, end: last.end };
    }
    return { op: 'implies', premise, conclusion, start: premise.start, end: conclusion.end };
  }

  /** A chain of operands joined by `and` or by `or`. */
  #connected(): Syntax {
    const args = [this.#closedOperand()];
    const word = this.token.text;
    if (word !== 'and' && word !== 'or') return args[0] as Syntax;
    let mixed = false;
    for (;;) {
      const joint = this.take('and', 'or');
      if (!joint) break;
      if (joint.text !== word && !mixed) {
        this.report({ fault: 'mixed' }, joint);
        mixed = true;
      }
      args.push(this.#closedOperand());
    }
    return { op: word, args, start: (args[0] as Syntax).start, end: (args.at(-1) as Syntax).end };
  }

  /** An operand, and behind it a joint, the closing bracket or the end. Anything else is reported and skipped. */
  #closedOperand(): Syntax {
    const operand = this.#operand();
    const { kind, text } = this.token;
    if (kind === 'end' || isJoint(this.token) || (kind === ')' && this.depth > 0)) return operand;
    if (text === 'for') {
      if (!this.#isGuard || this.depth > 0) this.fail({ fault: 'for', guard: this.#isGuard }, this.token);
      return operand;
    }
    if (operand.op === 'unreadable') {
      this.skip();
      return operand;
    }
    const joints = `${operand.op === 'name' ? '"is", ' : ''}"and", "or" or ${this.depth > 0 ? '")"' : 'the end'}`;
    const rest = this.unexpected(joints);
    // What a bare name or number lacks may be the very word that was reported: "logo ON", "airspeed > 200 < 240 kt".
    return operand.op === 'name' || (operand.op === 'compare' && !operand.unit) ? rest : operand;
  }

  #operand(): Syntax {
    if (this.#nesting >= DEEPEST) return this.fail({ fault: 'deep', most: DEEPEST }, this.token);
    this.#nesting += 1;
    const operand = this.#nested();
    this.#nesting -= 1;
    return operand;
  }

  #nested(): Syntax {
    const { token } = this;
    if (this.take('not')) {
      const arg = this.#operand();
      return { op: 'not', arg, start: token.start, end: arg.end };
    }
    if (token.kind === '(') return this.#bracketed();
    const quantifier = this.#quantifier();
    if (quantifier) return this.#lamps(token, quantifier);
    if (this.take('always', 'never')) {
      return { op: 'constant', value: token.text === 'always', start: token.start, end: token.end };
    }
    if (this.take('fitted')) return this.#fitted(token);
    // Ids are lower case, so that "NOT" is no name.
    if (token.kind !== 'word' || isReservedWord(token.text.toLowerCase())) return this.unexpected('a name');
    return this.#comparison(this.#name());
  }

  #bracketed(): Syntax {
    const open = this.next();
    this.depth += 1;
    const inner = this.#implication();
    this.depth -= 1;
    const close = this.take(')');
    if (!close) this.report({ fault: 'bracket' }, open);
    return { ...inner, start: open.start, end: (close ?? inner).end };
  }

  #fitted(word: Token): Syntax {
    const open = this.take('(');
    if (!open) return this.unexpected('"(" after "fitted"');
    const first = this.token;
    if (first.kind !== 'word' || isReservedWord(first.text)) return this.unexpectedInBrackets('a control or item');
    const name = this.#name();
    const close = this.take(')');
    if (close) return { op: 'fitted', name, start: word.start, end: close.end };
    return this.token.kind === 'end' ? this.fail({ fault: 'bracket' }, open) : this.unexpectedInBrackets('")"');
  }

  #name(): Name {
    const { text, start, end } = this.next();
    if (this.token.kind !== '.') return { text, start, end };
    const dot = this.next();
    const part = this.token;
    if (!isValue(part)) {
      this.report({ fault: 'expected', wanted: 'a name after the dot', found: part.text }, part);
      return { text, start, end };
    }
    this.next();
    if (dot.start > end || part.start > dot.end) {
      this.report({ fault: 'blank', meant: `${text}.${part.text}` }, { start, end: part.end });
    }
    return { text, start, end, part };
  }

  #comparison(name: Name): Syntax {
    const { start } = name;
    if (this.token.kind === 'operator') return this.#numeric(name, this.next());
    const said = this.#said();
    if (!said) return { op: 'name', name, start, end: (name.part ?? name).end };
    if ('op' in said) return said;
    if (said.values.length === 1 && this.#isNumber(name.text)) this.skip();
    return { op: 'is', name, ...said, start };
  }

  /** "is ON", "is not ON", "in (ON, AUTO)", "is not in (ON, AUTO)"; undefined where none of them begins. */
  #said(): Said | Unreadable | undefined {
    const verb = this.take('is', 'are');
    const negated = this.take('not') !== undefined;
    if (this.token.text === 'in' && (!verb || this.#startsList())) {
      this.next();
      const list = this.#list();
      return 'op' in list ? list : { ...list, negated };
    }
    if (!verb && negated) return this.unexpected('"in"');
    if (!verb) return undefined;
    const value = this.token;
    if (!isValue(value)) return this.unexpected(`a value after "${verb.text}"`);
    this.next();
    return { values: [value], negated, end: value.end };
  }

  /** Whether the word "in" at the token belongs to a list, and is not the value of "slats are in". */
  #startsList(): boolean {
    const following = this.ahead(1);
    return following.kind === '(' || isValue(following);
  }

  #numeric(name: Name, by: Token): Syntax {
    const number = this.token;
    if (!isValue(number)) return this.unexpected(`a number after "${by.text}"`);
    this.next();
    const withUnit = number.kind === 'number' && this.token.kind === 'word' && !isReservedWord(this.token.text);
    const unit = withUnit ? this.next() : undefined;
    const end = (unit ?? number).end;
    return { op: 'compare', name, by, number, ...(unit ? { unit } : {}), start: name.start, end };
  }

  #list(): Omit<Said, 'negated'> | Unreadable {
    if (!this.take('(')) return this.unexpected('"(" after "in"');
    const values: Word[] = [];
    do {
      if (!isValue(this.token)) return this.unexpectedInBrackets('a value');
      values.push(this.next());
    } while (this.take(','));
    const close = this.take(')');
    return close ? { values, end: close.end } : this.unexpectedInBrackets('"," or ")"');
  }

  /** What begins at the token, if it speaks of several lamps. Elsewhere these words are names like any other. */
  #quantifier(): Quantifier | undefined {
    const { text } = this.token;
    const second = this.ahead(1);
    if (text === 'any' || text === 'all') return isLamps(second) ? text : undefined;
    if (text === 'at' && second.text === 'least') return 'at least';
    if (text === 'at' && second.text === 'most') return 'at most';
    if (text === 'exactly' && (second.kind === 'number' || isLamps(this.ahead(2)))) return text;
    return undefined;
  }

  #lamps(first: Token, quantifier: Quantifier): Syntax {
    for (const _ of quantifier.split(' ')) this.next();
    const counted = quantifier !== 'any' && quantifier !== 'all';
    const count = counted ? this.token : undefined;
    if (count && count.kind !== 'number') return this.unexpected(`a number after "${quantifier}"`);
    if (count) this.next();
    if (!this.take('lamp', 'lamps')) return this.unexpected(`"lamps" after "${(count ?? first).text}"`);
    if (!this.take('of')) return this.unexpected('"of"');
    if (this.token.kind !== 'word' || isReservedWord(this.token.text)) return this.unexpected('a light after "of"');
    const item = this.#name();
    const said = this.#said();
    if (!said) return this.unexpected('"is"');
    if ('op' in said) return said;
    return { op: 'lamps', quantifier, ...(count ? { count } : {}), item, ...said, start: first.start };
  }
}

/** What is said of a name. */
interface Said {
  readonly values: readonly Word[];
  readonly negated: boolean;
  readonly end: number;
}

function isLamps({ text }: Token): boolean {
  return text === 'lamp' || text === 'lamps';
}
