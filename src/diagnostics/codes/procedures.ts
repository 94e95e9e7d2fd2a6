/** SL332- as procedures are read, SL460- as they are judged. */
import { define } from '../define.ts';
import { list } from '../list.ts';
import { didYouMean } from '../nearest.ts';

export const procedureCodes = {
  SL332: define({
    severity: 'error',
    title: 'A value that does not occur',
    message: (facts: { name: string; value: string; known: readonly string[]; nearest?: string | undefined }) =>
      `In a stage "${facts.name}" cannot be "${facts.value}"; it can be ${list(facts.known)}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its values.`,
    explanation:
      'A stage says what is so and where controls are wanted: a value of a condition, several or "any", a number with its ' +
      'unit or two with "to" between them, the mode of a sequence, a position of a control.',
  }),
  SL333: define({
    severity: 'error',
    title: 'A position that is never reached',
    message: (facts: { control: string }) =>
      `This position of "${facts.control}" is wanted on every aircraft, so that those after it are wanted on none.`,
    hint: () => 'Give it a "when", or put it last.',
    explanation: 'Of several positions the first whose "when" holds is wanted; the last may stand without one.',
  }),
  SL460: define({
    severity: 'error',
    title: 'A position that some aircraft lack',
    message: (facts: { control: string; position: string; fitted: boolean; aircraft: string }) =>
      facts.fitted
        ? `${facts.control} is wanted at "${facts.position}", but on ${facts.aircraft} it has no such position.`
        : `${facts.control} is wanted at "${facts.position}", but is not fitted on ${facts.aircraft}.`,
    hint: () => 'Say by option where it is wanted: { when: ..., position: ... }.',
    explanation:
      'A procedure is for every aircraft of the book. Where aircraft differ, each position says on which of them it is wanted; ' +
      'where none is, the control is left as it is.',
  }),
  SL461: define({
    severity: 'warning',
    title: 'A position wanted on no aircraft',
    message: (facts: { control: string; position: string }) =>
      `No aircraft of the book comes to this position of ${facts.control}: "${facts.position}" is wanted nowhere.`,
    hint: () => 'Correct its "when" or the ones before it, or take it out.',
    explanation: 'Of several positions the first whose "when" holds is wanted.',
  }),
  SL462: define({
    severity: 'error',
    title: 'A stage that cannot happen',
    message: (facts: { stage: string; aircraft: string; facts: string }) =>
      `"${facts.stage}" cannot happen on ${facts.aircraft}, since this never goes together there: ${facts.facts}.`,
    hint: () => 'Correct the stage, or what it has kept from the stages before it.',
    explanation:
      'What a stage does not say is as the stage before left it, and at the start as it is normally. All of it together must ' +
      'be a case that can happen: nothing under "never" holds, and each sequence can be in the mode that is wanted.',
  }),
  SL463: define({
    severity: 'error',
    title: 'A claim that does not hold in its stage',
    message: (facts: { sentence: string; stage: string; case: string; aircraft: string }) =>
      `The rules contradict "${facts.sentence}" in the stage "${facts.stage}", in this case: ${facts.case}. ` +
      `It can happen on ${facts.aircraft}.`,
    hint: () => 'Correct the sentence and its claim, or the stage, or the rules if the sentence is right.',
    explanation: 'A claim of a stage must hold in every case that can be in it, on every aircraft.',
  }),
  SL464: define({
    severity: 'warning',
    title: 'A claim that says nothing in its stage',
    message: (facts: { sentence: string; stage: string }) =>
      `"${facts.sentence}" holds in the stage "${facts.stage}" only because this is never so in it.`,
    hint: () => 'Correct the first part of the claim, or take the sentence out.',
    explanation:
      'A claim "a implies b" holds wherever "a" does not. Where "a" is never so, it holds whatever "b" says.',
  }),
  SL465: define({
    severity: 'warning',
    title: 'A stage that changes nothing',
    message: (facts: { stage: string; before: string }) =>
      `In "${facts.stage}" everything is wanted as it is in "${facts.before}", on every aircraft.`,
    hint: () => 'Say what is different in it, or join the two stages.',
    explanation: 'A stage begins where something moves: a control, or what is so of the aircraft.',
  }),
};
