/** What an attribute depends on, and whether it is the same on two fits. The guide's own definition, case by case. */
import { decidingOptions, type Fit } from './fits.ts';
import type { Case } from './meaning.ts';
import type { Oracle } from './oracle.ts';
import { keyOf } from './possible.ts';
import type { Variables } from './variables.ts';

/** How many cases are tried for one variable before it is given up, loudly. */
const PATIENCE = 5_000_000;

export class Likeness {
  readonly #oracle: Oracle;
  readonly #variables: Variables;
  readonly #own = new Map<string, readonly string[]>();
  readonly #signatures = new Map<string, ReadonlyMap<string, string>>();

  constructor(oracle: Oracle, variables: Variables) {
    this.#oracle = oracle;
    this.#variables = variables;
  }

  /** As `Oracle.ownVariables` says. */
  ownVariables(itemId: string, attributeId: string, fits: readonly Fit[]): readonly string[] {
    const key = [`${itemId}.${attributeId}`, ...fits.map(({ id }) => id)].join(' ');
    const found = this.#own.get(key) ?? this.#findOwn(itemId, attributeId, fits);
    this.#own.set(key, found);
    return found;
  }

  /** As `Oracle.alike` says. */
  alike(itemId: string, attributeId: string, a: Fit, b: Fit): boolean {
    const [ours, theirs] = [this.#signature(itemId, attributeId, a), this.#signature(itemId, attributeId, b)];
    return ours.size === theirs.size && [...ours].every(([key, states]) => theirs.get(key) === states);
  }

  #findOwn(itemId: string, attributeId: string, fits: readonly Fit[]): readonly string[] {
    const reached = this.#oracle.extendedVariables(itemId, attributeId);
    const known = fits.flatMap((fit) => this.#oracle.candidates(fit));
    const own = reached.filter((variable) =>
      known.some((fit) => this.#matters(fit, itemId, attributeId, reached, variable)),
    );
    const names = new Set(own.map((name) => this.#oracle.content.detectors.get(name)?.number ?? name));
    return reached.filter((name) => names.has(name));
  }

  #matters(fit: Fit, itemId: string, attributeId: string, reached: readonly string[], variable: string): boolean {
    if (!this.#oracle.meaning.isFitted(fit, itemId)) return false;
    const others = reached.filter((other) => other !== variable);
    const values = this.#variables.cellsOn(fit, variable);
    const size = others.reduce((all, name) => all * Math.max(1, this.#variables.cellsOn(fit, name).length), 1);
    if (size > PATIENCE) throw new Error(`too many cases of ${itemId}.${attributeId}: ${others.join(', ')}`);
    for (const given of this.#product(fit, others)) {
      const states = values.map((value) =>
        JSON.stringify(
          this.#oracle.meaning.outcome(
            itemId,
            attributeId,
            this.#oracle.meaning.at(fit, { ...given, [variable]: value }),
          ),
        ),
      );
      if (states.some((state) => state !== states[0])) return true;
    }
    return false;
  }

  /** Each possible case over the attribute's own variables, with the outcomes that it can have. */
  #signature(itemId: string, attributeId: string, fit: Fit): ReadonlyMap<string, string> {
    const id = `${itemId}.${attributeId} ${fit.id}`;
    const known = this.#signatures.get(id);
    if (known) return known;
    const candidates = this.#oracle.candidates(fit);
    const result =
      candidates.length === 1 && candidates[0] === fit
        ? this.#ownSignature(itemId, attributeId, fit)
        : together(
            candidates.map((one) => ({ options: one.options, states: this.#signature(itemId, attributeId, one) })),
          );
    this.#signatures.set(id, result);
    return result;
  }

  #ownSignature(itemId: string, attributeId: string, fit: Fit): ReadonlyMap<string, string> {
    if (!this.#oracle.meaning.isFitted(fit, itemId)) return new Map([['not fitted', '']]);
    const sets = new Map<string, Set<string>>();
    const { controls } = this.#oracle.content;
    const reached = this.ownVariables(itemId, attributeId, this.#oracle.fits);
    const heads = reached.flatMap((name) => (controls.has(name) ? [controls.get(name)!.counterpart ?? name] : []));
    // A case says where each of the controls stands that count as one, even if the rules name only one of them.
    const sharing = [...controls.values()].filter(({ id, counterpart }) => heads.includes(counterpart ?? id));
    const own = [...new Set([...reached, ...sharing.map(({ id }) => id)])];
    const names = [...new Set([...this.#oracle.extendedVariables(itemId, attributeId), ...own])];
    for (const given of this.#oracle.cases(fit, names)) {
      const key = this.#compared(given, own);
      const set = sets.get(key) ?? new Set();
      set.add(JSON.stringify(this.#oracle.meaning.outcome(itemId, attributeId, this.#oracle.meaning.at(fit, given))));
      sets.set(key, set);
    }
    return new Map([...sets].map(([key, set]) => [key, [...set].sort().join(' ')]));
  }

  /** The case as it is compared with those of other fits: a counterpart under the other control's name. */
  #compared(given: Case, own: readonly string[]): string {
    const values: Record<string, string> = {};
    const names = new Set<string>();
    for (const name of own) {
      const control = this.#oracle.content.controls.get(name);
      const other = control?.counterpart;
      names.add(other ?? name);
      const value = given[name];
      if (value === undefined) continue;
      values[other ?? name] = other === undefined ? value : (control?.positions.get(value)?.as ?? `${name}:${value}`);
    }
    return keyOf(values, [...names].sort());
  }

  *#product(fit: Fit, names: readonly string[]): Iterable<Case> {
    const [name, ...others] = names;
    if (name === undefined) {
      yield {};
      return;
    }
    const values = this.#variables.cellsOn(fit, name);
    for (const rest of this.#product(fit, others)) {
      if (values.length === 0) yield rest;
      for (const value of values) yield { [name]: value, ...rest };
    }
  }
}

/** The signature of an aircraft that may be several: what they share, and what they all say of the rest, by which options. */
function together(
  all: readonly { readonly options: Fit['options']; readonly states: ReadonlyMap<string, string> }[],
): ReadonlyMap<string, string> {
  const keys = new Set(all.flatMap(({ states }) => [...states.keys()]));
  return new Map(
    [...keys].map((key) => {
      const said = all.map(({ options, states }) => ({ options, seen: states.get(key) ?? 'cannot happen' }));
      const deciding = decidingOptions(said);
      const texts = [...new Set(said.map(({ seen }) => seen))].sort();
      return [key, deciding.length === 0 ? texts.join() : `depends on ${deciding.join()}: ${texts.join(' or ')}`];
    }),
  );
}
