/**
 * An independent interpreter of the authors' rules. It judges one case at a time, straight from the content files, and
 * shares nothing with the program: what it says of a case is what the book must say.
 */
import type { ContentText } from './content.ts';
import { compares, isStep } from './decimal.ts';
import { candidatesOf, decidingOptions, type Fit, fleetOf, type OracleAircraft } from './fits.ts';
import { Likeness } from './likeness.ts';
import { type Case, Meaning, type Outcome } from './meaning.ts';
import { inputConstraints, keyOf, Possible } from './possible.ts';
import { mentions, mentionsOfAttribute, overridesOf } from './reach.ts';
import { readContent } from './read-content.ts';
import { sequenceConstraints } from './runs.ts';
import { Variables } from './variables.ts';

/**
 * What a reader can see an item be in a case, where detectors may answer either way: none where the case can't happen,
 * in the order of their names. `depends` where the aircraft that an unknown option leaves open are not the same.
 */
export interface Behaviour {
  readonly outcomes: readonly (Outcome | 'not-fitted')[];
  readonly depends: boolean;
}

/** Reads a content folder and answers for it. */
export function loadOracle(folder: string): Oracle {
  return new Oracle(readContent(folder));
}

export class Oracle {
  /** Titles, legends and words, for reading page text back. */
  readonly content: ContentText;
  readonly aircraft: readonly OracleAircraft[];
  /** Those of the book's date first. */
  readonly fits: readonly Fit[];
  readonly meaning: Meaning;
  readonly #variables: Variables;
  readonly #possible: Possible;
  readonly #extended = new Map<string, readonly string[]>();
  readonly #candidates = new Map<string, readonly Fit[]>();
  readonly #likeness: Likeness;

  constructor(content: ContentText) {
    this.content = content;
    const { aircraft, fits } = fleetOf(content);
    this.aircraft = aircraft;
    this.fits = fits;
    this.meaning = new Meaning(content);
    this.#variables = new Variables(this.meaning);
    const inputs = inputConstraints(this.meaning, this.#variables);
    const sequences = sequenceConstraints(this.meaning, this.#variables, new Possible(this.#variables, inputs));
    this.#possible = new Possible(this.#variables, [...inputs, ...sequences]);
    this.#likeness = new Likeness(this, this.#variables);
  }

  /** The fit of an aircraft by registration, both of the book's date. */
  fitOf(registration: string): Fit {
    const found = this.aircraft.find((aircraft) => aircraft.registration === registration);
    if (!found) throw new Error(`no such aircraft: ${registration}`);
    return found.fit;
  }

  /** The fits that it may be: itself, unless an option is unknown. They keep its registrations. */
  candidates(fit: Fit): readonly Fit[] {
    if (!Object.values(fit.options).includes('unknown')) return [fit];
    let found = this.#candidates.get(fit.id);
    if (!found) {
      found = candidatesOf(this.content, fit, (text, one) =>
        this.meaning.truths(text, this.meaning.at(one, {})).has(true),
      );
      if (found.length === 0) throw new Error(`no aircraft can be ${fit.id}`);
      this.#candidates.set(fit.id, found);
    }
    return found;
  }

  /**
   * Conditions, controls, lamps and sequences, in the authors' order, that the attribute reads directly or through
   * signals and items. A detector counts as its number.
   */
  variables(itemId: string, attributeId: string): readonly string[] {
    return this.extendedVariables(itemId, attributeId).filter((name) => !this.#variables.isDetector(name));
  }

  /** The same with detectors at the end. */
  extendedVariables(itemId: string, attributeId: string): readonly string[] {
    const key = `${itemId}.${attributeId}`;
    const found =
      this.#extended.get(key) ?? this.#variables.among(mentionsOfAttribute(this.content, itemId, attributeId));
    this.#extended.set(key, found);
    return found;
  }

  /** The same for an expression, with detectors. */
  variablesOf(text: string): readonly string[] {
    return this.#variables.among(mentions(this.content, text));
  }

  /** The values that a variable can have on a fit: fitted positions only; none for a control that isn't fitted. */
  valuesOn(fit: Fit, variable: string): readonly string[] {
    const candidates = this.candidates(fit);
    const [only] = candidates;
    if (only && candidates.length === 1) return this.#variables.valuesOn(only, variable);
    return [...new Set(candidates.flatMap((one) => this.#variables.valuesOn(one, variable)))];
  }

  /**
   * Every case over the variables that can happen on the fit: one that some values of the other variables complete so
   * that no `never` holds, detectors answer as they can and sequences are in modes that a run reaches. Numbers go over
   * representative steps. What isn't fitted is left out of the cases.
   */
  *cases(fit: Fit, variables: readonly string[]): Iterable<Case> {
    const candidates = this.candidates(fit);
    const seen = new Set<string>();
    for (const one of candidates) {
      for (const given of this.#possible.cases(one, variables)) {
        const key = candidates.length > 1 ? keyOf(given, variables) : '';
        if (candidates.length > 1 && seen.has(key)) continue;
        seen.add(key);
        yield given;
      }
    }
  }

  /** Whether the case, which may be partial, can happen on the fit. Its numbers may be any steps. */
  canHappen(fit: Fit, given: Case): boolean {
    return this.candidates(fit).some((one) => {
      const known = Object.entries(given).every(([variable, value]) => {
        const number = this.content.conditions.get(variable)?.number;
        return number ? isStep(number, value) : this.#variables.valuesOn(one, variable).includes(value);
      });
      return known && this.#possible.completes(one, given);
    });
  }

  /**
   * Whether one can become the other while the variables that the two cases don't name stay as they are. Detectors that
   * they don't name may answer anew where their number moves; one that they name has one actual point, so that it only
   * trips while the number moves towards it.
   */
  canChange(fit: Fit, before: Case, after: Case): boolean {
    const moved = Object.keys(after).filter((name) => before[name] !== after[name]);
    const { detectors } = this.content;
    for (const name of moved) {
      const detector = detectors.get(name);
      if (!detector) continue;
      const [from, to] = [before[detector.number], after[detector.number]];
      const towards = detector.by.startsWith('>') === (after[name] === 'yes') ? '>' : '<';
      if (from !== undefined && to !== undefined && !compares(to, towards, from)) return false;
    }
    return this.candidates(fit).some((one) => {
      if (!this.canHappen(one, before) || !this.canHappen(one, after)) return false;
      for (const others of this.#possible.cases(one, this.#possible.tiedTo(moved), before, true)) {
        const staying = Object.entries(others).filter(([name]) => !moved.includes(detectors.get(name)?.number ?? name));
        if (this.#possible.completes(one, { ...Object.fromEntries(staying), ...after })) return true;
      }
      return false;
    });
  }

  /**
   * Whether conditions, sequences and lamps in the case have their normal values, where they have one, and no control stands
   * in an abnormal position. `counterpart:POSITION` under a control's name is a position that only its counterpart has.
   * Where there is `among`, only what it names is asked.
   */
  isNormal(given: Case, among?: ReadonlySet<string>): boolean {
    return Object.entries(given).every(([variable, value]) => {
      if (among && !among.has(variable)) return true;
      if (this.#variables.isLamp(variable)) return value === 'serviceable';
      const { conditions, controls, sequences } = this.content;
      if (controls.has(variable)) {
        const [other, position] = value.includes(':') ? value.split(':') : [variable, value];
        return controls.get(other!)?.positions.get(position!)?.abnormal !== true;
      }
      const normal = (conditions.get(variable) ?? sequences.get(variable))?.normal;
      return normal === undefined || normal === value;
    });
  }

  /** Whether a control, item, sequence or sound is fitted; with a position, whether the control has it. */
  isFitted(fit: Fit, id: string, position?: string): boolean {
    const fitted = this.candidates(fit).some((one) => this.meaning.isFitted(one, id));
    return fitted && (position === undefined || this.valuesOn(fit, id).includes(position));
  }

  /** What the rules make of the extended case, by their hit policy, and of overrides above them. */
  state(fit: Fit, itemId: string, attributeId: string, given: Case): Outcome | 'not-fitted' {
    const all = this.candidates(fit).map((one) =>
      this.meaning.isFitted(one, itemId)
        ? this.meaning.outcome(itemId, attributeId, this.meaning.at(one, given))
        : 'not-fitted',
    );
    const [first, ...others] = distinct(all);
    return others.length === 0 ? first! : { depends: [first!, ...others] };
  }

  /** What can be seen in a case, which need not say anything of detectors, nor of variables that don't matter. */
  behaviour(fit: Fit, itemId: string, attributeId: string, given: Case): Behaviour {
    const all = this.byCandidate(fit, itemId, attributeId, given).map(({ outcomes }) => outcomes);
    const depends = new Set(all.map((outcomes) => JSON.stringify(outcomes))).size > 1;
    return { outcomes: distinct(all.flat()), depends };
  }

  /**
   * The same for each fit that an unknown option leaves open. There the case must be whole but for the detectors: a
   * variable that it leaves out is one that isn't fitted.
   */
  byCandidate(fit: Fit, itemId: string, attributeId: string, given: Case) {
    const names = this.extendedVariables(itemId, attributeId);
    const candidates = this.candidates(fit);
    return candidates.map((one): { fit: Fit; outcomes: readonly (Outcome | 'not-fitted')[] } => {
      const lacking = names.some(
        (name) =>
          given[name] === undefined &&
          !this.#variables.isDetector(name) &&
          this.#variables.valuesOn(one, name).length > 0,
      );
      // Lamps of what isn't fitted are nowhere to be seen.
      const there = Object.entries(given).filter(
        ([name]) => !this.#variables.isLamp(name) || this.#variables.valuesOn(one, name).length > 0,
      );
      if ((lacking && candidates.length > 1) || !this.canHappen(one, Object.fromEntries(there)))
        return { fit: one, outcomes: [] };
      if (!this.meaning.isFitted(one, itemId)) return { fit: one, outcomes: ['not-fitted'] };
      const outcomes = [...this.#possible.cases(one, names, given)].map((full) =>
        this.meaning.outcome(itemId, attributeId, this.meaning.at(one, { ...given, ...full })),
      );
      return { fit: one, outcomes: distinct(outcomes) };
    });
  }

  /**
   * The unknown options on which it depends what an item is in a case: one by itself, where changing it alone makes a
   * difference between what the aircraft may be; all, where they only differ together. Empty where nothing depends.
   */
  dependsOn(fit: Fit, itemId: string, attributeId: string, given: Case): readonly string[] {
    return decidingOptions(
      this.byCandidate(fit, itemId, attributeId, given).map((one) => ({
        options: one.fit.options,
        seen: JSON.stringify(one.outcomes),
      })),
    );
  }

  /** What stands on an item or, with a position, on the panel beside it: several where it isn't known which. */
  legendsOn(fit: Fit, id: string, position?: string): readonly string[] {
    const item = this.content.items.get(id);
    const found = position === undefined ? item : this.content.controls.get(id)?.positions.get(position);
    if (!found) throw new Error(`nothing has such a legend: ${id} ${position ?? ''}`);
    const legends = this.candidates(fit).flatMap((one) => {
      const first = found.legends.find(({ when }) => this.meaning.truths(when, this.meaning.at(one, {})).has(true));
      return first?.legend ?? found.legend ?? [];
    });
    return [...new Set(legends)];
  }

  /** Whether the expression holds in the extended case. Throws where it reads a variable that the case leaves open. */
  evaluate(fit: Fit, text: string, given: Case): boolean {
    return this.candidates(fit).every((one) => !this.meaning.truths(text, this.meaning.at(one, given)).has(false));
  }

  /**
   * A fit and an extended case that can happen in which the expression is false, under some answer to what is not
   * stated; undefined when it holds everywhere.
   */
  counterexample(text: string): { readonly fit: Fit; readonly given: Case } | undefined {
    const variables = this.variablesOf(text);
    for (const fit of this.fits.flatMap((one) => this.candidates(one))) {
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
   * changing that one value alone, whether or not both cases can happen, changes what the rules say. A detector that
   * matters counts as its number.
   */
  ownVariables(itemId: string, attributeId: string, fits: readonly Fit[] = this.fits): readonly string[] {
    return this.#likeness.ownVariables(itemId, attributeId, fits);
  }

  /**
   * Whether two fits are alike on the attribute: the same cases over its own variables, the same states in each.
   * Counterparts count as one control.
   */
  alike(itemId: string, attributeId: string, a: Fit, b: Fit): boolean {
    return this.#likeness.alike(itemId, attributeId, a, b);
  }

  /** Overrides that break a rule of the attribute that holds in every case, each with a case that shows it. */
  brokenRules(fit: Fit, itemId: string, attributeId: string) {
    const item = this.content.items.get(itemId)!;
    const broken = new Map<string, { readonly override: string; readonly rule: number; readonly given: Case }>();
    for (const one of this.candidates(fit).filter((each) => this.meaning.isFitted(each, itemId))) {
      for (const given of this.cases(one, this.extendedVariables(itemId, attributeId))) {
        const at = this.meaning.at(one, given);
        const override = overridesOf(this.content, item, attributeId).find(({ when }) =>
          this.meaning.truths(when, at).has(true),
        );
        for (const [rule, { inEveryCase, when, state }] of item.attributes.get(attributeId)!.rules.entries()) {
          if (!override || !inEveryCase || override.state === state) continue;
          if (!this.meaning.truths(when ?? 'always', at).has(true)) continue;
          const key = `${override.id} ${rule}`;
          if (!broken.has(key)) broken.set(key, { override: override.id, rule, given });
        }
      }
    }
    return [...broken.values()];
  }
}

/** Each outcome once, in the order of their names. */
function distinct(outcomes: readonly (Outcome | 'not-fitted')[]): readonly (Outcome | 'not-fitted')[] {
  const found = new Map(outcomes.map((outcome) => [JSON.stringify(outcome), outcome]));
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, outcome]) => outcome);
}
