/** What has the same id in two releases and is another thing all the same. */
import type { PackedComparison, PackedDefinitions } from '../comparison/packed-comparison.ts';
import type { Released } from './released.ts';

/**
 * An earlier release in which such things have ids of their own: conditions that were numbers and are none, or the other way
 * round, or have another unit, and controls that counted as another one, or by other positions.
 */
export function setApart<R extends Released>(before: R, now: PackedDefinitions): R {
  const { comparison, occurring } = before;
  const isOther = (id: string): boolean =>
    differ(comparison.conditions, now.conditions, id, ({ unit }) => unit) ||
    differ(comparison.controls, now.controls, id, countsAs);
  const idOf = (id: string): string => (isOther(id) ? `${id}@` : id);
  const apart = <T extends { readonly id: string }>(list: readonly T[]): T[] =>
    list.map((one) => ({ ...one, id: idOf(one.id) }));
  const others: PackedComparison = {
    ...comparison,
    controls: apart(comparison.controls).map((control) =>
      control.counterpart === undefined ? control : { ...control, counterpart: idOf(control.counterpart) },
    ),
    conditions: apart(comparison.conditions),
    meanings: apart(comparison.meanings),
  };
  return {
    ...before,
    comparison: others,
    occurring: Object.fromEntries(Object.entries(occurring).filter(([id]) => !isOther(id))),
  };
}

/** Whether both have it, and not as the same thing. */
function differ<T extends { readonly id: string }>(
  before: readonly T[],
  now: readonly T[],
  id: string,
  what: (one: T) => string | undefined,
): boolean {
  const [there, here] = [before, now].map((list) => list.find((one) => one.id === id));
  return there !== undefined && here !== undefined && what(there) !== what(here);
}

function countsAs({ counterpart, positions }: PackedDefinitions['controls'][number]): string {
  const same = positions.flatMap(({ id, as }) => (as === undefined ? [] : [[id, as]]));
  return JSON.stringify([counterpart, same]);
}
