/** Signals and attributes of items that read each other in a circle: none of them could be worked out. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import { type Expression, readsOf } from '../language/index.ts';
import type { Item, Override, Signal } from './fleet.ts';
import { overridesOf } from './scope.ts';

interface Reader {
  /** As an author would write it: "ground-operation", "landing-light.stowage". */
  readonly name: string;
  readonly place: Place;
  readonly reads: readonly string[];
}

/**
 * Reports each circle once, at its first member, as the path that leads back to it. True if there was one. What messages read
 * is read without quiet overrides, and so is all that this reads in turn: a quiet override may hang on a message that reads
 * what the override touches.
 */
export function reportCycles(
  signals: readonly Signal[],
  items: readonly Item[],
  overrides: readonly Override[],
  diagnostics: Diagnostics,
): boolean {
  const readers = new Map<string, Reader>();
  const keyOf = (quietly: boolean, id: string, attribute?: string): string => {
    const only = items.find((item) => item.id === id)?.attributes[0]?.id;
    const of = attribute ?? only;
    return `${of === undefined ? id : `${id}.${of}`}${quietly ? ' quietly' : ''}`;
  };
  const readersIn = (expression: Expression | undefined, quietly: boolean): string[] =>
    (expression ? readsOf(expression) : [])
      .filter(({ kind }) => kind === 'signal' || kind === 'item')
      .map(({ id, attribute }) => keyOf(quietly, id, attribute));
  for (const quietly of [false, true]) {
    for (const { id, place, expression } of signals) {
      readers.set(keyOf(quietly, id), { name: id, place, reads: readersIn(expression, quietly) });
    }
    for (const item of items) {
      for (const attribute of item.attributes) {
        const { id, place, rules } = attribute;
        const above = overridesOf(overrides, item, attribute).filter(({ quiet }) => !(quietly && quiet));
        const reads = [
          ...rules.flatMap(({ when }) => readersIn(when, quietly || item.kind === 'message')),
          ...above.flatMap(({ when }) => readersIn(when, quietly)),
        ];
        const name = item.attributes.length > 1 ? `${item.id}.${id}` : item.id;
        readers.set(keyOf(quietly, item.id, id), { name, place, reads });
      }
    }
  }
  const done = new Set<string>();
  // The same circle can be one with quiet overrides and one without.
  const told = new Set<string>();
  const visit = (key: string, path: readonly string[]): void => {
    const start = path.indexOf(key);
    const reader = readers.get(key);
    if (start >= 0 && reader) {
      const names = [...path.slice(start), key].map((each) => readers.get(each)?.name ?? each);
      const members = [...new Set(names)].sort().join(' ');
      if (!told.has(members)) diagnostics.report('SL328', { path: names }, reader.place);
      told.add(members);
      return;
    }
    if (!reader || done.has(key)) return;
    for (const next of new Set(reader.reads)) visit(next, [...path, key]);
    done.add(key);
  };
  for (const key of readers.keys()) visit(key, []);
  return told.size > 0;
}
