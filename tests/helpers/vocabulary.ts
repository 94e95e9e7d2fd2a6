/**
 * Reads words of a page back into values, by the titles and legends of the content as the oracle knows them. Nothing here
 * comes from the program: where a page says something in other words than the author's, reading it fails.
 */
import type { Case, Oracle } from '../oracle/index.ts';
import { compares } from '../oracle/index.ts';

/** Says whether a value of a variable is among those that a cell or label names. */
export type Reading = (value: string) => boolean;

/** Lets every value through. */
const ANY: Reading = () => true;

/** The variable of a column or question title. Throws when the content knows none, or more than one. */
export function variableTitled({ content }: Oracle, title: string): string {
  const ids = [...content.conditions.values(), ...content.controls.values()]
    .filter((each) => each.title === title)
    .map(({ id }) => id);
  const [only] = ids;
  if (ids.length !== 1 || only === undefined) throw new Error(`${ids.length} variables are called "${title}"`);
  return only;
}

/** Reads a cell or an edge label. "any" lets every value through. */
export function readValues(oracle: Oracle, variable: string, words: string): Reading {
  if (words === 'any') return ANY;
  const condition = oracle.content.conditions.get(variable);
  if (condition?.number) return readInterval(words, condition.number.unit);
  const titles = condition
    ? [...condition.values].map(([id, { title }]) => [title, id] as const)
    : [...(oracle.content.controls.get(variable)?.positions ?? [])].map(([id, { legend }]) => [legend, id] as const);
  const named = splitList(words).map((part) => {
    const found = titles.find(([title]) => title === part);
    if (!found) throw new Error(`"${part}" is no value of ${variable}`);
    return found[1];
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

/** The registrations that an effectivity line names. Throws on a registration that the fleet does not have. */
export function readEffectivity(oracle: Oracle, words: string): string[] {
  const all = oracle.aircraft.map(({ registration }) => registration);
  const line = words.replace(/^(Holds for|On) /, '');
  if (line === 'the whole fleet') return all;
  const counted = /^(.*), (\d+) aircraft$/.exec(line);
  const named = (counted?.[1] ?? line).split(/, | and /).flatMap((part) => {
    const ends = part.split(' to ').map((each) => all.indexOf(each));
    const [from = -1, to = from] = ends;
    if (ends.includes(-1)) throw new Error(`"${part}" is no aircraft of the fleet`);
    return all.slice(from, to + 1);
  });
  if (counted && Number(counted[2]) !== named.length) throw new Error(`"${words}" counts ${named.length}`);
  return named;
}

/** Whether a case lies in a row of readings; a variable that the case does not have lets only "any" through. */
export function lies(given: Case, readings: readonly (readonly [variable: string, reading: Reading])[]): boolean {
  return readings.every(([variable, reading]) => {
    const value = given[variable];
    return value === undefined ? reading === ANY : reading(value);
  });
}
