/** What becomes of a case when inputs change under it: modes that cannot stand go on at once. */
import type { Node } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import { modeSteps } from './mode-steps.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import { isHidden, optionLevels } from './space.ts';

/**
 * A form with some facts given, as it is seen when every sequence rests: from the modes of each case all undelayed
 * transitions are taken, in their order. Detectors may answer in any way. What cannot happen with those facts, whatever the
 * modes come to be, is impossible.
 */
export function atRest(compiled: Compiled, fit: SettledFit, form: Node, facts: ReadonlyMap<number, number>): Node {
  const { diagrams, outcomes, space } = compiled;
  const given = new Map([...optionLevels(space, fit), ...facts]);
  const impossible = diagrams.terminal(IMPOSSIBLE);
  const care = diagrams.restrictAll(compiled.care[fit.index] as Node, given);
  const resting = diagrams.ite(care, diagrams.restrictAll(form, given), impossible);
  const steps = modeSteps(compiled, (node) => diagrams.restrictAll(node, given));
  let seen = resting;
  // Without rounds that never end, which are an error, no transition is taken twice.
  for (let taken = 0; taken <= steps.length; taken += 1) {
    const before = seen;
    seen = steps.reduceRight((later, { level, from, to, now }) => {
      const enabled = diagrams.and(now, diagrams.literal(level, [from]));
      return diagrams.ite(enabled, diagrams.restrict(before, level, to), later);
    }, resting);
    if (seen === before) break;
  }
  const hidden = diagrams.support(seen).filter((level) => isHidden(space.meanings[level]));
  return diagrams.fold('either', seen, hidden, (a, b) => outcomes.either(a, b));
}
