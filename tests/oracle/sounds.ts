/** Which sounds a change sets off. What a `never` would force to move along with what moves is left out. */
import type { SoundText } from './content.ts';
import type { Fit } from './fits.ts';
import type { Case } from './meaning.ts';
import type { Oracle } from './oracle.ts';

/**
 * The sounds that the change from one extended case to another sets off; none where one of them can't happen. Throws
 * where anything but one control, condition or sequence moves; detectors may answer anew to the number that moves.
 */
export function soundsOf(oracle: Oracle, fit: Fit, before: Case, after: Case): readonly string[] {
  const { conditions, controls, detectors, sequences, sounds } = oracle.content;
  const names = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  const changed = names.filter((name) => before[name] !== after[name]);
  const [moved, ...others] = changed.filter((name) => !detectors.has(name));
  const isOne =
    moved !== undefined && others.length === 0 && [conditions, controls, sequences].some((of) => of.has(moved));
  const isTold = changed.every((name) => name === moved || detectors.get(name)?.number === moved);
  if (!isOne || !isTold) throw new Error(`not a movement of one thing: ${changed.join(', ')}`);
  if (!oracle.canChange(fit, before, after)) return [];
  const heard = [...sounds.values()].filter(
    (sound) =>
      oracle.isFitted(fit, sound.id) && sound.triggers.some((one) => sets(oracle, fit, one, moved, before, after)),
  );
  return heard.map(({ id }) => id);
}

/** A change in which one control, condition or sequence moves, and what detectors answer before and after. */
export interface Change {
  readonly moved: string;
  readonly before: Case;
  readonly after: Case;
}

/** Every change between extended cases over the variables that can happen while all other variables stay as they are. */
export function* changesOn(oracle: Oracle, fit: Fit, variables: readonly string[]): Iterable<Change> {
  const { conditions, controls, detectors, sequences } = oracle.content;
  const movable = variables.filter((name) => [conditions, controls, sequences].some((all) => all.has(name)));
  for (const before of oracle.cases(fit, variables)) {
    for (const moved of movable.filter((name) => before[name] !== undefined)) {
      const answers = variables.filter((name) => detectors.get(name)?.number === moved);
      for (const value of oracle.valuesOn(fit, moved)) {
        if (value === before[moved]) continue;
        let all: Case[] = [{ ...before, [moved]: value }];
        for (const name of answers)
          all = all.flatMap((one) => ['no', 'yes'].map((answer) => ({ ...one, [name]: answer })));
        for (const after of all) if (oracle.canChange(fit, before, after)) yield { moved, before, after };
      }
    }
  }
}

function sets(
  oracle: Oracle,
  fit: Fit,
  { moves, from, to, becomes, while: holding }: SoundText['triggers'][number],
  moved: string,
  before: Case,
  after: Case,
): boolean {
  const holds = (text: string, given: Case): boolean =>
    !oracle.meaning.truths(text, oracle.meaning.at(fit, given, true)).has(false);
  const isOne = (values: readonly string[] | undefined, given: Case): boolean =>
    values === undefined || holds(`${moved} in (${values.join(', ')})`, given);
  return (
    (moves === undefined || moves === moved) &&
    isOne(from, before) &&
    isOne(to, after) &&
    (becomes === undefined || (!holds(becomes, before) && holds(becomes, after))) &&
    (holding === undefined || holds(holding, after))
  );
}
