/**
 * An independent interpreter of the authors' rules. It judges one case at a time, straight from the content files, and
 * shares nothing with the program: what it says of a case is what the book must say.
 */
import { type ContentText, readContent } from './content.ts';
import { compares, isStep, representatives } from './decimal.ts';
import { type Algebra, read } from './expression.ts';
import { type Mention, mentions, mentionsOfAttribute } from './reach.ts';

/** One distinct set of option values among the aircraft in service on the book's date. */
export interface Fit {
  /** The option values in the order of options.yaml, e.g. "manual/single". */
  readonly id: string;
  readonly options: Readonly<Record<string, string>>;
  readonly registrations: readonly string[];
}
export interface OracleAircraft {
  readonly serial: string;
  readonly registration: string;
  readonly fit: Fit;
}
/** Variable id to value: a position, a condition's value, or a number as a decimal. Controls not fitted are left out. */
export type Case = Readonly<Record<string, string>>;
/** A state id, or why there is none. The numbers are the places of rules in the list, from 0. */
export type Outcome = string | { readonly conflict: readonly number[] } | { readonly gap: true };

/** Reads a content folder and answers for it. */
export function loadOracle(folder: string): Oracle {
  return new Oracle(readContent(folder));
}

type Truth = (fit: Fit, given: Case) => boolean;

export class Oracle {
  /** Titles, legends and words, for reading page text back. */
  readonly content: ContentText;
  readonly aircraft: readonly OracleAircraft[];
  readonly fits: readonly Fit[];
  readonly #truths = new Map<string, Truth>();
  readonly #values = new Map<string, readonly string[]>();
  readonly #neverGroups: readonly { readonly variables: readonly string[]; readonly rules: readonly string[] }[];
  readonly #possible = new Map<string, readonly Case[]>();
  readonly #signatures = new Map<string, ReadonlyMap<string, string>>();

  constructor(content: ContentText) {
    this.content = content;
    const fits = new Map<string, Fit & { registrations: string[] }>();
    const { date } = content.book;
    const flying = content.aircraft.filter(({ from, to }) => from <= date && (to === '' || date <= to));
    this.aircraft = flying.map(({ serial, registration, options }) => {
      const id = [...content.options.keys()].map((option) => options[option]).join('/');
      const fit = fits.get(id) ?? { id, options, registrations: [] };
      fits.set(id, fit);
      fit.registrations.push(registration);
      return { serial, registration, fit };
    });
    this.fits = [...fits.values()];
    this.#collectValues();
    this.#neverGroups = this.#groupNevers();
  }

  /** The fit of an aircraft by registration. */
  fitOf(registration: string): Fit {
    const found = this.aircraft.find((aircraft) => aircraft.registration === registration);
    if (!found) throw new Error(`no such aircraft: ${registration}`);
    return found.fit;
  }

  /** Conditions, then controls, in the authors' order, that the attribute reads directly or through signals and items. */
  variables(itemId: string, attributeId: string): readonly string[] {
    return this.#variablesAmong(mentionsOfAttribute(this.content, itemId, attributeId));
  }

  /** The same for an expression. */
  variablesOf(text: string): readonly string[] {
    return this.#variablesAmong(mentions(this.content, text));
  }

  /** The values that a variable can have on a fit: fitted positions only; none for a control that isn't fitted. */
  valuesOn(fit: Fit, variable: string): readonly string[] {
    const control = this.content.controls.get(variable);
    if (!control) return this.#values.get(variable) ?? [];
    if (!this.evaluate(fit, control.fitted, {})) return [];
    return [...control.positions].filter(([, position]) => this.evaluate(fit, position.fitted, {})).map(([id]) => id);
  }

  /**
   * Every case over the variables that can happen on the fit: one that some values of the other variables complete so
   * that no `never` holds. Numbers go over representative steps. Controls not fitted are left out of the cases.
   */
  cases(fit: Fit, variables: readonly string[]): Iterable<Case> {
    const names = variables.filter((variable) => this.valuesOn(fit, variable).length > 0);
    const allowed: { names: readonly string[]; keys: ReadonlySet<string> }[] = [];
    for (const [at, group] of this.#neverGroups.entries()) {
      const shared = names.filter((name) => group.variables.includes(name));
      const keys = new Set(this.#possibleIn(fit, at).map((one) => keyOf(one, shared)));
      allowed.push({ names: shared, keys });
    }
    return filter(this.#product(fit, names), (given) =>
      allowed.every((group) => group.keys.has(keyOf(given, group.names))),
    );
  }

  /** Whether the case, which may be partial, can happen on the fit. Its numbers may be any steps. */
  canHappen(fit: Fit, given: Case): boolean {
    const known = Object.entries(given).every(([variable, value]) => {
      const number = this.content.conditions.get(variable)?.number;
      return number ? isStep(number, value) : this.valuesOn(fit, variable).includes(value);
    });
    if (!known) return false;
    return this.#neverGroups.every(({ variables, rules }) => {
      const open = variables.filter((name) => given[name] === undefined && this.valuesOn(fit, name).length > 0);
      for (const rest of this.#product(fit, open)) {
        if (rules.every((rule) => !this.evaluate(fit, rule, { ...given, ...rest }))) return true;
      }
      return false;
    });
  }

  /** Whether every condition in the case has its normal value, where it has one. */
  isNormal(given: Case): boolean {
    return Object.entries(given).every(([variable, value]) => {
      const normal = this.content.conditions.get(variable)?.normal;
      return normal === undefined || normal === value;
    });
  }

  /** Whether a control or an item is fitted; with a position, whether the control has it. */
  isFitted(fit: Fit, id: string, position?: string): boolean {
    const control = this.content.controls.get(id);
    const fitted = control?.fitted ?? this.content.items.get(id)?.fitted;
    if (fitted === undefined) throw new Error(`neither a control nor an item: ${id}`);
    if (!this.evaluate(fit, fitted, {})) return false;
    return position === undefined || this.valuesOn(fit, id).includes(position);
  }

  /** What the rules make of the case, by their hit policy. */
  state(fit: Fit, itemId: string, attributeId: string, given: Case): Outcome | 'not-fitted' {
    const item = this.content.items.get(itemId);
    const attribute = item?.attributes.get(attributeId);
    if (!item || !attribute) throw new Error(`no such attribute: ${itemId}.${attributeId}`);
    if (!this.isFitted(fit, itemId)) return 'not-fitted';
    const hits = [...attribute.rules.entries()].filter(
      ([, { when }]) => when !== undefined && this.evaluate(fit, when, given),
    );
    const [first] = hits;
    if (!first) return attribute.rules.find((rule) => rule.when === undefined)?.state ?? { gap: true };
    const conflict = { conflict: hits.map(([place]) => place) };
    if (attribute.policy === 'unique' && hits.length > 1) return conflict;
    if (attribute.policy === 'any' && hits.some(([, rule]) => rule.state !== first[1].state)) return conflict;
    return first[1].state;
  }

  /** Whether the expression holds in the case. Throws where it reads a variable that the case leaves open. */
  evaluate(fit: Fit, text: string, given: Case): boolean {
    let truth = this.#truths.get(text);
    if (!truth) {
      truth = read(text, this.#algebra);
      this.#truths.set(text, truth);
    }
    return truth(fit, given);
  }

  /** A fit and a case that can happen in which the expression is false; undefined when it holds everywhere. */
  counterexample(text: string): { readonly fit: Fit; readonly given: Case } | undefined {
    const variables = this.variablesOf(text);
    for (const fit of this.fits) {
      for (const given of this.cases(fit, variables)) if (!this.evaluate(fit, text, given)) return { fit, given };
    }
    return undefined;
  }

  /** Whether the expression holds in every case that can happen, on every fit. */
  holds(text: string): boolean {
    return this.counterexample(text) === undefined;
  }

  /**
   * The variables that really matter to the attribute on one of the fits at least (all fits, if none are named):
   * changing that one value alone, whether or not both cases can happen, changes what the rules say.
   */
  ownVariables(itemId: string, attributeId: string, fits: readonly Fit[] = this.fits): readonly string[] {
    const reached = this.variables(itemId, attributeId);
    return reached.filter((variable) => fits.some((fit) => this.#matters(fit, itemId, attributeId, reached, variable)));
  }

  /** Whether two fits are alike on the attribute: the same cases over its own variables, the same states in each. */
  alike(itemId: string, attributeId: string, a: Fit, b: Fit): boolean {
    const [ours, theirs] = [this.#signature(itemId, attributeId, a), this.#signature(itemId, attributeId, b)];
    return ours.size === theirs.size && [...ours].every(([key, states]) => theirs.get(key) === states);
  }

  #matters(fit: Fit, itemId: string, attributeId: string, reached: readonly string[], variable: string): boolean {
    if (!this.isFitted(fit, itemId)) return false;
    const others = reached.filter((other) => other !== variable && this.valuesOn(fit, other).length > 0);
    const values = this.valuesOn(fit, variable);
    for (const given of this.#product(fit, others)) {
      const states = values.map((value) =>
        JSON.stringify(this.state(fit, itemId, attributeId, { ...given, [variable]: value })),
      );
      if (states.some((state) => state !== states[0])) return true;
    }
    return false;
  }

  /** Each possible case over the attribute's own variables, with the states that it can have. */
  #signature(itemId: string, attributeId: string, fit: Fit): ReadonlyMap<string, string> {
    const id = `${itemId}.${attributeId} ${fit.id}`;
    const known = this.#signatures.get(id);
    if (known) return known;
    const states = new Map<string, string>();
    if (!this.isFitted(fit, itemId)) states.set('not fitted', '');
    else {
      const own = this.ownVariables(itemId, attributeId);
      for (const given of this.cases(fit, this.variables(itemId, attributeId))) {
        const key = keyOf(given, own);
        const state = JSON.stringify(this.state(fit, itemId, attributeId, given));
        const before = states.get(key);
        if (before !== undefined && before !== state) throw new Error(`${id}: two states for ${key}`);
        states.set(key, state);
      }
    }
    this.#signatures.set(id, states);
    return states;
  }

  #variablesAmong(read: readonly Mention[]): readonly string[] {
    const names = new Set(read.map((mention) => mention.name));
    return [...this.content.conditions.keys(), ...this.content.controls.keys()].filter((name) => names.has(name));
  }

  /** The values of all conditions; numbers by every threshold that anything in the content compares them with. */
  #collectValues(): void {
    const { conditions, items, never, signals, claims } = this.content;
    const texts = [...never, ...signals.values(), ...claims.map((claim) => claim.holds)];
    const read = texts.flatMap((text) => mentions(this.content, text));
    for (const item of items.values()) {
      for (const attribute of item.attributes.keys())
        read.push(...mentionsOfAttribute(this.content, item.id, attribute));
    }
    for (const [id, condition] of conditions) {
      const thresholds = read.flatMap(({ name, threshold }) =>
        name === id && threshold !== undefined ? [threshold] : [],
      );
      this.#values.set(
        id,
        condition.number ? representatives(condition.number, thresholds) : [...condition.values.keys()],
      );
    }
  }

  /** The `never` expressions, those that share a variable together, so that each group can be completed by itself. */
  #groupNevers(): { variables: string[]; rules: string[] }[] {
    let groups: { variables: string[]; rules: string[] }[] = [];
    for (const text of this.content.never) {
      const variables = [...this.variablesOf(text)];
      const touched = groups.filter((group) => group.variables.some((name) => variables.includes(name)));
      groups = groups.filter((group) => !touched.includes(group));
      groups.push({
        variables: [...new Set([...touched.flatMap((group) => group.variables), ...variables])],
        rules: [...touched.flatMap((group) => group.rules), text],
      });
    }
    return groups;
  }

  #possibleIn(fit: Fit, at: number): readonly Case[] {
    const id = `${fit.id} ${at}`;
    const known = this.#possible.get(id);
    if (known) return known;
    const { variables, rules } = this.#neverGroups[at]!;
    const names = variables.filter((name) => this.valuesOn(fit, name).length > 0);
    const possible = [
      ...filter(this.#product(fit, names), (given) => rules.every((rule) => !this.evaluate(fit, rule, given))),
    ];
    this.#possible.set(id, possible);
    return possible;
  }

  *#product(fit: Fit, names: readonly string[]): Iterable<Case> {
    const [name, ...others] = names;
    if (name === undefined) {
      yield {};
      return;
    }
    for (const value of this.valuesOn(fit, name)) {
      for (const rest of this.#product(fit, others)) yield { [name]: value, ...rest };
    }
  }

  readonly #algebra: Algebra<Truth> = {
    constant: (value) => () => value,
    not: (a) => (fit, given) => !a(fit, given),
    and: (a, b) => (fit, given) => a(fit, given) && b(fit, given),
    or: (a, b) => (fit, given) => a(fit, given) || b(fit, given),
    implies: (a, b) => (fit, given) => !a(fit, given) || b(fit, given),
    among: (name, attribute, values) => (fit, given) => {
      const value = this.#valueOf(fit, name, attribute, given);
      return typeof value === 'string' && values.includes(value);
    },
    compare: (name, by, limit) => (_, given) => compares(this.#given(given, name), by, limit),
    fitted: (name, position) => (fit) => this.isFitted(fit, name, position),
    signal: (name) => (fit, given) => this.evaluate(fit, this.content.signals.get(name)!, given),
  };

  /** An item or a control that isn't fitted has no value, so that no comparison with it is true. */
  #valueOf(fit: Fit, name: string, attribute: string | undefined, given: Case): Outcome | undefined {
    if (this.content.options.has(name)) return fit.options[name];
    const item = this.content.items.get(name);
    if (item) return this.state(fit, name, attribute ?? [...item.attributes.keys()][0]!, given);
    if (this.content.controls.has(name) && !this.isFitted(fit, name)) return undefined;
    return this.#given(given, name);
  }

  #given(given: Case, name: string): string {
    const value = given[name];
    if (value === undefined) throw new Error(`the case says nothing of ${name}`);
    return value;
  }
}

function keyOf(given: Case, names: readonly string[]): string {
  return names.map((name) => `${name}=${given[name] ?? 'absent'}`).join(' ');
}

function* filter<T>(values: Iterable<T>, keep: (value: T) => boolean): Iterable<T> {
  for (const value of values) if (keep(value)) yield value;
}
