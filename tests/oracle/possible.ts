/** Which extended cases can happen: constraints over variables, and a search for values that fulfil them. */

import { compares } from './decimal.ts';
import type { Fit } from './fits.ts';
import type { Case, Meaning } from './meaning.ts';
import { mentions } from './reach.ts';
import type { Variables } from './variables.ts';

/** Something that every case fulfils. It is judged once all of its variables that the fit has are given. */
export interface Constraint {
  readonly variables: readonly string[];
  readonly allows: (fit: Fit, given: Case) => boolean;
}

/** No `never` holds, detectors answer as their numbers permit, and trip in order. */
export function inputConstraints(meaning: Meaning, variables: Variables): Constraint[] {
  const { content } = meaning;
  const constraints: Constraint[] = content.never.map((text) => ({
    variables: variables.among(mentions(content, text, false, false)),
    allows: (fit, given) => !meaning.truths(text, meaning.at(fit, given)).has(true),
  }));
  for (const { id, number, by, low, high } of content.detectors.values()) {
    constraints.push({
      variables: [number, id],
      allows: (_, given) => {
        const value = given[number]!;
        // x > a: never where x <= a - t, surely where x > a + t. Downwards the ends change places.
        const upwards = by.startsWith('>');
        if (compares(value, by, upwards ? high : low)) return given[id] === 'yes';
        return compares(value, by, upwards ? low : high) || given[id] === 'no';
      },
    });
  }
  for (const order of content.inOrder) {
    for (const [at, later] of order.slice(1).entries()) {
      const earlier = order[at]!;
      constraints.push({
        variables: [earlier, later],
        allows: (_, given) => given[later] === 'no' || given[earlier] === 'yes',
      });
    }
  }
  return constraints;
}

/** How many values a search may try before it gives up, loudly. */
const PATIENCE = 20_000_000;

interface Group {
  readonly variables: readonly string[];
  readonly constraints: readonly Constraint[];
}

export class Possible {
  readonly #variables: Variables;
  readonly #groups: readonly Group[];
  readonly #known = new Map<string, boolean>();
  #tried = 0;

  constructor(variables: Variables, constraints: readonly Constraint[]) {
    this.#variables = variables;
    this.#groups = grouped(constraints);
  }

  /** Whether some values of the other variables complete the case. */
  completes(fit: Fit, given: Case): boolean {
    return this.#groups.every((_, at) => this.#groupCompletes(fit, at, given));
  }

  /** The variables that constraints tie to the named ones, directly or by others between. */
  tiedTo(names: readonly string[]): readonly string[] {
    const groups = this.#groups.filter(({ variables }) => variables.some((name) => names.includes(name)));
    return groups.flatMap(({ variables }) => variables);
  }

  /** Every combination of values of the names that, with what is fixed, some values of the others complete. */
  *cases(fit: Fit, names: readonly string[], fixed: Case = {}, cells = false): Iterable<Case> {
    const open = names.filter((name) => fixed[name] === undefined && this.#valuesOn(fit, name, cells).length > 0);
    // A group is judged as soon as the last of its open names has its value.
    const due = this.#groups.map(({ variables }) => open.findLastIndex((name) => variables.includes(name)));
    yield* this.#assigned(fit, open, 0, fixed, { due, cells, names, count: { tried: 0 } });
  }

  *#assigned(
    fit: Fit,
    open: readonly string[],
    at: number,
    given: Case,
    how: {
      readonly due: readonly number[];
      readonly cells: boolean;
      readonly names: readonly string[];
      readonly count: { tried: number };
    },
  ): Iterable<Case> {
    if (++how.count.tried > PATIENCE) throw new Error(`too many cases to try: ${open.join(', ')}`);
    for (const [group, last] of how.due.entries()) {
      if (last === at - 1 && !this.#groupCompletes(fit, group, given)) return;
    }
    const name = open[at];
    if (name === undefined) {
      yield Object.fromEntries(how.names.flatMap((each) => (given[each] === undefined ? [] : [[each, given[each]]])));
      return;
    }
    for (const value of this.#valuesOn(fit, name, how.cells))
      yield* this.#assigned(fit, open, at + 1, { ...given, [name]: value }, how);
  }

  #valuesOn(fit: Fit, name: string, cells: boolean): readonly string[] {
    return cells ? this.#variables.cellsOn(fit, name) : this.#variables.valuesOn(fit, name);
  }

  #groupCompletes(fit: Fit, at: number, given: Case): boolean {
    const { variables, constraints } = this.#groups[at]!;
    const key = `${fit.id} ${at} ${keyOf(given, variables)}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const fitted = new Set(variables.filter((name) => this.#variables.valuesOn(fit, name).length > 0));
    const own = constraints.map(({ variables: read, allows }) => ({
      read: read.filter((name) => fitted.has(name)),
      allows,
    }));
    this.#tried = 0;
    const start = Object.fromEntries(
      [...fitted].flatMap((name) => (given[name] === undefined ? [] : [[name, given[name]]])),
    );
    const begun = own.every(({ read, allows }) => read.some((name) => start[name] === undefined) || allows(fit, start));
    const open = [...fitted].filter((name) => start[name] === undefined);
    const result = begun && this.#search(fit, own, open, start);
    this.#known.set(key, result);
    return result;
  }

  #search(
    fit: Fit,
    constraints: readonly { readonly read: readonly string[]; readonly allows: Constraint['allows'] }[],
    open: readonly string[],
    given: Case,
  ): boolean {
    const [name, ...others] = open;
    if (name === undefined) return true;
    for (const value of this.#variables.cellsOn(fit, name)) {
      if (++this.#tried > PATIENCE) throw new Error(`too many cases to try: ${open.join(', ')}`);
      const next = { ...given, [name]: value };
      const fine = constraints.every(
        ({ read, allows }) =>
          !read.includes(name) || read.some((each) => next[each] === undefined) || allows(fit, next),
      );
      if (fine && this.#search(fit, constraints, others, next)) return true;
    }
    return false;
  }
}

/** Constraints that share a variable together, so that each group can be completed by itself. */
function grouped(constraints: readonly Constraint[]): Group[] {
  let groups: Group[] = [];
  for (const constraint of constraints) {
    const touched = groups.filter(({ variables }) => variables.some((name) => constraint.variables.includes(name)));
    groups = groups.filter((group) => !touched.includes(group));
    groups.push({
      variables: [...new Set([...touched.flatMap((group) => group.variables), ...constraint.variables])],
      constraints: [...touched.flatMap((group) => group.constraints), constraint],
    });
  }
  return groups;
}

/** The values of the names as text, to compare cases by. */
export function keyOf(given: Case, names: readonly string[]): string {
  return names.map((name) => `${name}=${given[name] ?? 'absent'}`).join(' ');
}
