/**
 * Resolves the names of an expression and checks what is said of them: values that they have, units, ranges. Every mistake
 * is reported at the word that it lies in.
 */
import { type Code, type Diagnostics, type Facts, nearestName, type Place } from '../diagnostics/index.ts';
import { compareDecimals, isOnStep, parseDecimal, thresholdCut } from './decimal.ts';
import type { Comparison, Declaration, Expression, Reference, Scope } from './expression.ts';
import type { Name, Span, Syntax, Word } from './syntax.ts';

/** Restricts which kinds of names may be read; `why` finishes "may not be read here: ...". */
export interface Allowed {
  readonly kinds: readonly Declaration['kind'][];
  readonly why: string;
}

export class Checker {
  readonly #scope: Scope;
  readonly #diagnostics: Diagnostics;
  readonly #place: (span: Span) => Place;
  readonly #allowed: Allowed | undefined;

  constructor(scope: Scope, diagnostics: Diagnostics, place: (span: Span) => Place, allowed: Allowed | undefined) {
    this.#scope = scope;
    this.#diagnostics = diagnostics;
    this.#place = place;
    this.#allowed = allowed;
  }

  /** The checked expression; undefined when a part of it is wrong. All parts are checked. */
  check(syntax: Syntax): Expression | undefined {
    const place = this.#place(syntax);
    switch (syntax.op) {
      case 'unreadable':
        return undefined;
      case 'constant':
        return { op: 'constant', value: syntax.value, place };
      case 'and':
      case 'or': {
        const args = syntax.args
          .map((arg, at) => (arg.op === 'name' ? this.#bare(arg.name, syntax.args[at - 1]) : this.check(arg)))
          .filter((arg) => arg !== undefined);
        return args.length === syntax.args.length ? { op: syntax.op, args, place } : undefined;
      }
      case 'not': {
        const arg = this.check(syntax.arg);
        return arg && { op: 'not', arg, place };
      }
      case 'implies': {
        const premise = this.check(syntax.premise);
        const conclusion = this.check(syntax.conclusion);
        return premise && conclusion && { op: 'implies', premise, conclusion, place };
      }
      case 'name':
        return this.#bare(syntax.name);
      case 'fitted':
        return this.#fitted(syntax.name, place);
      case 'is':
        return this.#is(syntax, place);
      case 'compare':
        return this.#compare(syntax, place);
    }
  }

  /** A name by itself; `before` is what stands before it in the same chain. */
  #bare(name: Name, before?: Syntax): Expression | undefined {
    const meant = this.#scope.has(name.text) ? undefined : this.#asFurtherValue(name, before);
    if (meant !== undefined) return this.#report('SL204', name, { name: name.text, nearest: undefined, meant });
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    const place = this.#place({ start: name.start, end: (name.part ?? name).end });
    if (declared.kind === 'signal') {
      if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
      return { op: 'signal', id: declared.id, place };
    }
    const whole = { text: name.part ? `${name.text}.${name.part.text}` : name.text, start: name.start };
    const facts = { name: whole.text, example: exampleOf(declared, name.part?.text) };
    return this.#report('SL211', { ...whole, end: (name.part ?? name).end }, facts);
  }

  /** The list that was meant where a name is a further value of what was compared before it: "logo is ON or AUTO". */
  #asFurtherValue(word: Name, before: Syntax | undefined): string | undefined {
    if (before?.op !== 'is' || word.part) return undefined;
    const { name, values, negated } = before;
    const declared = this.#scope.get(name.text);
    if (!declared || !('values' in declared || 'attributes' in declared)) return undefined;
    const states =
      declared.kind === 'item'
        ? (declared.attributes.get(name.part?.text ?? '') ?? [...declared.attributes.values()].flat())
        : declared.values;
    if (!states.includes(word.text)) return undefined;
    const read = name.part ? `${name.text}.${name.part.text}` : name.text;
    return `${read} ${negated ? 'is not in' : 'in'} (${[...values, word].map(({ text }) => text).join(', ')})`;
  }

  #fitted(name: Name, place: Place): Expression | undefined {
    const declared = this.#resolve(name, true);
    if (!declared) return undefined;
    if (declared.kind !== 'control' && declared.kind !== 'item') {
      return this.#report('SL212', name, { name: name.text, kind: KIND_WORDS[declared.kind] });
    }
    const of: Reference = { kind: declared.kind, id: declared.id };
    if (!name.part) return { op: 'fitted', of, place };
    if (declared.kind === 'item') return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
    const [position] = this.#values(name, [name.part], declared.values) ?? [];
    return position === undefined ? undefined : { op: 'fitted', of, position, place };
  }

  #is(syntax: Extract<Syntax, { op: 'is' }>, place: Place): Expression | undefined {
    const { name, negated } = syntax;
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    if (declared.kind === 'number') {
      return this.#report('SL207', name, { name: name.text, unit: declared.unit, from: declared.from });
    }
    if (declared.kind === 'signal' || declared.kind === 'detector') return this.#report('SL208', name, { name: name.text });
    if (declared.kind === 'store') return undefined;
    const known = this.#valuesOf(declared, name);
    const values = known && this.#values(name, syntax.values, known);
    if (!values) return undefined;
    const attribute = declared.kind === 'item' ? (name.part?.text ?? [...declared.attributes.keys()][0]) : undefined;
    const of: Reference = {
      kind: declared.kind,
      id: declared.id,
      ...(attribute === undefined ? {} : { attribute }),
    };
    const among: Expression = { op: 'among', of, values, place };
    return negated ? { op: 'not', arg: among, place } : among;
  }

  #compare(syntax: Extract<Syntax, { op: 'compare' }>, place: Place): Expression | undefined {
    const { name, number, unit } = syntax;
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    if (declared.kind !== 'number') {
      const example = declared.kind === 'signal' ? undefined : exampleOf(declared, number.text);
      return this.#report('SL206', syntax.by, { name: name.text, operator: syntax.by.text, example });
    }
    if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
    if (!parseDecimal(number.text)) {
      return this.#report('SL202', number, { found: number.text, wanted: `a number after "${syntax.by.text}"` });
    }
    if (unit?.text !== declared.unit) {
      const at = unit ?? number;
      return this.#report('SL209', at, {
        name: name.text,
        wanted: declared.unit,
        found: unit?.text,
        number: number.text,
      });
    }
    const by = syntax.by.text as Comparison;
    const { from, to, step } = declared;
    const outside = compareDecimals(number.text, from) < 0 || compareDecimals(number.text, to) > 0;
    // The ends of the range may be named, as published intervals do, but what no step fulfils is a slip.
    if (outside || (by !== '=' && !thresholdCut(declared, by, number.text))) {
      return this.#report('SL210', number, { name: name.text, number: number.text, from, to, unit: declared.unit });
    }
    if (by === '=' && !isOnStep(number.text, from, step)) {
      return this.#report('SL216', number, { name: name.text, number: number.text, step, unit: declared.unit });
    }
    return { op: 'compare', condition: declared.id, by, value: number.text, unit: declared.unit, place };
  }

  /** The values that a name can have; reports an item read without an attribute that it needs, or with a wrong one. */
  #valuesOf(declared: Extract<Declaration, { readonly values: readonly string[] } | { readonly kind: 'item' }>, name: Name): readonly string[] | undefined {
    if (declared.kind !== 'item') {
      if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
      return declared.values;
    }
    const attributes = [...declared.attributes.keys()];
    if (name.part) {
      const states = declared.attributes.get(name.part.text);
      if (states) return states;
      const near = nearestName(name.part.text, attributes);
      const facts = { item: name.text, attribute: name.part.text, known: attributes, nearest: near };
      return this.#report('SL214', name.part, facts);
    }
    if (attributes.length === 1) return declared.attributes.get(attributes[0] ?? '');
    return this.#report('SL215', name, { item: name.text, known: attributes });
  }

  #values(name: Name, words: readonly Word[], known: readonly string[]): string[] | undefined {
    const values: string[] = [];
    let wrong = false;
    for (const word of words) {
      if (!known.includes(word.text)) {
        const sameLetters = known.find((each) => each.toLowerCase() === word.text.toLowerCase());
        const near = sameLetters ?? nearestName(word.text, known);
        this.#report('SL205', word, { name: name.text, value: word.text, known, nearest: near });
        wrong = true;
      } else if (values.includes(word.text)) {
        this.#report('SL217', word, { value: word.text });
        wrong = true;
      } else values.push(word.text);
    }
    return wrong ? undefined : values;
  }

  #resolve(name: Name, fitted = false): Declaration | undefined {
    const declared = this.#scope.get(name.text);
    if (!declared) {
      const readable = [...this.#scope.values()].filter(({ kind }) => this.#allowed?.kinds.includes(kind) ?? true);
      const names = readable.map(({ id }) => id);
      return this.#report('SL204', name, { name: name.text, nearest: nearestName(name.text, names), meant: undefined });
    }
    if (!this.#allowed || this.#allowed.kinds.includes(declared.kind)) return declared;
    const what = fitted ? 'whether it is fitted' : KIND_WORDS[declared.kind];
    return this.#report('SL218', name, { name: name.text, kind: what, why: this.#allowed.why });
  }

  #report<C extends Code>(code: C, span: Span, facts: Facts<C>): undefined {
    this.#diagnostics.report(code, facts, this.#place({ start: span.start, end: span.end }));
    return undefined;
  }
}

/** A comparison that an author could write of a name, with the attribute or value `wanted` if it has that one. */
function exampleOf(declared: Exclude<Declaration, { kind: 'signal' | 'detector' }>, wanted?: string): string {
  if (declared.kind === 'number' || declared.kind === 'store') return `${declared.id} > ${declared.from} ${declared.unit}`;
  const attributes = declared.kind === 'item' ? [...declared.attributes] : [];
  const [attribute, states] =
    declared.kind === 'item'
      ? (attributes.find(([id]) => id === wanted) ?? attributes[0] ?? ['', []])
      : ['', declared.values];
  const dotted = declared.kind === 'item' && declared.attributes.size > 1 ? `.${attribute}` : '';
  const value = states.find((state) => state === wanted) ?? states[0] ?? '';
  return `${declared.id}${dotted} is ${value}`;
}

/** Kinds of names in words, with their article. */
const KIND_WORDS: Readonly<Record<Declaration['kind'], string>> = {
  option: 'an option',
  condition: 'a condition',
  number: 'a number',
  control: 'a control',
  item: 'an item',
  signal: 'a signal',
  detector: 'a detector',
  sequence: 'a sequence',
  store: 'a store',
};
