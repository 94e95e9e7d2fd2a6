/** SL530-: practice sets. */
import { define } from '../define.ts';

type Nothing = Record<never, never>;

export const practiceCodes = {
  SL530: define({
    severity: 'error',
    title: 'A practice set for no aircraft',
    message: (_facts: Nothing) => 'No aircraft of the book is as "for" says.',
    hint: () => 'Correct "for", or leave it out for the whole fleet.',
    explanation: 'Each question of a practice sheet is about one aircraft or two.',
  }),
  SL531: define({
    severity: 'error',
    title: 'A practice set without a procedure',
    message: (_facts: Nothing) => 'There are no stages that questions could take place in.',
    hint: () => 'Write a procedure into the folder "procedures", or leave the practice set out.',
    explanation:
      'Questions take place in cases that a stage of a procedure can be in, with one control moved or one abnormal condition at most.',
  }),
};
