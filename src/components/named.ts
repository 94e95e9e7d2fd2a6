/** Finds the aircraft that words on effectivity name, to link them where they stand. */
import type { Effectivity } from '../book/index.ts';

export type NamedPart = string | Effectivity['aircraft'][number];

/** The words in parts: plain, and each aircraft that they name. */
export function namedParts({ text, aircraft }: Effectivity): NamedPart[] {
  const byName = new Map(aircraft.map((one) => [one.registration, one]));
  // The longer name first: one can be the beginning of another.
  const names = [...byName.keys()].sort((a, b) => b.length - a.length).map((name) => name.replace(/\W/g, '\\$&'));
  if (names.length === 0) return [text];
  return text
    .split(new RegExp(`(?<!\\w)(${names.join('|')})(?!\\w)`))
    .filter((part) => part !== '')
    .map((part) => byName.get(part) ?? part);
}

/** Whether the words name every aircraft, so that no list of them is needed. */
export function namesAll(effectivity: Effectivity): boolean {
  const named = new Set(namedParts(effectivity).map((part) => (typeof part === 'string' ? part : part.registration)));
  return effectivity.aircraft.every(({ registration }) => named.has(registration));
}
