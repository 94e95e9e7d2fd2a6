/**
 * The normal forms by brute force, as fast as that honestly goes: bit sets over the variables that an item reads and no
 * others, numbers cut by its own thresholds only, fits that an item can't tell apart done once, and what can happen
 * projected part by part.
 */
import { areSame, BitSpace, type Bits, type Column } from './bit-sets.ts';
import { type Component, componentsOn, impossibleSettings } from './components.ts';
import { type Formula, fixed, type Item, type Problem, readBy } from './problem.ts';

/** By outcome, the cases that can happen and have it. Forms of one item stand over the same columns. */
export type BitForm = readonly Bits[];

/** The form on every fit that does not have the item. */
const NOWHERE: BitForm = [];

interface Variant {
  readonly fits: readonly number[];
  readonly components: readonly Component[];
  /** The constraints of these on one variable by itself. */
  readonly alone: readonly Formula[];
}

export class BruteForce {
  readonly #problem: Problem;
  readonly #components: readonly (readonly Component[])[];
  readonly #impossible = new Map<string, number[][]>();
  /** By number, the literals of all constraints. */
  readonly #constraintLiterals: ReadonlyMap<number, readonly (readonly number[])[]>;
  readonly #outcomes: number;

  constructor(problem: Problem) {
    this.#problem = problem;
    this.#components = problem.fits.map((_, fit) => componentsOn(problem, fit));
    this.#constraintLiterals = literalsIn(problem.constraints);
    const all = problem.items.flatMap(({ rules, otherwise }) => [otherwise, ...rules.map(({ then }) => then)]);
    this.#outcomes = 1 + Math.max(...all);
  }

  /** By item, then by fit: two fits are alike on the item when these are the same. */
  all(): BitForm[][] {
    return this.#problem.items.map((item) => this.forms(item));
  }

  /** By item and outcome, the cases of all that the item reads, options too, whatever can happen. */
  items(): Bits[][] {
    return this.#problem.items.map((item) => {
      const read = readBy(item.rules.map(({ when }) => when));
      return this.#outcomesIn(new BitSpace(this.#columns(item, read)), item, () => undefined);
    });
  }

  /** By fit; of some fits only where `among` names them. */
  forms(item: Item, among = this.#problem.fits.map((_, fit) => fit)): BitForm[] {
    const read = readBy(item.rules.map(({ when }) => when));
    const others = read.filter((variable) => variable >= this.#problem.options);
    const variants = this.#variants(read, others, among);
    const columns = this.#columns(item, others);
    const space = new BitSpace(columns);
    const raw = variants.map((variant) => this.#outcomesIn(space, item, this.#optionsOf(variant)));
    const own = columns.filter((column) =>
      variants.some((variant, at) => this.#matters(space, raw[at] as Bits[], column, variant)),
    );
    const ownSpace = own.length === columns.length ? space : new BitSpace(own);
    const forms: BitForm[] = [];
    const { missing } = this.#problem;
    variants.forEach((variant, at) => {
      const unmasked =
        ownSpace === space ? (raw[at] as Bits[]) : this.#outcomesIn(ownSpace, item, this.#somewhere(own, variant));
      const possible = this.#possible(ownSpace, variant);
      const form = unmasked.map((bits) => bits.map((word, index) => word & (possible[index] as number)));
      const isMissing = form.every((bits, outcome) => outcome === missing || bits.every((word) => word === 0));
      for (const fit of variant.fits) forms[fit] = isMissing ? NOWHERE : form;
    });
    return among.map((fit) => forms[fit] as BitForm);
  }

  #variants(read: readonly number[], others: readonly number[], among: readonly number[]): Variant[] {
    const found = new Map<string, { fits: number[]; components: readonly Component[] }>();
    for (const fit of among) {
      const touched = (this.#components[fit] as Component[]).filter(({ variables }) =>
        variables.some((variable) => others.includes(variable)),
      );
      const values = read.slice(0, read.length - others.length).map((option) => this.#problem.fits[fit]?.[option]);
      const key = [...values, ...touched.map((component) => component.key)].join(' ');
      const known = found.get(key);
      if (known) known.fits.push(fit);
      else found.set(key, { fits: [fit], components: touched });
    }
    return [...found.values()].map((variant) => ({
      ...variant,
      alone: variant.components
        .flatMap(({ constraints }) => constraints)
        .filter((constraint) => readBy([constraint]).length === 1),
    }));
  }

  /** Numbers are cut where the item or a constraint tells their cells apart. */
  #columns(item: Item, variables: readonly number[]): Column[] {
    const own = literalsIn(item.rules.map(({ when }) => when));
    return variables.map((variable) => {
      const { size, isNumber } = this.#problem.variables[variable] as Problem['variables'][number];
      if (!isNumber) return { variable, size };
      const literals = [...(own.get(variable) ?? []), ...(this.#constraintLiterals.get(variable) ?? [])];
      const cells = new Map<string, number>();
      const cellOf = Array.from({ length: size }, (_, value) => {
        const told = literals.map((values) => Number(values.includes(value))).join('');
        if (!cells.has(told)) cells.set(told, cells.size);
        return cells.get(told) as number;
      });
      return { variable, size: cells.size, cellOf };
    });
  }

  /** By outcome, the cases that the rules give it, whether they can happen or not. */
  #outcomesIn(space: BitSpace, item: Item, known: (variable: number) => number | undefined): Bits[] {
    const sets = Array.from({ length: this.#outcomes }, () => space.none());
    const rest = space.all();
    for (const { when, then } of item.rules) {
      const here = fixed(when, known);
      if (here === false) continue;
      const set = sets[then] as Bits;
      if (here === true) {
        for (let at = 0; at < rest.length; at += 1) set[at]! |= rest[at]!;
        return sets;
      }
      const bits = space.where(here);
      for (let at = 0; at < rest.length; at += 1) {
        set[at]! |= rest[at]! & bits[at]!;
        rest[at]! &= ~bits[at]!;
      }
    }
    const set = sets[item.otherwise] as Bits;
    for (let at = 0; at < rest.length; at += 1) set[at]! |= rest[at]!;
    return sets;
  }

  /** Whether settings of one column that the fit has give different outcomes in settings of the others that it has. */
  #matters(space: BitSpace, sets: readonly Bits[], column: Column, variant: Variant): boolean {
    const inSpace = space.columns.map(({ variable }) => variable);
    const allowed = space.all();
    for (const constraint of variant.alone) {
      if (inSpace.includes(readBy([constraint])[0] as number)) and(allowed, space.where(constraint));
    }
    space.clean(allowed);
    const stride = space.strides[space.columns.indexOf(column)] as number;
    const here = this.#settings(column, variant);
    const [first, ...others] = here.map(({ value, cell }) => ({ cell, bits: space.literal(column.variable, [value]) }));
    if (!first) return false;
    return sets.some((set) => {
      const base = intersection(set, allowed, first.bits);
      return others.some(({ cell, bits }) => {
        const moved = shiftedDown(intersection(set, allowed, bits), (cell - first.cell) * stride);
        return !areSame(base, moved);
      });
    });
  }

  /** One value for each cell of a column that the fit has by itself. */
  #settings({ variable, cellOf }: Column, { alone }: Variant): { value: number; cell: number }[] {
    const constraints = alone.filter((constraint) => readBy([constraint])[0] === variable);
    const here = { key: `${variable} ${JSON.stringify(constraints)}`, variables: [variable], constraints };
    const gone = constraints.length > 0 ? this.#impossibleSettings(here, [variable]).map(([value]) => value) : [];
    const { size } = this.#problem.variables[variable] as { size: number };
    const cells = new Map<number, number>();
    for (let value = 0; value < size; value += 1) {
      const cell = cellOf ? (cellOf[value] as number) : value;
      if (!gone.includes(value) && !cells.has(cell)) cells.set(cell, value);
    }
    return [...cells].map(([cell, value]) => ({ cell, value }));
  }

  #optionsOf({ fits }: Variant): (variable: number) => number | undefined {
    const options = this.#problem.fits[fits[0] as number] as readonly number[];
    return (variable) => options[variable];
  }

  /** The options, and for other variables without a column some value that the fit has. */
  #somewhere(own: readonly Column[], variant: Variant): (variable: number) => number | undefined {
    const options = this.#optionsOf(variant);
    const kept = new Set(own.map(({ variable }) => variable));
    return (variable) => {
      const option = options(variable);
      if (option !== undefined || kept.has(variable)) return option;
      const { size } = this.#problem.variables[variable] as { size: number };
      return this.#settings({ variable, size }, variant)[0]?.value;
    };
  }

  /** What can happen, said of the columns. */
  #possible(space: BitSpace, { components }: Variant): Bits {
    const possible = space.all();
    const inSpace = space.columns.map(({ variable }) => variable);
    for (const component of components) {
      const kept = component.variables.filter((variable) => inSpace.includes(variable));
      if (kept.length === 0) continue;
      for (const setting of this.#impossibleSettings(component, kept)) {
        const cube = setting.map((value, at) => space.literal(kept[at] as number, [value]));
        for (let at = 0; at < possible.length; at += 1) {
          possible[at]! &= ~cube.reduce((word, bits) => word & bits[at]!, -1);
        }
      }
    }
    return space.clean(possible);
  }

  #impossibleSettings(component: Component, kept: readonly number[]): number[][] {
    const key = `${kept.join(' ')} ${component.key}`;
    const known = this.#impossible.get(key);
    if (known) return known;
    const found = impossibleSettings(this.#problem, component, kept);
    this.#impossible.set(key, found);
    return found;
  }
}

export function areAlike(a: BitForm, b: BitForm): boolean {
  return a === b || (a.length === b.length && a.every((bits, outcome) => areSame(bits, b[outcome] as Bits)));
}

function and(bits: Bits, others: Bits): void {
  for (let at = 0; at < bits.length; at += 1) bits[at]! &= others[at]!;
}

function intersection(a: Bits, b: Bits, c: Bits): Bits {
  const result = new Int32Array(a.length);
  for (let at = 0; at < a.length; at += 1) result[at] = a[at]! & b[at]! & c[at]!;
  return result;
}

/** Bit `at` becomes bit `at - by`. */
function shiftedDown(bits: Bits, by: number): Bits {
  const [words, rest] = [by >> 5, by & 31];
  const result = new Int32Array(bits.length);
  for (let at = 0; at + words < bits.length; at += 1) {
    const low = bits[at + words]! >>> rest;
    result[at] = rest === 0 ? low : low | ((bits[at + words + 1] ?? 0) << (32 - rest));
  }
  return result;
}

/** By variable, the sets of values that it is asked for. */
function literalsIn(formulas: readonly Formula[]): Map<number, (readonly number[])[]> {
  const found = new Map<number, (readonly number[])[]>();
  const visit = (formula: Formula): void => {
    if (formula.op === 'in') found.set(formula.variable, [...(found.get(formula.variable) ?? []), formula.values]);
    else if (formula.op === 'not') visit(formula.of);
    else formula.of.forEach(visit);
  };
  formulas.forEach(visit);
  return found;
}
