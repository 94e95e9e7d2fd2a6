/** SL340-: aircraft, their options and changes; places, controls and former ids. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

type Nearest = { readonly nearest?: string | undefined };

/** "From 2026-12-01 on, ", or nothing where it is so from the start. */
const since = (date: string | undefined): string => (date === undefined ? '' : `From ${date} on, `);

export const fleetCodes = {
  SL340: define({
    severity: 'error',
    title: 'A value cannot be called "unknown"',
    message: (facts: { option: string }) =>
      `"unknown" cannot be one of the values of "${facts.option}": every option can be unknown without being told so.`,
    hint: () => 'Take the value out, and write "unknown" for the aircraft concerned; or give the value another id.',
    explanation: 'On an aircraft, "unknown" says that nobody knows which of the values it has.',
  }),
  SL341: define({
    severity: 'error',
    title: 'An option with the name of a column',
    message: (facts: { option: string }) => `"${facts.option}" is a column of its own in aircraft.csv.`,
    hint: () => 'Give the option another id.',
    explanation: 'Each option is a column of aircraft.csv, beside serial, registration, from, to and kind.',
  }),
  SL342: define({
    severity: 'error',
    title: 'An unknown kind of aircraft',
    message: (facts: { kind: string }) => `"${facts.kind}" is neither an aircraft nor a device.`,
    hint: () => 'Write "device" for a training device; leave the cell empty for an aircraft.',
    explanation: 'Training devices stand in the book beside the aircraft that they are compared with.',
  }),
  SL343: define({
    severity: 'error',
    title: 'Values that do not go together',
    message: (facts: {
      aircraft: string;
      option: string;
      value: string;
      kind: 'requires' | 'excludes';
      expression: string;
      date?: string | undefined;
    }) =>
      `${since(facts.date)}${facts.aircraft} has the value "${facts.value}" of "${facts.option}". It ${facts.kind} ` +
      `"${facts.expression}", which is ${facts.kind === 'requires' ? 'not so' : 'so'} on this aircraft.`,
    hint: () => 'Correct the values of the aircraft, or what options.yaml says of this value.',
    explanation:
      'An aircraft with a value fulfils what the value requires and nothing that it excludes, from its first day and after every change.',
  }),
  SL344: define({
    severity: 'error',
    title: 'Nothing that the unknown options could be',
    message: (facts: { aircraft: string; options: readonly string[]; date?: string | undefined }) =>
      `${since(facts.date)}${facts.aircraft} has ${quoted(facts.options, 'and')} unknown, but whatever ` +
      `${facts.options.length > 1 ? 'they are' : 'it is'}, something required is missing or something excluded is there.`,
    hint: () => 'Correct the known values of the aircraft, or what options.yaml requires and excludes.',
    explanation:
      'An aircraft with unknown options behaves as any of those that it may be, so that there must be one at least.',
  }),
  SL345: define({
    severity: 'error',
    title: 'A change of an unknown aircraft',
    message: (facts: { serial: string } & Nearest) => `No aircraft of aircraft.csv has the serial ${facts.serial}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Correct the serial, or add the aircraft to aircraft.csv.`,
    explanation: 'modifications.csv says what changes on the aircraft of aircraft.csv.',
  }),
  SL346: define({
    severity: 'error',
    title: 'A change of an unknown option',
    message: (facts: { option: string } & Nearest) => `No option is called "${facts.option}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write the id of an option, or "registration".`,
    explanation: 'A line of modifications.csv changes one option of an aircraft, or its registration.',
  }),
  SL347: define({
    severity: 'error',
    title: 'A change while not in service',
    message: (facts: { aircraft: string; date: string; from: string; to: string }) =>
      facts.date < facts.from
        ? `On ${facts.date} ${facts.aircraft} is not yet in service; it comes on ${facts.from}.`
        : `On ${facts.date} ${facts.aircraft} is no longer in service; it leaves on ${facts.to}.`,
    hint: () => 'Correct the date. How an aircraft enters service is said in aircraft.csv.',
    explanation: 'aircraft.csv says how an aircraft enters service, modifications.csv what changes while it is there.',
  }),
  SL348: define({
    severity: 'error',
    title: 'Two changes of one option on one day',
    message: (facts: { aircraft: string; option: string; date: string }) =>
      `On ${facts.date} "${facts.option}" of ${facts.aircraft} changes twice.`,
    hint: () => 'Leave the one that holds at the end of the day.',
    explanation: 'A change holds for the whole of its day.',
  }),
  SL349: define({
    severity: 'error',
    title: 'A change that changes nothing',
    message: (facts: { aircraft: string; option: string; value: string }) =>
      `Before this change, "${facts.option}" of ${facts.aircraft} is "${facts.value}" already.`,
    hint: () => 'Take the line out, or correct its value or date; aircraft.csv says how the aircraft entered service.',
    explanation:
      'Such a line mostly means that aircraft.csv was changed together with modifications.csv: the value of the first day would be lost.',
  }),
  SL350: define({
    severity: 'error',
    title: 'An unknown column of modifications.csv',
    message: (facts: { column: string; known: readonly string[] } & Nearest) =>
      `modifications.csv has no column "${facts.column}". Its columns are ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Correct the column, or take it out.`,
    explanation: 'Each line of modifications.csv says which option of which aircraft changes, to what, and when.',
  }),
  SL351: define({
    severity: 'error',
    title: 'A place on another panel',
    message: (facts: { control: string; place: string; panel: string }) =>
      `"${facts.control}" cannot be fitted in "${facts.place}", which is on the panel "${facts.panel}".`,
    hint: () => 'Name a place of the same panel, or move the control.',
    explanation: 'A place is a hole in its panel.',
  }),
  SL352: define({
    severity: 'error',
    title: 'A position that springs back to nowhere',
    message: (
      facts: {
        position: string;
        to: string;
        fault: 'unknown' | 'itself' | 'returns' | 'absent';
        known: readonly string[];
        aircraft?: string;
        date?: string | undefined;
        unknown?: boolean;
      } & Nearest,
    ) =>
      facts.fault === 'itself'
        ? `"${facts.position}" springs back to itself.`
        : facts.fault === 'returns'
          ? `"${facts.position}" springs back to "${facts.to}", which springs back itself.`
          : facts.fault === 'absent'
            ? `${since(facts.date)}"${facts.position}" springs back to "${facts.to}", which ${facts.aircraft} ${facts.unknown ? 'may not' : 'does not'} have.`
            : `"${facts.position}" springs back to "${facts.to}", which the control does not have. Its positions are ${list([...facts.known], 'and')}.`,
    hint: (facts) =>
      facts.fault === 'absent'
        ? 'Say under "fitted" which aircraft have each, so that none has the one without the other.'
        : `${didYouMean(facts.nearest)}Name a position of the same control in which it stays.`,
    explanation: 'When it is let go, the control comes to rest in the position that "returns" names.',
  }),
  SL353: define({
    severity: 'error',
    title: 'Positions that do not match',
    message: (
      facts: {
        position: string;
        as: string;
        fault: 'alone' | 'unknown' | 'twice';
        counterpart?: string | undefined;
        known: readonly string[];
      } & Nearest,
    ) =>
      facts.fault === 'alone'
        ? `"${facts.position}" is to be the same as "${facts.as}", but the control has no counterpart.`
        : facts.fault === 'twice'
          ? `Two positions are to be the same as "${facts.as}" of "${facts.counterpart}".`
          : `"${facts.counterpart}" has no position "${facts.as}". Its positions are ${list([...facts.known], 'and')}.`,
    hint: (facts) =>
      facts.fault === 'alone'
        ? 'Name the other control under "counterpart", or take "as" out.'
        : `${didYouMean(facts.nearest)}Match each position with one of the counterpart's, or leave "as" out where there is none.`,
    explanation: 'Where aircraft are compared, a position with "as" counts as that position of the counterpart.',
  }),
  SL354: define({
    severity: 'error',
    title: 'A counterpart that cannot be one',
    message: (facts: { control: string; counterpart: string; of?: string | undefined }) =>
      facts.of === undefined
        ? `"${facts.control}" is to be its own counterpart.`
        : `The counterpart of "${facts.control}", "${facts.counterpart}", counts as "${facts.of}" itself.`,
    hint: (facts) =>
      facts.of === undefined
        ? 'Name the control that other aircraft have in its stead.'
        : 'Choose one control that all the others count as, and name that one in each of them.',
    explanation: 'Controls that replace each other count as one of them, which has no counterpart of its own.',
  }),
  SL355: define({
    severity: 'error',
    title: 'Two controls in one place',
    message: (facts: {
      place: string;
      controls: readonly string[];
      aircraft: string;
      date?: string | undefined;
      unknown: boolean;
    }) =>
      `${since(facts.date)}${facts.aircraft} ${facts.unknown ? 'may have' : 'has'} both ${quoted(facts.controls, 'and')} in the place "${facts.place}".`,
    hint: () => 'Say under "fitted" of each which aircraft have it, or give one of them another place.',
    explanation: 'In one place there is one control at most on each aircraft.',
  }),
  SL356: define({
    severity: 'error',
    title: 'Counterparts on one aircraft',
    message: (facts: { controls: readonly string[]; aircraft: string; date?: string | undefined; unknown: boolean }) =>
      `${since(facts.date)}${facts.aircraft} ${facts.unknown ? 'may have' : 'has'} both ${quoted(facts.controls, 'and')}, which count as one control.`,
    hint: () => 'Say under "fitted" of each which aircraft have it, or take "counterpart" out.',
    explanation: 'Controls that count as one where aircraft are compared are never fitted together.',
  }),
  SL357: define({
    severity: 'error',
    title: 'A former id is used for something else',
    message: (facts: { id: string }) => `"${facts.id}" is a former id of this, and stands for something else too.`,
    hint: () => 'Give the other one an id that nothing ever had.',
    explanation: 'Ids are permanent: what a reader finds under an old id must be the same thing under its new name.',
  }),
  SL358: define({
    severity: 'error',
    title: 'A former id',
    message: (facts: { former: string; id: string }) => `"${facts.former}" is called "${facts.id}" now.`,
    hint: (facts) => `Write "${facts.id}".`,
    explanation: 'Former ids are kept for readers of earlier releases; the content itself uses the present ones.',
  }),
  SL359: define({
    severity: 'error',
    title: 'Two things with one title',
    message: (facts: { title: string; kind: string }) => `Two ${facts.kind} are called "${facts.title}".`,
    hint: () => 'Give one of them another title.',
    explanation: 'In a table nobody could tell the two apart.',
  }),
};
