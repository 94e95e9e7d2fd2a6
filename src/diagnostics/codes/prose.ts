/** SL501-: notes, their references, computed blocks and checked sentences. */
import { didYouMean } from '../nearest.ts';
import { define } from '../define.ts';

export const proseCodes = {
  SL501: define({
    severity: 'error',
    title: 'A reference to nothing',
    message: (facts: { id: string; nearest?: string | undefined }) => `The note refers to "${facts.id}", which is not defined.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the spelling of the id behind "ref:".`,
    explanation: 'A reference in a note becomes a link to the page of what it names, so that this must be defined.',
  }),
};
