/** Makes a family small while something about it stays true, part after part, so that a person can read what is left. */
import { ALWAYS, type Family, type Formula, NEVER } from './family.ts';

/** A solver answers later. */
type Fails = (smaller: Family) => boolean | Promise<boolean>;

/**
 * The smallest family found from one: no single definition, rule, aircraft, condition of a rule or optional property can be
 * taken away from it any more. `fails` holds for `family`; where a part is taken away that something else needs, the content
 * is not sound, and `fails` should say no.
 */
export async function shrunk(family: Family, fails: Fails): Promise<Family> {
  let least = family;
  for (;;) {
    const smaller = await firstSmaller(least, fails);
    if (!smaller) return least;
    least = smaller;
  }
}

async function firstSmaller(family: Family, fails: Fails): Promise<Family | undefined> {
  for (const smaller of smallerOnes(family)) if (await fails(smaller)) return smaller;
  return undefined;
}

/** Families with one thing less, the large things first. */
function* smallerOnes(family: Family): Generator<Family> {
  const lists = ['items', 'overrides', 'claims', 'aircraft', 'changes', 'latches', 'signals', 'never'] as const;
  const definitions = ['detectors', 'inOrder', 'controls', 'conditions', 'numbers', 'options'] as const;
  for (const key of [...lists, ...definitions]) {
    for (const [at, part] of family[key].entries()) {
      const rest = { ...family, [key]: family[key].filter((_, place) => place !== at) } as Family;
      const id = 'id' in part ? part.id : undefined;
      if (id === undefined) yield rest;
      else for (const instead of [NEVER, ALWAYS]) yield withoutAtoms(rest, id, instead);
    }
  }
  yield* within(family);
}

/** The family without what reads an id: atoms become constants. */
function withoutAtoms(family: Family, id: string, instead: Formula): Family {
  const cut = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(cut);
    if (typeof value !== 'object' || value === null) return value;
    if ('atom' in value && 'reads' in value) return (value as { reads: string[] }).reads.includes(id) ? instead : value;
    const kept = Object.entries(value).filter(
      ([key, each]) => !(['counterpart', 'supply', 'control'].includes(key) && each === id),
    );
    return Object.fromEntries(kept.map(([key, each]) => [key, cut(each)]));
  };
  const rest = cut(family) as Family;
  return {
    ...rest,
    inOrder: rest.inOrder.filter((ids) => !ids.includes(id)),
    changes: rest.changes.filter(({ option }) => option !== id),
  };
}

/** Each way to make one thing inside of a value smaller: an element or optional property gone, a formula simpler. */
function* within<T>(value: T): Generator<T> {
  if (Array.isArray(value)) {
    for (const [at, each] of value.entries()) {
      if (typeof each === 'object' || value.length > 1) yield value.filter((_, place) => place !== at) as T;
      for (const smaller of within(each)) yield value.map((old, place) => (place === at ? smaller : old)) as T;
    }
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  if (isFormula(value)) yield* simpler(value) as Generator<T>;
  for (const [key, each] of Object.entries(value)) {
    if (OPTIONAL.has(key)) yield Object.fromEntries(Object.entries(value).filter(([other]) => other !== key)) as T;
    if (key === 'quiet' && each === true) yield { ...value, quiet: false };
    if (!isFormula(value)) for (const smaller of within(each)) yield { ...value, [key]: smaller };
  }
}

const OPTIONAL = new Set([
  'requires',
  'fitted',
  'counterpart',
  'as',
  'returns',
  'abnormal',
  'normal',
  'control',
  'supply',
  'premise',
]);

function isFormula(value: object): value is Formula {
  return 'atom' in value || 'not' in value || 'all' in value || 'any' in value;
}

function* simpler(formula: Formula): Generator<Formula> {
  if ('atom' in formula) {
    if (formula.reads.length > 0) yield* [NEVER, ALWAYS];
    return;
  }
  if ('not' in formula) {
    yield formula.not;
    for (const smaller of simpler(formula.not)) yield { not: smaller };
    return;
  }
  const parts = 'all' in formula ? formula.all : formula.any;
  const joined = (some: readonly Formula[]): Formula => ('all' in formula ? { all: some } : { any: some });
  yield* parts;
  for (const [at, part] of parts.entries()) {
    if (parts.length > 1) yield joined(parts.filter((_, place) => place !== at));
    for (const smaller of simpler(part)) yield joined(parts.map((old, place) => (place === at ? smaller : old)));
  }
}
