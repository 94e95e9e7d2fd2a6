/** What becomes of a case when inputs change under it: modes that cannot stand go on at once. */
import type { Node } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import type { SettledFit } from './fits.ts';
import { type ModeStep, modeSteps, stepsBehind } from './mode-steps.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import type { Possible } from './possible.ts';
import { isHidden, optionLevels } from './space.ts';

/** The steps at once, by fit and facts: every behaviour asks for them anew. */
const stepsOf = new WeakMap<Compiled, Map<string, readonly ModeStep[]>>();

/** Nothing waits for time here. */
function stepsAtOnce(compiled: Compiled, fit: SettledFit, given: ReadonlyMap<number, number>): readonly ModeStep[] {
  const { diagrams } = compiled;
  const known = stepsOf.get(compiled) ?? new Map<string, readonly ModeStep[]>();
  stepsOf.set(compiled, known);
  const key = `${fit.index}: ${[...given].join(' ')}`;
  const found =
    known.get(key) ??
    modeSteps(compiled, (node) => diagrams.restrictAll(node, given)).map((step) => ({ ...step, later: diagrams.no }));
  known.set(key, found);
  return found;
}

/**
 * A form with some facts given, as it is seen when every sequence rests: from the modes of each case all undelayed
 * transitions are taken, in their order. Detectors may answer in any way. A case is impossible where its inputs are, with
 * those facts; modes at which sequences come to rest can always stand. Cases that could not stand with the facts `before`, of
 * which they come, are impossible too: a detector that would have moved a sequence on by then does not answer so.
 */
export function atRest(
  compiled: Compiled,
  fit: SettledFit,
  form: Node,
  facts: ReadonlyMap<number, number>,
  before: ReadonlyMap<number, number>,
): Node {
  const { diagrams, outcomes, space } = compiled;
  const given = new Map([...optionLevels(space, fit), ...facts]);
  const start = diagrams.restrictAll(form, given);
  const { steps } = stepsBehind(diagrams, diagrams.support(start), stepsAtOnce(compiled, fit, given));
  let seen = start;
  // Without rounds that never end, which are an error, no transition is taken twice.
  for (let taken = 0; taken <= steps.length; taken += 1) {
    const before = seen;
    seen = steps.reduceRight((later, { level, from, to, now }) => {
      const enabled = diagrams.and(now, diagrams.literal(level, [from]));
      return diagrams.ite(enabled, diagrams.restrict(before, level, to), later);
    }, start);
    if (seen === before) break;
  }
  const inputs = diagrams.support(seen).filter((level) => space.meanings[level]?.kind !== 'sequence');
  const possible = (compiled.possible[fit.index] as Possible).only(inputs, facts);
  const hidden = inputs.filter((level) => isHidden(space.meanings[level]));
  const stood = (compiled.possible[fit.index] as Possible).only(diagrams.support(seen), before);
  const known = diagrams.ite(diagrams.and(possible, stood), seen, diagrams.terminal(IMPOSSIBLE));
  return diagrams.fold('either', known, hidden, (a, b) => outcomes.either(a, b));
}
