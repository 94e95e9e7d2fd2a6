/** The fits that the aircraft of the book have, on its date and after each later change. */
import type { Expression } from '../language/index.ts';
import type { Aircraft, Constraint, Option } from './fleet.ts';
import { constraintExpression, type FitValues, holdsOnFit, possibleFit } from './possible-fits.ts';

/** An aircraft on which something holds. */
export interface Witness {
  readonly aircraft: string;
  /** The day from which it is so; absent where it is so on the date of the book. */
  readonly date?: string;
  /** Whether it hangs on options that nobody knows. */
  readonly unknown: boolean;
}

interface KnownFit {
  readonly registration: string;
  readonly date?: string;
  readonly values: FitValues;
}

export class KnownFits {
  readonly #options: readonly Option[];
  readonly #permitted: readonly Expression[];
  /** Each once. */
  readonly #fits: readonly KnownFit[];

  constructor(aircraft: readonly Aircraft[], options: readonly Option[], constraints: readonly Constraint[]) {
    this.#options = options;
    this.#permitted = constraints.map(constraintExpression);
    const found = new Map<string, KnownFit>();
    for (const each of aircraft.flatMap(fitsOf)) {
      const key = options.map(({ id }) => each.values.get(id)).join(' ');
      if (!found.has(key)) found.set(key, each);
    }
    this.#fits = [...found.values()];
  }

  /** The first aircraft on which all the expressions over options hold, or may hold; undefined if there is none. */
  witness(expressions: readonly Expression[]): Witness | undefined {
    for (const { registration, date, values } of this.#fits) {
      if (possibleFit(values, this.#options, [...this.#permitted, ...expressions]) === undefined) continue;
      const unknown = expressions.some((each) => holdsOnFit(each, values) === undefined);
      return { aircraft: registration, ...(date === undefined ? {} : { date }), unknown };
    }
    return undefined;
  }
}

/** What an aircraft is from the book's date on. */
function fitsOf({ registration, fit, changes }: Aircraft): KnownFit[] {
  const values = new Map(fit);
  let name = registration;
  const fits: KnownFit[] = [{ registration, values: fit }];
  for (const date of new Set(changes.map((change) => change.date))) {
    for (const { option, value } of changes.filter((change) => change.date === date)) {
      if (option === 'registration') name = value;
      else values.set(option, value);
    }
    fits.push({ registration: name, date, values: new Map(values) });
  }
  return fits;
}
