/** Where sequences come to rest while inputs stay as they are. */
import type { Diagrams, Node } from '../../logic/index.ts';
import type { ModeStep } from '../mode-steps.ts';

/**
 * The cases that sequences come to from those of `start`, Boolean diagrams over inputs and modes: what waits for no delay
 * first, in the order of the steps, then, with `patient`, whatever else can be taken, in any order. Where no sequence can go
 * on they stay; where they never come to rest, they are in any case on the way.
 */
export function settled(
  diagrams: Diagrams,
  start: Node,
  steps: readonly ModeStep[],
  modes: readonly number[],
  patient: boolean,
): Node {
  let atOnce = diagrams.no;
  const moves = steps.map(({ level, from, to, now }) => {
    const when = diagrams.and(now, diagrams.literal(level, [from]), diagrams.not(atOnce));
    atOnce = diagrams.or(atOnce, when);
    return { level, to, when };
  });
  if (patient) {
    for (const { level, from, to, later } of steps) {
      moves.push({ level, to, when: diagrams.and(later, diagrams.literal(level, [from]), diagrams.not(atOnce)) });
    }
  }
  let reached = start;
  for (let fresh = start; fresh !== diagrams.no; reached = diagrams.or(reached, fresh)) {
    const from = fresh;
    const next = moves.map(({ level, to, when }) =>
      diagrams.and(diagrams.exists(diagrams.and(from, when), [level]), diagrams.literal(level, [to])),
    );
    fresh = diagrams.and(diagrams.or(...next), diagrams.not(reached));
  }
  const resting = diagrams.and(reached, diagrams.not(diagrams.or(...moves.map(({ when }) => when))));
  const restless = diagrams.not(diagrams.exists(resting, modes));
  return diagrams.or(resting, diagrams.and(reached, restless));
}
