/** What a content of the scale family means, case by case, straight from the formulas that its files were written from. */
import { chooser, type Random } from './random-numbers.ts';
import { type Fitted, type Formula, NUMBER_TO, type ScaleContent, type ScaleItem, TOLERANCE } from './scale-content.ts';

/** A value for each condition, detector and fitted control of one aircraft; numbers as digits, a detector's answer yes or no. */
export type ScaleCase = ReadonlyMap<string, string>;
type Fit = ReadonlyMap<string, string>;

export class ScaleInterpreter {
  readonly #content: ScaleContent;
  readonly #items: ReadonlyMap<string, ScaleItem>;

  constructor(content: ScaleContent) {
    this.#content = content;
    this.#items = new Map(content.items.map((item) => [item.id, item]));
  }

  /** The state of an item; undefined where it is not fitted. */
  state(item: ScaleItem, fit: Fit, given: ScaleCase): string | undefined {
    if (!isFitted(item.fitted, fit)) return undefined;
    const above = this.#content.overrides.find(
      ({ kind, zone, when }) => (kind === item.kind || zone === item.zone) && this.holds(when, fit, given),
    );
    if (above) return above.then;
    return item.rules.find(({ when }) => this.holds(when, fit, given))?.then ?? item.otherwise;
  }

  holds(formula: Formula, fit: Fit, given: ScaleCase): boolean {
    switch (formula.op) {
      case 'is':
        return formula.values.includes(given.get(formula.id) ?? '');
      case 'above':
        return Number(given.get(formula.id)) > formula.value;
      case 'trips':
        return given.get(formula.id) === 'yes';
      case 'state': {
        const other = this.#items.get(formula.item);
        return other !== undefined && this.state(other, fit, given) === formula.state;
      }
      case 'not':
        return !this.holds(formula.of, fit, given);
      case 'all':
        return formula.of.every((each) => this.holds(each, fit, given));
      case 'some':
        return formula.of.some((each) => this.holds(each, fit, given));
    }
  }

  /** The states that readers see in a case that can happen: over all answers that the detectors may give, which no `never` reads. */
  behaviour(item: ScaleItem, fit: Fit, given: ScaleCase): readonly string[] {
    const states = this.#answers(given).map((answered) => this.state(item, fit, answered) ?? 'not fitted');
    return [...new Set(states)].sort();
  }

  /** A case of an aircraft of the fit, which may be one that cannot happen: a detector may be wrong now and then. */
  randomCase(fit: Fit, draw: Random): ScaleCase {
    const { pick, below, chance } = chooser(draw);
    const { controls, conditions, detectors } = this.#content;
    const given = new Map<string, string>();
    for (const { id, fitted, positions } of controls) {
      const here = positions.filter((position) => isFitted(position.fitted, fit));
      if (isFitted(fitted, fit)) given.set(id, pick(here).id);
    }
    for (const { id, values } of conditions) {
      given.set(id, values.length > 0 ? pick(values) : String(10 * below(NUMBER_TO / 10 + 1)));
    }
    for (const { id, number, above } of detectors) {
      const value = Number(given.get(number));
      const certain = Math.abs(value - above) > TOLERANCE && chance(0.95);
      given.set(id, certain ? yesNo(value > above) : yesNo(chance(0.5)));
    }
    return given;
  }

  /** Whether it can happen: no `never` holds, and detectors answer as their numbers have it outside of their tolerance. */
  canHappen(fit: Fit, given: ScaleCase): boolean {
    const { never, detectors } = this.#content;
    return (
      !never.some((formula) => this.holds(formula, fit, given)) &&
      detectors.every(({ id, number, above }) => {
        const value = Number(given.get(number));
        const trips = given.get(id) === 'yes';
        return trips ? value > above - TOLERANCE : value <= above + TOLERANCE;
      })
    );
  }

  #answers(given: ScaleCase): ScaleCase[] {
    return this.#content.detectors.reduce<ScaleCase[]>(
      (cases, { id, number, above }) => {
        const value = Number(given.get(number));
        if (!(value > above - TOLERANCE && value <= above + TOLERANCE)) return cases;
        return cases.flatMap((each) => ['yes', 'no'].map((answer) => new Map([...each, [id, answer]])));
      },
      [given],
    );
  }
}

export function isFitted(fitted: Fitted, fit: Fit): boolean {
  return fitted === undefined || fit.get(fitted.option) === fitted.value;
}

function yesNo(holds: boolean): string {
  return holds ? 'yes' : 'no';
}
