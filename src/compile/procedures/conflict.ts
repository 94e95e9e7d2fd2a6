/** Why a stage cannot happen: facts of it that never go together. */
import type { Never } from '../../model/index.ts';
import type { SettledFit } from '../fits.ts';
import type { Possible } from '../possible.ts';
import { type Meaning, optionLevels } from '../space.ts';
import { valuesTitle, variableTitle } from '../words.ts';
import type { StageCases } from './course.ts';
import type { Ground } from './ground.ts';

/**
 * Facts of the stage of which none can be left out, in words, and what never happens that they fulfil. What no stage has
 * spoken of is left out first.
 */
export function conflict(
  ground: Ground,
  fit: SettledFit,
  { values, modes, said }: StageCases,
): { readonly facts: string; readonly never: readonly Never[] } {
  const { diagrams, space, fleet, expressions } = ground;
  const possible = ground.possible[fit.index] as Possible;
  const all = [...values, ...modes];
  const never = (some: typeof all): boolean => {
    const given = new Map(
      some.flatMap(([level, [only, ...others]]) => (others.length > 0 || only === undefined ? [] : [[level, only]])),
    );
    const open = some.filter(([level]) => !given.has(level));
    const can = possible.only(
      open.map(([level]) => level),
      given,
    );
    return diagrams.and(can, ...open.map(([level, several]) => diagrams.literal(level, several))) === diagrams.no;
  };
  const order = all.toSorted(([a], [b]) => Number(said.has(a)) - Number(said.has(b)) || b - a);
  let kept = all;
  // Together they may be possible, and only not after the stages before: then the modes asked for are what is wrong.
  if (never(all))
    for (const fact of order)
      if (never(kept.filter((each) => each !== fact))) kept = kept.filter((each) => each !== fact);
  if (!never(all)) kept = all.filter(([level]) => modes.has(level) || said.has(level));
  const words = kept
    .toSorted(([a], [b]) => a - b)
    .map(([level, some]) => {
      const meaning = space.meanings[level] as Meaning;
      return `${variableTitle(meaning, [fit])}: ${valuesTitle(meaning, some, [fit])}`;
    });
  const facts = diagrams.and(...kept.map(([level, some]) => diagrams.literal(level, some)));
  const options = optionLevels(space, fit);
  return {
    facts: words.join(' · '),
    never: fleet.never.filter(({ expression }) => {
      const here = diagrams.restrictAll(expressions.compile(expression), options);
      return here !== diagrams.no && diagrams.and(facts, diagrams.not(here)) === diagrams.no;
    }),
  };
}
