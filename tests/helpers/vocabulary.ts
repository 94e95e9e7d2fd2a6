/**
 * Reads words of a page back into values, by the titles and legends of the content as the oracle knows them. Nothing here
 * comes from the program: where a page says something in other words than the author's, reading it fails.
 */
import type { Case, Fit, Oracle } from '../oracle/index.ts';
import { compares } from '../oracle/index.ts';
import { ABSENT, candidatesOf, sharedName, sharedValue, sharing } from './seen-cases.ts';

/** Says whether a value of a variable is among those that a cell or label names. */
export type Reading = (value: string) => boolean;

/** Lets every value through. */
const ANY: Reading = () => true;

/**
 * The variable of a column or question title, as words on the fits have it. Throws when the content knows none, or more than
 * one. Counterparts are one variable, titled by those that are fitted. A lamp of the item that a table is about goes by its
 * own title.
 */
export function variableTitled(
  oracle: Oracle,
  title: string,
  fits: readonly Fit[] = oracle.fits,
  about?: string,
): string {
  const own = [...(oracle.content.items.get(about ?? '')?.attributes.values() ?? [])].find(
    (each) => each.lamp && each.title.charAt(0).toUpperCase() + each.title.slice(1) === title,
  );
  if (own) return `${about}.${own.id}`;
  const { conditions, controls, items, sequences } = oracle.content;
  const titled = [
    ...[...conditions.values(), ...sequences.values()].map((each) => [each.id, each.title] as const),
    ...[...controls.keys()]
      .filter((id) => sharedName(oracle, id) === id)
      .map((id) => [id, sharedTitle(oracle, id, fits)] as const),
    ...[...items.values()].flatMap((item) =>
      [...item.attributes.values()]
        .filter(({ lamp }) => lamp)
        .map((lamp) => [`${item.id}.${lamp.id}`, `${item.title}, ${lamp.title}`] as const),
    ),
  ];
  const ids = titled.filter(([, words]) => words === title).map(([id]) => id);
  const [only] = ids;
  if (ids.length !== 1 || only === undefined) throw new Error(`${ids.length} variables are called "${title}"`);
  return only;
}

/** "Logo switch / Logo selector": the titles of the controls of a name that are fitted on one of the fits. */
export function sharedTitle(
  oracle: Oracle,
  name: string,
  fits: readonly Fit[],
  write = (title: string) => title,
): string {
  const all = sharing(oracle, name);
  const fitted = all.filter((control) => fits.some((fit) => oracle.valuesOn(fit, control).length > 0));
  return (fitted.length > 0 ? fitted : all)
    .map((control) => write(oracle.content.controls.get(control)?.title ?? ''))
    .join(' / ');
}

/** The values of a variable with their titles; positions as they stand on the panel on the fits: "ON / BRT". */
export function titledValues(oracle: Oracle, variable: string, fits: readonly Fit[]): (readonly [string, string])[] {
  const { conditions, controls, sequences } = oracle.content;
  const absent = [ABSENT, 'not fitted'] as const;
  const named = conditions.get(variable)?.values ?? sequences.get(variable)?.modes;
  if (named) return [...[...named].map(([id, { title }]) => [id, title] as const), absent];
  if (!controls.has(variable)) return ['serviceable', 'failed'].map((value) => [value, value] as const);
  const legends = new Map<string, Set<string>>();
  for (const control of sharing(oracle, variable)) {
    for (const fit of candidatesOf(oracle, fits)) {
      for (const position of oracle.valuesOn(fit, control)) {
        const value = sharedValue(oracle, control, position);
        const found = legends.get(value) ?? new Set();
        for (const legend of oracle.legendsOn(fit, control, position)) found.add(legend);
        legends.set(value, found);
      }
    }
  }
  return [...[...legends].map(([value, words]) => [value, [...words].join(' / ')] as const), absent];
}

/** Reads a cell or an edge label on the fits. "any" lets every value through. */
export function readValues(
  oracle: Oracle,
  variable: string,
  words: string,
  fits: readonly Fit[] = oracle.fits,
): Reading {
  if (words === 'any') return ANY;
  const condition = oracle.content.conditions.get(variable);
  if (condition?.number) return readInterval(words, condition.number.unit);
  const titles = titledValues(oracle, variable, fits);
  const named = splitList(words).flatMap((part) => {
    const found = titles.filter(([, title]) => title === part).map(([value]) => value);
    if (found.length === 0) throw new Error(`"${part}" is no value of ${variable}`);
    return found;
  });
  return (value) => named.includes(value);
}

/** "above 200 kt, up to 240 kt": every part must hold. */
export function readInterval(words: string, unit: string): Reading {
  const tests = words.split(/, (?=up to|below)/).map((part) => {
    const match = FORMS.map(([form, by]) => [form.exec(part), by] as const).find(([found]) => found);
    const [found, by] = match ?? [];
    if (!found || !by || found[2] !== unit) throw new Error(`"${part}" is no bound in ${unit}`);
    const limit = (found[1] ?? '').replaceAll(',', '');
    return (value: string): boolean => compares(value, by, limit);
  });
  return (value) => tests.every((test) => test(value));
}

const NUMBER = String.raw`(-?[\d,]+(?:\.\d+)?) (\S+)`;
const FORMS: readonly (readonly [RegExp, '<' | '<=' | '>' | '>=' | '='])[] = [
  [new RegExp(`^(?:at )?${NUMBER} or below$`), '<='],
  [new RegExp(`^(?:at )?${NUMBER} or above$`), '>='],
  [new RegExp(`^below ${NUMBER}$`), '<'],
  [new RegExp(`^above ${NUMBER}$`), '>'],
  [new RegExp(`^from ${NUMBER}$`), '>='],
  [new RegExp(`^up to ${NUMBER}$`), '<='],
  [new RegExp(`^at ${NUMBER}$`), '='],
];

/** "a", "a or b", "a, b or c". */
export function splitList(words: string): string[] {
  return words.split(/, | or /);
}

/** Whether a case lies in a row of readings; a variable that the case does not have lets only "any" through. */
export function lies(given: Case, readings: readonly (readonly [variable: string, reading: Reading])[]): boolean {
  return readings.every(([variable, reading]) => {
    const value = given[variable];
    return value === undefined ? reading === ANY : reading(value);
  });
}
