/** The transitions of all sequences as steps from one value of a mode's variable to another. */
import type { Diagrams, Node } from '../logic/index.ts';
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
  /** What must have happened in the mode. */
  readonly event: Node;
}

/** The transitions of all sequences in their order of priority. */
export function modeSteps(
  { space, diagrams, expressions, fleet }: Pick<Compiled, 'space' | 'diagrams' | 'expressions' | 'fleet'>,
  here: (node: Node) => Node,
): ModeStep[] {
  return fleet.sequences.flatMap((sequence) => {
    const mode = (id: string): number => sequence.modes.findIndex((each) => each.id === id);
    return sequence.transitions.flatMap((transition) => {
      const { now, later, event } = transitionGuard(transition, space, diagrams, expressions, here);
      const level = levelOf(space, sequence.id);
      return transition.from.map((from) => ({ level, from: mode(from), to: mode(transition.to), now, later, event }));
    });
  });
}

/** What levels hang on through sequences: the steps of those among them and of what these wait for in turn, and all they read. */
export function stepsBehind(
  diagrams: Diagrams,
  levels: Iterable<number>,
  steps: readonly ModeStep[],
): { readonly read: ReadonlySet<number>; readonly steps: readonly ModeStep[] } {
  const read = new Set(levels);
  for (let size = -1; size < read.size; ) {
    size = read.size;
    for (const { level, now, later } of steps) {
      if (read.has(level)) for (const node of [now, later]) for (const each of diagrams.support(node)) read.add(each);
    }
  }
  return { read, steps: steps.filter(({ level }) => read.has(level)) };
}
