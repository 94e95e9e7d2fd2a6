/** The transitions of all sequences as steps from one value of a mode's variable to another. */
import type { Node } from '../logic/index.ts';
import type { Compiled } from './compile.ts';
import { levelOf } from './space.ts';
import { transitionGuard } from './transition-guard.ts';

/** One transition from one mode to another: where it is taken at once, and where in time. */
export interface ModeStep {
  readonly level: number;
  readonly from: number;
  readonly to: number;
  readonly now: Node;
  readonly later: Node;
}

/** The transitions of all sequences in their order of priority. */
export function modeSteps({ space, diagrams, expressions, fleet }: Compiled, here: (node: Node) => Node): ModeStep[] {
  return fleet.sequences.flatMap((sequence) => {
    const mode = (id: string): number => sequence.modes.findIndex((each) => each.id === id);
    return sequence.transitions.flatMap((transition) => {
      const { now, later } = transitionGuard(transition, space, diagrams, expressions, here);
      const level = levelOf(space, sequence.id);
      return transition.from.map((from) => ({ level, from: mode(from), to: mode(transition.to), now, later }));
    });
  });
}
