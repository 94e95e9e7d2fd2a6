/** Why an item is as it is: the fewest facts of a case that force its behaviour in every case that can happen. */
import type { Diagrams, Node } from '../logic/index.ts';
import { IMPOSSIBLE } from './outcomes.ts';

/** Variable and value, by level. */
export type Facts = ReadonlyMap<number, number>;

/** Beyond so many variables the facts are no longer the fewest, only such that none can be left out. */
const EXACT_UP_TO = 16;

/**
 * The fewest facts out of a case that make sure of what `form` says of it; of several such sets the one whose facts were
 * declared first. The case gives a value to each level that the form depends on, and can happen.
 */
export function because(diagrams: Diagrams, form: Node, given: Facts): Facts {
  const levels = diagrams.support(form);
  const outcome = diagrams.valueOf(diagrams.restrictAll(form, given));
  if (outcome === undefined) throw new Error('the case leaves open what happens');
  if (outcome === IMPOSSIBLE) throw new Error('the case cannot happen');
  const forces = (some: readonly number[]): boolean => {
    const facts = new Map(some.map((level) => [level, given.get(level) as number]));
    const left = diagrams.restrictAll(form, facts);
    return diagrams.terminals(left).every((each) => each === outcome || each === IMPOSSIBLE);
  };
  const chosen = levels.length <= EXACT_UP_TO ? fewest(levels, forces) : irredundant(levels, forces);
  return new Map(chosen.map((level) => [level, given.get(level) as number]));
}

/** The smallest subset that passes, the earliest in lexical order among the smallest. All of them together pass. */
function fewest(levels: readonly number[], passes: (some: readonly number[]) => boolean): readonly number[] {
  for (let size = 0; size < levels.length; size += 1) {
    for (const some of subsets(levels, size)) if (passes(some)) return some;
  }
  return levels;
}

function* subsets(levels: readonly number[], size: number): Iterable<readonly number[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (const [at, level] of levels.entries()) {
    for (const rest of subsets(levels.slice(at + 1), size - 1)) yield [level, ...rest];
  }
}

function irredundant(levels: readonly number[], passes: (some: readonly number[]) => boolean): readonly number[] {
  return levels.toReversed().reduce((kept, level) => {
    const fewer = kept.filter((each) => each !== level);
    return passes(fewer) ? fewer : kept;
  }, levels);
}
