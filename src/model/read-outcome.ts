/** What a rule says: a state, or that it is not stated. */
import { nearestName, type Place } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import type { Rule, State } from './fleet.ts';

/** What a rule list is about. */
export interface Ruled {
  readonly item: string;
  readonly states: readonly State[];
}

/** How "not stated" is written in place of a state. */
export const NOT_STATED = 'not stated';

/** What is written as a state, with the place of it, and of a query beside it. */
interface Written {
  readonly written: string;
  readonly place: Place;
}

/** The state, or the open query about it. Undefined after a report. */
export function readOutcome(
  state: Written,
  query: Written | undefined,
  { item, states }: Ruled,
  context: Context,
): Pick<Rule, 'then' | 'query'> | undefined {
  const { diagnostics } = context;
  if (state.written === NOT_STATED) {
    if (!query) {
      diagnostics.report('SL369', { given: 'not stated' }, state.place);
      return undefined;
    }
    return context.isOpenQuery(query.written, query.place) ? { then: NOT_STATED, query: query.written } : undefined;
  }
  const known = states.map(({ id }) => id);
  if (!known.includes(state.written)) {
    const facts = { item, state: state.written, known, nearest: nearestName(state.written, known) };
    diagnostics.report('SL325', facts, state.place);
    return undefined;
  }
  if (query) {
    diagnostics.report('SL369', { given: 'query' }, query.place);
    return undefined;
  }
  return { then: state.written };
}
