/** What must change with an option so that the constraints hold: the fewest other options, the author's order breaking ties. */
import { referencesOf } from '../language/index.ts';
import type { Fleet, Option } from '../model/index.ts';
import { candidates } from './fits.ts';

/** As many other options as are ever changed with one. */
const MOST_CHANGES = 4;

/**
 * The options of a fit with one option at another value, and as few other changes as the constraints ask for; undefined
 * where none of up to `MOST_CHANGES` other options helps.
 */
export function fewestChanges(
  fleet: Fleet,
  from: ReadonlyMap<string, string>,
  option: string,
  value: string,
): ReadonlyMap<string, string> | undefined {
  const start = new Map(from).set(option, value);
  const bound = new Set(
    fleet.constraints.flatMap((each) => [each.option, ...referencesOf(each.expression).map(({ id }) => id)]),
  );
  const others = fleet.options.filter(({ id }) => id !== option && bound.has(id));
  for (let count = 0; count <= MOST_CHANGES; count++) {
    for (const fit of changed(start, others, count)) if (candidates(fleet, fit).length > 0) return fit;
  }
  return undefined;
}

/** The fit with exactly `count` of the options at other values, in the author's order. */
function* changed(
  fit: ReadonlyMap<string, string>,
  options: readonly Option[],
  count: number,
): Generator<ReadonlyMap<string, string>> {
  if (count === 0) yield fit;
  else
    for (const [at, { id, values }] of options.entries()) {
      for (const { id: value } of values) {
        if (value === fit.get(id)) continue;
        yield* changed(new Map(fit).set(id, value), options.slice(at + 1), count - 1);
      }
    }
}
