/** SL450-: findings. Nothing contradicts itself, but something does nothing: often a slip, seldom meant. */

import { define } from '../define.ts';
import { list } from '../list.ts';

/** "Logo lights", or "Left landing light (stowage)" where the item has several attributes. */
const named = (facts: { readonly item: string; readonly attribute: string }): string =>
  facts.attribute === '' ? facts.item : `${facts.item} (${facts.attribute})`;

export const findingCodes = {
  SL450: define({
    severity: 'warning',
    title: 'A mode that is never reached',
    message: (facts: { sequence: string; mode: string }) =>
      `No run of ${facts.sequence} leads to the mode "${facts.mode}" on any aircraft.`,
    hint: () => 'Correct the guards of the transitions that lead to it, or take the mode out.',
    explanation:
      'Runs start in the initial mode; inputs change to any that can happen, delays elapse or not, stores stand at any ' +
      'level. A mode that none of them reaches tells readers of something that the aircraft never does.',
  }),
  SL451: define({
    severity: 'warning',
    title: 'A mode without a way out',
    message: (facts: { sequence: string; mode: string; run: string; aircraft: string }) =>
      `Once ${facts.sequence} is in the mode "${facts.mode}", nothing ever leads out of it on ${facts.aircraft}. ` +
      `One way into it: ${facts.run}.`,
    hint: () => 'Add a transition out of it, or write "final: true" at the mode if that is meant.',
    explanation:
      'A mode that can be entered and never left is a trap: usually the transition that resets it is missing.',
  }),
  SL452: define({
    severity: 'warning',
    title: 'Two transitions at the same time',
    message: (facts: { sequence: string; first: string; second: string; run: string }) =>
      `In ${facts.sequence} the transition to "${facts.first}" and this one to "${facts.second}" can be due at the same ` +
      `time; the earlier one is taken. A run that shows it: ${facts.run}.`,
    hint: () =>
      'Make their guards exclude each other, or write "priority: declared" at the sequence if the order is meant to decide.',
    explanation:
      'Where two transitions are due at once the one that stands first is taken. That may be what the aircraft does, or ' +
      'only the order in which they were written down.',
  }),
  SL453: define({
    severity: 'warning',
    title: 'A rule that never decides',
    message: (facts: { item: string; attribute: string; state: string; earlier: boolean }) =>
      facts.earlier
        ? `This rule of ${named(facts)} never decides: wherever it holds an earlier one does too.`
        : `This rule of ${named(facts)} never decides: no case in which it holds can happen on any aircraft.`,
    hint: () => 'Correct the rule, or take it out.',
    explanation:
      'A rule that never decides is not shown anywhere in the book. Often a value in it is a slip, or what "never" excludes ' +
      'is too much.',
  }),
  SL454: define({
    severity: 'warning',
    title: 'Positions that do the same',
    message: (facts: { control: string; positions: readonly string[]; aircraft: string }) =>
      facts.positions.length === 0
        ? `${facts.control} changes nothing in this book on ${facts.aircraft}.`
        : `${list(facts.positions, 'and')} of ${facts.control} do the same in every case on ${facts.aircraft}.`,
    hint: () => 'Add the rules that tell them apart, or take out what is not there.',
    explanation:
      'A position between which and another nothing changes, whatever the conditions, is either missing its rules or is one ' +
      'that crews need not tell apart.',
  }),
  SL455: define({
    severity: 'warning',
    title: 'An option that changes nothing',
    message: (facts: { option: string }) =>
      `No control, light, sign or message depends on the option "${facts.option}" on any aircraft.`,
    hint: () => 'Add the rules that depend on it, or take the option out.',
    explanation: 'An option stands in the book to say how aircraft differ. One on which nothing depends says nothing.',
  }),
  SL456: define({
    severity: 'warning',
    title: 'A condition that nobody reads',
    message: (facts: { condition: string }) =>
      `No rule, signal, override, sound or sequence reads the condition "${facts.condition}".`,
    hint: () => 'Add the rules that depend on it, or take the condition out.',
    explanation: 'A condition stands in the book because something depends on it.',
  }),
  SL457: define({
    severity: 'warning',
    title: 'An item that never changes',
    message: (facts: { item: string; attribute: string; state: string }) =>
      `${named(facts)} is "${facts.state}" in every case that can happen, on every aircraft that has it.`,
    hint: () => 'Correct its rules, or take it out if it really never shows anything.',
    explanation: 'A light that is never lit, or a message that is never shown, usually has a rule that never holds.',
  }),
  SL458: define({
    severity: 'warning',
    title: 'Two items that are always equal',
    message: (facts: { item: string; other: string; kind: 'light' | 'sign' | 'annunciator' | 'message' }) =>
      `${facts.item} and ${facts.other} are in the same state in every case, on every aircraft.`,
    hint: (facts) => {
      const correct = 'Correct the rules of one of them';
      switch (facts.kind) {
        case 'light':
          return `${correct}; lights that are meant to be alike can be one light with two lamps.`;
        case 'message':
          return `${correct}, or leave out the message that adds nothing.`;
        default:
          return `${correct}; ${facts.kind}s that are meant to be alike can stay as they are.`;
      }
    },
    explanation: 'Rules that were copied for another item and not yet changed look like this.',
  }),
};
