/** SL380-: sequences, latches, sounds and timelines as they are read. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

/** "and after the steps at 3 s and 5 s, " */
function still(later: readonly string[]): string {
  if (later.length === 0) return '';
  return `and after the ${later.length === 1 ? 'step' : 'steps'} at ${list([...later], 'and')}, `;
}

type Nearest = { readonly nearest?: string | undefined };

export const timeCodes = {
  SL380: define({
    severity: 'error',
    title: 'An unknown mode',
    message: (facts: { sequence: string; mode: string; known: readonly string[] } & Nearest) =>
      `"${facts.sequence}" has no mode "${facts.mode}". Its modes are ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its modes, or list this one under "modes".`,
    explanation: 'A sequence is always in one of the modes that it lists.',
  }),
  SL381: define({
    severity: 'error',
    title: 'A transition that waits for nothing',
    message: (_facts: Record<never, never>) => 'Nothing is said of when this transition is taken.',
    hint: () => 'Give it "when", "after", or "since" with "delay".',
    explanation: 'A transition is taken as soon as all that it says holds: without a word, at once and always.',
  }),
  SL382: define({
    severity: 'error',
    title: 'A transition that leads nowhere',
    message: (facts: { mode: string }) => `The transition leads from "${facts.mode}" back to "${facts.mode}".`,
    hint: () => 'Correct one of the two modes, or take this one out of "from".',
    explanation: 'A transition leads from one mode to another one.',
  }),
  SL383: define({
    severity: 'error',
    title: 'A way out of a final mode',
    message: (facts: { mode: string }) => `A transition leads out of "${facts.mode}", which is said to be final.`,
    hint: () => 'Take out the transition, or "final".',
    explanation: 'A final mode is one without a way out, on purpose.',
  }),
  SL384: define({
    severity: 'error',
    title: 'A level that a store cannot have',
    message: (facts: { store: string; level: string; capacity?: string | undefined; unit: string }) =>
      facts.capacity === undefined
        ? `The capacity of "${facts.store}" is ${facts.level} ${facts.unit}, so that it could hold nothing.`
        : `"${facts.store}" cannot stand at ${facts.level} ${facts.unit}: it goes from 0 to ${facts.capacity} ${facts.unit}.`,
    hint: () => 'Correct the level or the capacity.',
    explanation: 'A store stands at a level between zero and its capacity, at the start and whenever a mode sets it.',
  }),
  SL385: define({
    severity: 'error',
    title: 'A store that would run backwards',
    message: (facts: { store: string; rate: string }) =>
      `"${facts.store}" fills or drains by ${facts.rate} per minute, which is not above zero.`,
    hint: () => 'Write a number above zero, and "fills" or "drains" for the direction.',
    explanation: 'The direction is told by "fills" and "drains", so that a rate is always above zero.',
  }),
  SL386: define({
    severity: 'error',
    title: 'An unknown store',
    message: (facts: { store: string; known: readonly string[] } & Nearest) =>
      facts.known.length === 0
        ? `The sequence has no stores, so that "${facts.store}" cannot be set.`
        : `The sequence has no store "${facts.store}". It has ${quoted(facts.known, 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Name one of the sequence's own stores.`,
    explanation: 'Entering a mode may set the stores of the same sequence.',
  }),
  SL387: define({
    severity: 'error',
    title: 'A delay without its event',
    message: (facts: { given: readonly string[] }) =>
      `The transition has ${quoted(facts.given, 'and')}, and ${facts.given.includes('since') ? 'no "delay"' : 'no "since"'}.`,
    hint: () => 'Write "since" (the event) and "delay" (how long after it), and "restarts" only with both.',
    explanation: 'A delay is counted from an event; a time that is counted from entering the mode is "after".',
  }),
  SL388: define({
    severity: 'error',
    title: 'A trigger that says too little',
    message: (facts: { values: boolean }) =>
      facts.values
        ? 'The trigger has values before or after a movement, but does not say what moves.'
        : 'The trigger says neither what moves nor what becomes true.',
    hint: () => 'Write "moves" (a control, condition or sequence), or "becomes" (an expression), or both.',
    explanation: 'A sound is set off by a change: something moves, or something becomes true that was not.',
  }),
  SL389: define({
    severity: 'error',
    title: 'A value that does not occur',
    message: (facts: { name: string; value: string; known: readonly string[] } & Nearest) =>
      `"${facts.name}" never stands at "${facts.value}". Its values are ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its values.`,
    explanation: 'A trigger may name the values between which something moves.',
  }),
  SL390: define({
    severity: 'error',
    title: 'Times out of order',
    message: (facts: { fault: 'first' | 'rising' | 'until' | 'expect' | 'tolerance' }) => TIMES[facts.fault],
    hint: () => 'Correct the time.',
    explanation: 'A timeline starts at 0 s, goes forward from step to step, and lasts as long as "until" says.',
  }),
  SL391: define({
    severity: 'error',
    title: 'An unknown aircraft',
    message: (facts: { serial: string } & Nearest) =>
      `No aircraft that is in service on the date of the book has the serial "${facts.serial}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write the serial of an aircraft of aircraft.csv.`,
    explanation: 'A timeline is worked on one aircraft, named by its serial.',
  }),
  SL392: define({
    severity: 'error',
    title: 'A timeline on an aircraft that is not fully known',
    message: (facts: { aircraft: string; options: readonly string[] }) =>
      `On ${facts.aircraft}, ${quoted(facts.options, 'and')} ${facts.options.length > 1 ? 'are' : 'is'} unknown, so that nobody can say what would follow.`,
    hint: () => 'Work the timeline on an aircraft of which every option is known.',
    explanation: 'A timeline shows one course of events; an aircraft with unknown options may take several.',
  }),
  SL393: define({
    severity: 'error',
    title: 'Not an input',
    message: (facts: { name: string; kind: string }) => `"${facts.name}" is ${facts.kind}, which no step can set.`,
    hint: () => 'Set controls, conditions, detectors and failed lamps; what follows from them is computed.',
    explanation: 'The steps of a timeline say what moves from outside.',
  }),
  SL394: define({
    severity: 'error',
    title: 'A value that an input cannot have',
    message: (facts: { name: string; value: string; known: readonly string[] } & Nearest) =>
      `"${facts.name}" cannot be "${facts.value}" here; it can be ${list([...facts.known])}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write a value that it can have on this aircraft.`,
    explanation: 'A timeline can set positions that the aircraft has, values of conditions, numbers on their steps.',
  }),
  SL395: define({
    severity: 'error',
    title: 'Not fitted on this aircraft',
    message: (facts: { name: string; aircraft: string }) => `"${facts.name}" is not fitted on ${facts.aircraft}.`,
    hint: () => 'Take it out, or work the timeline on an aircraft that has it.',
    explanation: 'A timeline is about what its aircraft has.',
  }),
  SL397: define({
    severity: 'error',
    title: 'A number that moves',
    message: (facts: { name: string }) => `"${facts.name}" is a number, which moves all the time.`,
    hint: (facts) => `Write "becomes", for example: becomes: ${facts.name} > ...`,
    explanation: 'What a trigger says to move goes from one value to another; a number crosses a threshold.',
  }),
  SL398: define({
    severity: 'error',
    title: 'A sequence without modes',
    message: (facts: { sequence: string }) => `"${facts.sequence}" has no modes.`,
    hint: () => 'List under "modes" what it can be in.',
    explanation: 'A sequence is always in one of its modes.',
  }),
  SL430: define({
    severity: 'error',
    title: 'A timeline that expects something else',
    message: (facts: { expected: string; at: string; instead: readonly string[] }) =>
      `At ${facts.at} this does not hold: ${facts.expected}.` +
      (facts.instead.length > 0 ? ` What it reads is then: ${facts.instead.join(' · ')}.` : ''),
    hint: () => 'Correct the expectation, the steps before it, or the sequence.',
    explanation: 'What a timeline expects is checked after all changes of that very time.',
  }),
  SL431: define({
    severity: 'error',
    title: 'A timeline sets what never happens',
    message: (facts: { at: string; later: readonly string[] }) =>
      `From ${facts.at} on, ${still(facts.later)}the inputs are a case that conditions.yaml says never happens.`,
    hint: () => 'Correct the step; what no step sets keeps the value that it had.',
    explanation: 'A worked example of what cannot happen would teach something wrong.',
  }),
  SL432: define({
    severity: 'error',
    title: 'A timeline without an end',
    message: (facts: { sequences: readonly string[]; at: string; many: boolean }) =>
      facts.many
        ? `Until ${facts.at}, ${quoted(facts.sequences, 'and')} has changed more often than can be shown.`
        : `At ${facts.at}, transitions of ${quoted(facts.sequences, 'and')} follow each other for ever, without time passing.`,
    hint: (facts) =>
      facts.many
        ? 'End the timeline earlier.'
        : 'Give the transitions guards that do not hold at the same time, or delays, or levels that lie apart.',
    explanation: 'Transitions are taken as soon as their guards hold, as long as there are any.',
  }),
  SL433: define({
    severity: 'error',
    title: 'A detector that cannot answer so',
    message: (facts: { detector: string; value: string; at: string; order: boolean }) =>
      facts.order
        ? `At ${facts.at}, "${facts.detector}" cannot be "${facts.value}": of detectors in order, one never trips before an earlier one.`
        : `At ${facts.at}, "${facts.detector}" cannot be "${facts.value}": its number lies outside of its tolerance and decides.`,
    hint: () => 'Take it out of the step, or correct the number.',
    explanation: 'Only within its tolerance may a detector be tripped or not.',
  }),
  SL434: define({
    severity: 'error',
    title: 'A timeline that nobody can work out',
    message: (facts: { expression: string; at: string }) =>
      `At ${facts.at} it hangs on what is not stated whether this holds: ${facts.expression}.`,
    hint: () => 'Work a timeline in which this is not asked, until the query is answered.',
    explanation: 'Where the documents do not say what an item does, what reads it cannot be worked out either.',
  }),
};

const TIMES = {
  first: 'The first step is not at 0 s.',
  rising: 'The step does not come later than the one before it.',
  until: 'The timeline ends before its last step.',
  expect: 'The timeline ends before this time.',
  tolerance: 'A point of time has no tolerance.',
} as const;
