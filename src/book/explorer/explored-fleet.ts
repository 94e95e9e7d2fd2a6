/** A fleet whose cases can be followed, with the words for what is seen: out of the compiled fleet, or out of a reader's copy. */
import { type Compiled, Explorer, explorable, transitionsOfLeaps } from '../../compile/index.ts';
import type { Aircraft, Fleet } from '../../model/index.ts';
import { plain } from '../cells.ts';
import { expressionWords } from '../expression-words.ts';
import { delayWords } from '../pages/sequence.ts';

export interface ExploredFleet {
  readonly explorer: Explorer;
  readonly asOf: string;
  readonly aircraft: readonly Aircraft[];
  readonly panels: Fleet['panels'];
  /** Parallel to the leaps: what is waited for, "after 60 s in the mode"; empty where nothing is. */
  readonly delays: readonly string[];
}

export function exploredFleet(compiled: Compiled): ExploredFleet {
  const { fleet } = compiled;
  return {
    explorer: new Explorer(explorable(compiled)),
    asOf: fleet.book.date,
    aircraft: fleet.aircraft,
    panels: fleet.panels,
    delays: transitionsOfLeaps(compiled).map((transition) => {
      const delay = plain(delayWords(fleet, transition));
      const { guard } = transition;
      // What waits for no time can wait for a store all the same.
      return delay === '' && guard ? plain(expressionWords(fleet, guard.when)) : delay;
    }),
  };
}
