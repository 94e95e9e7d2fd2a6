/** What an item is in a stage, on every fit. */
import type { Node } from '../../logic/index.ts';
import type { SettledFit } from '../fits.ts';
import { type Behaviour, formOfFit, seenForm } from '../groups.ts';
import { IMPOSSIBLE } from '../outcomes.ts';
import { levelOf, optionLevels } from '../space.ts';
import type { StageCases } from './course.ts';
import type { Ground } from './ground.ts';

/**
 * From what a stage leaves open to outcomes, one form for each fit: what may be said of the item then. `onFits` has the stage
 * on each settled fit.
 */
export function stageForms(ground: Ground, { node }: Pick<Behaviour, 'node'>, onFits: readonly StageCases[]): Node[] {
  const { diagrams, outcomes, settled, fits } = ground;
  const forms = settled.map((fit) => formOn(ground, node, fit, onFits[fit.index] as StageCases));
  return fits.map((fit) =>
    formOfFit(
      diagrams,
      outcomes,
      fit,
      fit.settled.map(({ index }) => forms[index] as Node),
    ),
  );
}

function formOn(ground: Ground, node: Node, fit: SettledFit, { facts, cases }: StageCases): Node {
  const { diagrams, outcomes, space } = ground;
  const here = diagrams.restrictAll(node, new Map([...optionLevels(space, fit), ...facts]));
  // A detector is seen as its number.
  const read = new Set(
    diagrams.support(here).flatMap((level) => {
      const meaning = space.meanings[level];
      return meaning?.kind === 'detector' ? [level, levelOf(space, meaning.detector.number)] : [level];
    }),
  );
  const happens = diagrams.exists(
    cases,
    diagrams.support(cases).filter((level) => !read.has(level)),
  );
  const form = seenForm(diagrams, outcomes, space, here, happens);
  // One outcome in all cases that can be is the same whatever cannot.
  const [only, ...others] = diagrams.terminals(form).filter((outcome) => outcome !== IMPOSSIBLE);
  return only !== undefined && others.length === 0 ? diagrams.terminal(only) : form;
}
