/**
 * The oracle's own reading of expressions: operator precedence parsing (Pratt) straight into an algebra, without a tree
 * between. What an expression means is left to the algebra: a truth value, the names it reads, a formula for a solver.
 */

/** What each construct of the language becomes. */
export interface Algebra<T> {
  constant(value: boolean): T;
  not(a: T): T;
  and(a: T, b: T): T;
  or(a: T, b: T): T;
  implies(a: T, b: T): T;
  /** The value of a condition, option, control or item (`name`, `attribute` where written) is one of `values`. */
  among(name: string, attribute: string | undefined, values: readonly string[]): T;
  compare(name: string, by: string, value: string): T;
  fitted(name: string, position: string | undefined): T;
  /** A name by itself: a signal or a detector. */
  signal(name: string): T;
  /** So many lamps of an item are (or with `negated`, are not) one of `values`. */
  lamps(count: LampCount, item: string, values: readonly string[], negated: boolean): T;
}

/** How many lamps: `any` and `all` have no number. */
export interface LampCount {
  readonly by: 'any' | 'all' | 'at least' | 'at most' | 'exactly';
  readonly number: number;
}

const BINDING: Readonly<Record<string, number>> = { implies: 1, and: 2, or: 2, not: 3 };

function tokenise(text: string): string[] {
  return text.match(/[(),=]|[<>]=?|[^\s(),=<>]+/g) ?? [];
}

/** Reads `text` into the algebra. Throws on anything that is not an expression: the oracle only reads sound content. */
export function read<T>(text: string, algebra: Algebra<T>): T {
  const tokens = tokenise(text);
  let at = 0;
  const fail = (): never => {
    throw new Error(`not an expression: ${text} (token ${at + 1}: ${tokens[at] ?? 'end'})`);
  };
  const take = (expected?: string): string => {
    const token = tokens[at];
    if (token === undefined || (expected !== undefined && token !== expected)) return fail();
    at++;
    return token;
  };
  const list = (): string[] => {
    take('(');
    const values = [take()];
    while (tokens[at] === ',') {
      take(',');
      values.push(take());
    }
    take(')');
    return values;
  };
  const split = (word: string): [string, string | undefined] => {
    const dot = word.indexOf('.');
    return dot < 0 ? [word, undefined] : [word.slice(0, dot), word.slice(dot + 1)];
  };

  /** What a name starts: a comparison of words, a comparison of numbers, or the name of a signal. */
  const named = (word: string): T => {
    const [name, attribute] = split(word);
    const next = tokens[at] ?? '';
    if (/^([<>]=?|=)$/.test(next)) {
      const by = take();
      const number = /^(-?\d+(?:\.\d+)?)(.*)$/.exec(take());
      if (!number) return fail();
      if (number[2] === '') take(); // the unit; that it fits is the checker's business
      return algebra.compare(name, by, number[1]!);
    }
    if (next !== 'is' && next !== 'are' && next !== 'in' && next !== 'not') return algebra.signal(word);
    const { values, negated } = valued();
    const result = algebra.among(name, attribute, values);
    return negated ? algebra.not(result) : result;
  };

  /** What follows a name: "is lit", "are not in (lit, dark)", "in (lit, dark)". */
  const valued = (): { values: string[]; negated: boolean } => {
    if (tokens[at] === 'is' || tokens[at] === 'are') take();
    const negated = tokens[at] === 'not';
    if (negated) take('not');
    const listed = tokens[at] === 'in' && tokens[at + 1] === '(';
    if (listed) take('in');
    return { values: listed ? list() : [take()], negated };
  };

  /** "any lamp of NAME is ...", "at least 2 lamps of NAME are ...": undefined, with nothing taken, where it is not that. */
  const counted = (): T | undefined => {
    const rest = tokens.slice(at).join(' ');
    const found = /^(?:(any|all)|(at least|at most|exactly) (\d+)) lamps? of (\S+) /.exec(rest);
    if (!found) return undefined;
    at += found[0].split(' ').length - 1;
    const { values, negated } = valued();
    const by = (found[1] ?? found[2]) as LampCount['by'];
    return algebra.lamps({ by, number: Number(found[3] ?? 0) }, found[4]!, values, negated);
  };

  const prefix = (): T => {
    const lamps = counted();
    if (lamps !== undefined) return lamps;
    const token = take();
    switch (token) {
      case '(': {
        const inner = climb(0);
        take(')');
        return inner;
      }
      case 'not':
        return algebra.not(climb(BINDING['not']!));
      case 'always':
        return algebra.constant(true);
      case 'never':
        return algebra.constant(false);
      case 'fitted': {
        const [word, ...more] = list();
        return word === undefined || more.length > 0 ? fail() : algebra.fitted(...split(word));
      }
      default:
        return /^[(),=<>]/.test(token) ? fail() : named(token);
    }
  };

  function climb(floor: number): T {
    let left = prefix();
    let joined: string | undefined;
    for (;;) {
      const operator = tokens[at];
      if (operator !== 'and' && operator !== 'or' && operator !== 'implies') return left;
      const binding = BINDING[operator]!;
      if (binding <= floor) return left;
      // "a and b or c" and "a implies b implies c" have no agreed reading.
      if (joined !== undefined && BINDING[joined] === binding && (operator !== joined || operator === 'implies'))
        fail();
      joined = operator;
      take();
      left = algebra[operator](left, climb(binding));
    }
  }

  const result = climb(0);
  if (at < tokens.length) fail();
  return result;
}
