/** SL540-: the sheets that readers print. */
import { define } from '../define.ts';
import { list } from '../list.ts';
import { didYouMean } from '../nearest.ts';

const KINDS = 'panel, stages, legends, messages, differences, device, walk-round or fleet';

export const sheetCodes = {
  SL540: define({
    severity: 'error',
    title: 'A topic of no kind, or of two',
    message: ({ first, second }: { first?: string; second?: string }) =>
      second === undefined
        ? 'The topic does not say what it is about.'
        : `The topic is about "${first}" and about "${second}".`,
    hint: ({ second }) =>
      second === undefined
        ? `Give it one of the keys ${KINDS}.`
        : 'Put a hyphen before the second one, which makes it a topic of its own.',
    explanation: 'A sheet shows its topics one after another, in the order in which they are listed.',
  }),
  SL541: define({
    severity: 'error',
    title: 'Limits the wrong way round',
    message: (facts: { from: number; to: number }) => `Nothing lies from ${facts.from} to ${facts.to}.`,
    hint: ({ from, to }) => `Write { from: ${to}, to: ${from} }, or the same number twice.`,
    explanation: 'Type and columns are chosen between their limits so that the sheets are filled.',
  }),
  SL542: define({
    severity: 'error',
    title: 'A key that this kind of topic does not take',
    message: (facts: { key: string; kind: string }) => `A topic about "${facts.kind}" takes no "${facts.key}".`,
    hint: () =>
      'Leave it out. "show" and "abnormal" go with a panel, "of" with stages (a panel) and with differences (an aircraft), ' +
      '"in" with a walk-round (a stage).',
    explanation:
      'What a topic shows is decided by its kind: most kinds show all that there is of them and have nothing to choose.',
  }),
  SL543: define({
    severity: 'error',
    title: 'A sheet about an aircraft that is not in the book',
    message: (facts: { serial: string; device: boolean; known: boolean }) =>
      facts.device && facts.known
        ? `"${facts.serial}" is an aircraft, not a training device.`
        : `No ${facts.device ? 'training device' : 'aircraft'} of the book has the serial "${facts.serial}".`,
    hint: ({ device, known }) =>
      device && known
        ? 'Write "differences" in place of "device" to compare with an aircraft.'
        : 'Give a serial of aircraft.csv that is in service on the date of the book; put it in quotation marks.',
    explanation: 'Sheets name aircraft by their serials, which never change, where registrations may.',
  }),
  SL544: define({
    severity: 'error',
    title: 'An aircraft compared with itself',
    message: (facts: { serial: string }) => `"${facts.serial}" does not differ from itself.`,
    hint: () => 'Name another aircraft, or leave "of" out for the one that the reader chooses.',
    explanation: 'A topic about differences shows what is otherwise on one of two aircraft.',
  }),
  SL545: define({
    severity: 'error',
    title: 'A sheet about a stage that the procedure does not have',
    message: (facts: { procedure: string; stage: string; known: readonly string[]; nearest?: string | undefined }) =>
      `"${facts.procedure}" has no stage "${facts.stage}"; its stages are ${list(facts.known, 'and')}.`,
    hint: ({ nearest }) => `${didYouMean(nearest)}Write one of its stages.`,
    explanation: 'A walk-round in a stage of a procedure says what each light outside does in it.',
  }),
};
