/**
 * Resolves the names of an expression and checks what is said of them: values that they have, units, ranges. Every mistake
 * is reported at the word that it lies in.
 */
import { type Code, type Diagnostics, type Facts, nearestName, type Place } from '../diagnostics/index.ts';
import { compareDecimals, isOnStep, parseDecimal, thresholdCut } from './decimal.ts';
import type { Comparison, Declaration, Expression, Reference, Scope } from './expression.ts';
import { attributeOf, ownAttribute, type Report, type Sayable, saidBy, wordsOf } from './said.ts';
import type { Name, Span, Syntax, Word } from './syntax.ts';
import { exampleOf, KIND_WORDS } from './wording.ts';

/** Restricts which kinds of names may be read; `why` finishes "may not be read here: ...". */
export interface Allowed {
  readonly kinds: readonly Declaration['kind'][];
  readonly why: string;
}

/** What is checked. Stores may be read in the guards of transitions only. */
export type CheckedForm = 'expression' | 'guard' | 'cell';

export class Checker {
  readonly #scope: Scope;
  readonly #diagnostics: Diagnostics;
  readonly #place: (span: Span) => Place;
  readonly #allowed: Allowed | undefined;
  readonly #form: CheckedForm;

  constructor(
    scope: Scope,
    diagnostics: Diagnostics,
    place: (span: Span) => Place,
    allowed: Allowed | undefined,
    form: CheckedForm,
  ) {
    this.#scope = scope;
    this.#diagnostics = diagnostics;
    this.#place = place;
    this.#allowed = allowed;
    this.#form = form;
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
      case 'lamps':
        return this.#lamps(syntax, place);
      case 'compare':
        return this.#compare(syntax, place);
    }
  }

  /** A cell of a signal or detector: `yes` or `no`. */
  checkAnswer({ name, values, negated, ...span }: Extract<Syntax, { op: 'is' }>): Expression | undefined {
    const bare = this.#bare(name);
    if (!bare) return undefined;
    const [answer, second] = values;
    if (negated || second || (answer?.text !== 'yes' && answer?.text !== 'no')) {
      return this.#report('SL232', span, { name: name.text });
    }
    return answer.text === 'yes' ? bare : { op: 'not', arg: bare, place: bare.place };
  }

  /** A name by itself; `before` is what stands before it in the same chain. */
  #bare(name: Name, before?: Syntax): Expression | undefined {
    const meant = this.#scope.has(name.text) ? undefined : this.#asFurtherValue(name, before);
    if (meant !== undefined) return this.#report('SL204', name, { name: name.text, nearest: undefined, meant });
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    const place = this.#place({ start: name.start, end: (name.part ?? name).end });
    if (declared.kind === 'signal' || declared.kind === 'detector') {
      if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
      return { op: declared.kind, id: declared.id, place };
    }
    const whole = { text: written(name), start: name.start };
    const facts = { name: whole.text, example: exampleOf(declared, name.part?.text) };
    return this.#report('SL211', { ...whole, end: (name.part ?? name).end }, facts);
  }

  /** The list that was meant where a name is a further value of what was compared before it: "logo is ON or AUTO". */
  #asFurtherValue(word: Name, before: Syntax | undefined): string | undefined {
    if (before?.op !== 'is' || word.part) return undefined;
    const { name, values, negated } = before;
    const declared = this.#scope.get(name.text);
    if (!declared || !('values' in declared || 'attributes' in declared)) return undefined;
    const sayable =
      declared.kind === 'item' ? attributeOf(declared, name.part?.text ?? ownAttribute(declared) ?? '') : declared;
    if (!sayable || !wordsOf(sayable).includes(word.text)) return undefined;
    return `${written(name)} ${negated ? 'is not in' : 'in'} (${[...values, word].map(({ text }) => text).join(', ')})`;
  }

  #fitted(name: Name, place: Place): Expression | undefined {
    const declared = this.#resolve(name, true);
    if (!declared) return undefined;
    if (declared.kind !== 'control' && declared.kind !== 'item' && declared.kind !== 'sequence') {
      return this.#report('SL212', name, { name: name.text, kind: KIND_WORDS[declared.kind] });
    }
    const of: Reference = { kind: declared.kind, id: declared.id };
    if (!name.part) return { op: 'fitted', of, place };
    if (declared.kind !== 'control') return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
    const [position] = saidBy(name.text, [name.part], { values: declared.values }, this.#reporter)?.values ?? [];
    return position === undefined ? undefined : { op: 'fitted', of, position, place };
  }

  #is(syntax: Extract<Syntax, { op: 'is' }>, place: Place): Expression | undefined {
    const { name, negated } = syntax;
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    if ('unit' in declared) {
      return this.#report('SL207', name, { name: name.text, unit: declared.unit, from: declared.from });
    }
    if (declared.kind === 'signal' || declared.kind === 'detector') {
      return this.#report('SL208', name, { name: name.text, kind: KIND_WORDS[declared.kind] });
    }
    const sayable = this.#sayable(declared, name);
    const said = sayable && saidBy(written(name), syntax.values, sayable, this.#reporter);
    if (!said) return undefined;
    const attribute = declared.kind === 'item' ? (name.part?.text ?? ownAttribute(declared)) : undefined;
    const of: Reference = {
      kind: said.works ? 'lamp' : declared.kind,
      id: declared.id,
      ...(attribute === undefined ? {} : { attribute }),
    };
    const among: Expression = { op: 'among', of, values: said.values, place };
    return negated ? { op: 'not', arg: among, place } : among;
  }

  /** A statement about several lamps of a light: the same one of each. */
  #lamps(syntax: Extract<Syntax, { op: 'lamps' }>, place: Place): Expression | undefined {
    const { quantifier, item: name, negated } = syntax;
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
    const lamps = declared.kind === 'item' ? (declared.lamps ?? []) : [];
    const [first] = lamps;
    const sayable = declared.kind === 'item' && first !== undefined ? attributeOf(declared, first) : undefined;
    if (!sayable)
      return this.#report('SL224', name, {
        name: name.text,
        kind: declared.kind === 'item' ? undefined : KIND_WORDS[declared.kind],
      });
    const count = syntax.count && this.#count(syntax.count, name.text, lamps.length);
    const said = saidBy(name.text, syntax.values, sayable, this.#reporter);
    if (!said || (syntax.count && count === undefined)) return undefined;
    // Each argument is a plain comparison, so that "is not" becomes a comparison with the other values.
    const all: readonly string[] = said.works ? ['serviceable', 'failed'] : sayable.values;
    const values = negated ? all.filter((value) => !said.values.includes(value)) : said.values;
    if (values.length === 0) return this.#report('SL230', syntax, { name: name.text });
    const kind = said.works ? 'lamp' : 'item';
    const args = lamps.map(
      (attribute): Expression => ({ op: 'among', of: { kind, id: declared.id, attribute }, values, place }),
    );
    return { op: 'lamps', quantifier, ...(count === undefined ? {} : { count }), item: declared.id, args, place };
  }

  #count(word: Word, item: string, lamps: number): number | undefined {
    const count = Number(word.text);
    if (Number.isInteger(count) && count >= 1 && count <= lamps) return count;
    return this.#report('SL225', word, { item, count: word.text, lamps });
  }

  #compare(syntax: Extract<Syntax, { op: 'compare' }>, place: Place): Expression | undefined {
    const { name, number, unit } = syntax;
    const declared = this.#resolve(name);
    if (!declared) return undefined;
    if (declared.kind !== 'number' && declared.kind !== 'store') {
      const bare = declared.kind === 'signal' || declared.kind === 'detector';
      const facts = { name: name.text, operator: syntax.by.text, kind: KIND_WORDS[declared.kind] };
      return this.#report('SL206', syntax.by, {
        ...facts,
        example: bare ? undefined : exampleOf(declared, number.text),
      });
    }
    if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
    if (!parseDecimal(number.text)) {
      return this.#report('SL202', number, {
        form: this.#form === 'cell' ? 'cell' : 'expression',
        found: number.text,
        wanted: `a number after "${syntax.by.text}"`,
      });
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
    const limit = { value: number.text, unit: declared.unit, place };
    if (declared.kind === 'number') return { op: 'compare', condition: declared.id, by, ...limit };
    if (by !== '=') return { op: 'level', store: declared.id, by, ...limit };
    return this.#report('SL233', syntax.by, { name: name.text, number: number.text, unit: declared.unit });
  }

  /** What a name can be said to be; reports an item read without an attribute that it needs, or with a wrong one. */
  #sayable(
    declared: Extract<Declaration, { readonly values: readonly string[] } | { readonly kind: 'item' }>,
    name: Name,
  ): Sayable | undefined {
    if (declared.kind !== 'item') {
      if (name.part) return this.#report('SL213', name.part, { name: name.text, part: name.part.text });
      return declared;
    }
    const attributes = [...declared.attributes.keys()];
    const attribute = name.part?.text ?? ownAttribute(declared);
    if (attribute === undefined) return this.#report('SL215', name, { item: name.text, known: attributes });
    const sayable = attributeOf(declared, attribute);
    if (sayable) return sayable;
    const nearest = nearestName(attribute, attributes);
    return this.#report('SL214', name.part ?? name, { item: name.text, attribute, known: attributes, nearest });
  }

  #resolve(name: Name, fitted = false): Declaration | undefined {
    const declared = this.#scope.get(name.text);
    if (!declared) {
      const readable = [...this.#scope.values()].filter(
        ({ kind }) => (this.#allowed?.kinds.includes(kind) ?? true) && (kind !== 'store' || this.#form === 'guard'),
      );
      const names = readable.map(({ id }) => id);
      return this.#report('SL204', name, { name: name.text, nearest: nearestName(name.text, names), meant: undefined });
    }
    if (declared.kind === 'store' && this.#form !== 'guard' && !fitted)
      return this.#report('SL222', name, { name: name.text });
    if (!this.#allowed || this.#allowed.kinds.includes(declared.kind)) return declared;
    const kind = fitted ? undefined : KIND_WORDS[declared.kind];
    return this.#report('SL218', name, { name: name.text, kind, why: this.#allowed.why });
  }

  readonly #reporter: Report = (code, span, facts) => this.#report(code, span, facts);

  #report<C extends Code>(code: C, span: Span, facts: Facts<C>): undefined {
    this.#diagnostics.report(code, facts, this.#place({ start: span.start, end: span.end }));
    return undefined;
  }
}

function written({ text, part }: Name): string {
  return part ? `${text}.${part.text}` : text;
}
