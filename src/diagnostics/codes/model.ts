/** SL301-: definitions and the references between them. */
import { didYouMean } from '../nearest.ts';
import { define } from '../define.ts';

export const modelCodes = {
  SL301: define({
    severity: 'error',
    title: 'An id is used twice',
    message: (facts: { id: string }) => `The id "${facts.id}" stands for two different things.`,
    hint: () => 'Give one of them an id of its own. Ids are unique across the whole content folder.',
    explanation: 'Rules, notes and addresses of pages name things by their id, so that an id must mean one thing only.',
  }),
  SL302: define({
    severity: 'error',
    title: 'An unknown reference',
    message: (facts: { id: string; wanted: string; nearest?: string | undefined }) => `There is no ${facts.wanted} "${facts.id}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the spelling, or define it.`,
    explanation: 'Whatever a definition refers to must itself be defined in the content folder.',
  }),
};
