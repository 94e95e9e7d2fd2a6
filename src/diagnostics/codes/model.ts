/** SL301-: definitions and the references between them. */
import { define } from '../define.ts';
import { list, quoted } from '../list.ts';
import { didYouMean } from '../nearest.ts';

type Nearest = { readonly nearest?: string | undefined };

export const modelCodes = {
  SL301: define({
    severity: 'error',
    title: 'An id of the wrong form',
    message: (facts: { id: string; form: string }) => `"${facts.id}" cannot be an id. An id is made of ${facts.form}.`,
    hint: () => 'Give it an id of that form; what readers see is its title or legend.',
    explanation: 'Ids stand in expressions and in the addresses of pages.',
  }),
  SL302: define({
    severity: 'error',
    title: 'An id is used twice',
    message: (facts: { id: string }) => `"${facts.id}" stands for two different things.`,
    hint: () => 'Give one of them an id of its own. Ids are unique across the whole content folder.',
    explanation: 'Rules, notes and addresses of pages name things by their id, so that an id must mean one thing only.',
  }),
  SL303: define({
    severity: 'error',
    title: 'An id that is a word of expressions',
    message: (facts: { id: string }) => `"${facts.id}" has a meaning of its own in expressions.`,
    hint: () => 'Choose another id.',
    explanation: 'The words and, or, not, implies, is, are, for, in, fitted, always and never cannot be ids.',
  }),
  SL304: define({
    severity: 'error',
    title: 'An unknown reference',
    message: (facts: { id: string; wanted: string } & Nearest) =>
      `Nothing is called "${facts.id}"; ${facts.wanted} is meant here.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the spelling, or define it.`,
    explanation: 'Whatever a definition refers to must itself be defined in the content folder.',
  }),
  SL305: define({
    severity: 'error',
    title: 'A reference to another kind of thing',
    message: (facts: { id: string; found: string; wanted: string }) =>
      `"${facts.id}" is ${facts.found}, and here ${facts.wanted} is meant.`,
    hint: (facts) => `Name ${facts.wanted}.`,
    explanation: 'Each reference takes one kind of definition.',
  }),
  SL306: define({
    severity: 'error',
    title: 'An unknown document',
    message: (facts: { document: string } & Nearest) => `No document of sources.yaml is called "${facts.document}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Correct it, or list the document in sources.yaml.`,
    explanation: 'Sources are cited by the ids of sources.yaml, so that each has one title and one revision.',
  }),
  SL307: define({
    severity: 'error',
    title: 'Two values read the same',
    message: (facts: { words: string }) => `"${facts.words}" stands for two different values.`,
    hint: () => 'Give one of them other words.',
    explanation: 'In a table or a sentence nobody could tell the two apart.',
  }),
  SL308: define({
    severity: 'error',
    title: 'A range that does not fit together',
    message: (facts: { fault: 'order' | 'step' | 'whole'; from: string; to: string; step: string }) =>
      facts.fault === 'order'
        ? `The range ends at ${facts.to}, which is not above its start, ${facts.from}.`
        : facts.fault === 'step'
          ? `A step of ${facts.step} leads nowhere.`
          : `From ${facts.from}, steps of ${facts.step} never reach ${facts.to} exactly.`,
    hint: () => 'Choose from, to and step so that whole steps lead from one end to the other.',
    explanation: 'A number takes its values in whole steps from the start of its range to the end.',
  }),
  SL309: define({
    severity: 'error',
    title: 'Not a value of the condition',
    message: (facts: { condition: string; value: string; known: readonly string[] }) =>
      `"${facts.value}" cannot be the normal value of "${facts.condition}". Its values are ${list([...facts.known], 'and')}.`,
    hint: () => 'Write one of its values.',
    explanation: 'The normal value parts the normal cases from the abnormal ones. Numbers have none.',
  }),
  SL310: define({
    severity: 'error',
    title: 'Values or a number?',
    message: (facts: { condition: string }) =>
      `"${facts.condition}" must have either "values" or "number", and only one of them.`,
    hint: () => 'List its values, or give the range of its number.',
    explanation: 'A condition is either one of a few named values or a number with a unit.',
  }),
  SL311: define({
    severity: 'warning',
    title: 'Words that may not fit into a sentence',
    message: (facts: { words: string }) => `Sentences will read "The lights are lit ${facts.words}."`,
    hint: () =>
      'Begin with a preposition or a conjunction: "on the ground", "with the slats out", "while an engine runs".',
    explanation: 'What stands under "says" is put behind a state in generated sentences.',
  }),
  SL312: define({
    severity: 'error',
    title: 'Abnormal positions that do not fit together',
    message: (
      facts:
        | { fault: 'as'; position: string; as: string }
        | { fault: 'none'; control: string; aircraft: string; date?: string | undefined; unknown?: boolean },
    ) =>
      facts.fault === 'as'
        ? `"${facts.position}" counts as "${facts.as}", but only one of the two is abnormal.`
        : `${facts.date === undefined ? 'On' : `From ${facts.date} on, on`} ${facts.aircraft} "${facts.control}" ` +
          `${facts.unknown ? 'may have' : 'has'} no position that is normal.`,
    hint: (facts) =>
      facts.fault === 'as'
        ? 'Write "abnormal: true" at both, or at neither.'
        : 'Take out "abnormal" where the control usually stands.',
    explanation: 'Normal cases are those that a reader looks for first: each control must have a position in them.',
  }),
  SL313: define({
    severity: 'error',
    title: 'An unknown column',
    message: (facts: { column: string } & Nearest) => `No option is called "${facts.column}".`,
    hint: (facts) => `${didYouMean(facts.nearest)}Correct the column, or define the option in options.yaml.`,
    explanation: 'Beside serial, registration, from, to and kind, each column of aircraft.csv is one option.',
  }),
  SL314: define({
    severity: 'error',
    title: 'A column is missing',
    message: (facts: { column: string; option: boolean }) =>
      facts.option ? `There is no column for the option "${facts.column}".` : `There is no column "${facts.column}".`,
    hint: () => 'Add the column, and fill it in each line.',
    explanation:
      'Every aircraft has one value of every option; none is assumed. Where nobody knows it, "unknown" says so.',
  }),
  SL315: define({
    severity: 'error',
    title: 'Not a value of the option',
    message: (facts: { option: string; value: string; known: readonly string[] } & Nearest) =>
      `"${facts.option}" cannot be "${facts.value}". It can be ${list([...facts.known])}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its values, or add this one to options.yaml.`,
    explanation: 'The cell of an option holds the id of one of its values.',
  }),
  SL316: define({
    severity: 'error',
    title: 'Two aircraft with one serial',
    message: (facts: { serial: string }) => `The serial ${facts.serial} stands in two lines.`,
    hint: () => 'Correct one of them. One airframe has one line.',
    explanation: 'A serial names one airframe for good; addresses of pages are made of it.',
  }),
  SL317: define({
    severity: 'error',
    title: 'Two aircraft with one registration',
    message: (facts: { registration: string }) =>
      `${facts.registration} is the registration of two aircraft at the same time.`,
    hint: () => 'Correct one of them, or the dates of service and of changes.',
    explanation: 'A registration may pass from one airframe to another, but names one at a time.',
  }),
  SL318: define({
    severity: 'error',
    title: 'Spots that the item cannot have',
    message: (facts: { item: string; fault: 'kind' | 'lamps' }) =>
      facts.fault === 'kind'
        ? `"${facts.item}" is no light: only lights are drawn on the airframe.`
        : `"${facts.item}" names its lamps, each of which has a spot of its own.`,
    hint: (facts) =>
      facts.fault === 'kind' ? 'Take the spots out.' : 'Give each lamp its "spot", and take the list of spots out.',
    explanation:
      'Drawings of the aircraft mark each lamp at its spot. A light that names no lamps lists the spots of its units.',
  }),
  SL319: define({
    severity: 'error',
    title: 'Out of service before it came',
    message: (facts: { from: string; to: string }) =>
      `The aircraft is in service from ${facts.from} to ${facts.to}, which is earlier.`,
    hint: () => 'Correct one of the dates; leave "to" empty while it is in service.',
    explanation: 'Both days count as in service.',
  }),
  SL320: define({
    severity: 'error',
    title: 'The baseline is not in service',
    message: (facts: { serial: string }) =>
      `No aircraft with the serial ${facts.serial} is in service on the date of the book.`,
    hint: () => 'Name the serial of an aircraft of aircraft.csv that is in service on that date.',
    explanation: 'The other aircraft are compared with the baseline.',
  }),
  SL321: define({
    severity: 'error',
    title: 'An empty cell',
    message: (facts: { column: string }) => `The column "${facts.column}" is empty in this line.`,
    hint: () => 'Fill it in.',
    explanation:
      'Only "to" of an aircraft in service, "kind" and "document" may be left empty. A value that nobody knows is "unknown". ' +
      'In a decision table an empty cell stands for any value, but each row gives a state.',
  }),
  SL322: define({
    severity: 'error',
    title: 'Rules in one way only',
    message: (facts: { item: string; forms: readonly string[]; given: readonly string[] }) =>
      facts.given.length === 0
        ? `"${facts.item}" has no rules: neither ${quoted(facts.forms, 'or').replace(' or ', ' nor ')}.`
        : `"${facts.item}" has ${quoted(facts.given, 'and')}, of which only one can count.`,
    hint: (facts) => `Write ${quoted(facts.forms)}, and only one of them.`,
    explanation:
      'An item says what it shows by "rules", or by "attributes" with rules of their own; a message by "when" or "rules".',
  }),
  SL323: define({
    severity: 'error',
    title: '"otherwise" closes a list',
    message: (facts: { table?: boolean }) =>
      facts.table === true
        ? 'All cells before "then" are empty in this row, which leaves nothing over for the rows below it.'
        : 'Rules stand below "otherwise", which leaves nothing over for them.',
    hint: (facts) =>
      facts.table === true
        ? 'Move the row to the end of the table, and have one such row only.'
        : 'Move "otherwise" to the end of the list, and have it once only.',
    explanation:
      '"otherwise" takes every case that the other rules leave. In a decision table a row without tests is the "otherwise".',
  }),
  SL324: define({
    severity: 'error',
    title: 'A rule is incomplete',
    message: (facts: { given: readonly string[] }) =>
      facts.given.length === 0
        ? 'The rule says nothing.'
        : `The rule has ${list([...facts.given], 'and')} only, or too much.`,
    hint: () => 'Write "when" and "then", or "otherwise" alone.',
    explanation: 'A rule says when a state is shown; the last one may be "otherwise".',
  }),
  SL325: define({
    severity: 'error',
    title: 'An unknown state',
    message: (facts: { item: string; state: string; known: readonly string[] } & Nearest) =>
      `"${facts.item}" is never "${facts.state}". Its states are ${list([...facts.known], 'and')}.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Write one of its states, or list this one under "states".`,
    explanation: 'A rule gives one of the states of its item; without "states" these are dark and lit.',
  }),
  SL326: define({
    severity: 'error',
    title: 'A supply that changes nothing',
    message: (facts: { condition: string; item: string }) =>
      `"${facts.condition}" is given as a supply of "${facts.item}", but none of its rules reads it.`,
    hint: () => 'Write what happens when the supply is lost, or take it out of "supply".',
    explanation: 'The book would say that the item hangs on the supply and show tables in which it does not.',
  }),
  SL327: define({
    severity: 'error',
    title: 'A colour that the class does not have',
    message: (facts: { class: string; colour: string }) => `A ${facts.class} cannot be ${facts.colour}.`,
    hint: () =>
      'Warnings are red, cautions amber or yellow, advisories neither red nor green; reminders leave these to the alerts.',
    explanation:
      '14 CFR 25.1322(e) and (f) give the colours of warnings, cautions and advisories and limit their use elsewhere.',
  }),
  SL328: define({
    severity: 'error',
    title: 'Definitions go round in a circle',
    message: (facts: { path: readonly string[] }) => `Each of these reads the next: ${facts.path.join(' → ')}.`,
    hint: () => 'Break the circle: let one of them read the controls and conditions that the other one depends on.',
    explanation: 'What depends on itself cannot be worked out.',
  }),
  SL329: define({
    severity: 'error',
    title: 'A spot that cannot be drawn',
    message: (
      facts:
        | { fault: 'range'; name: string; value: string; from: number; to: number }
        | { fault: 'words' | 'sector' | 'alone' }
        | { fault: 'side'; side: string; spot: string },
    ) => {
      switch (facts.fault) {
        case 'range':
          return `"${facts.name}" is ${facts.value}, which is not from ${facts.from} to ${facts.to}.`;
        case 'words':
          return 'A spot given in percent needs words too, for tables and for readers who cannot see the drawing.';
        case 'sector':
          return 'A sector that ends where it begins is empty.';
        case 'alone':
          return 'A sector without a spot cannot be drawn.';
        case 'side':
          return `The side is "${facts.side}", but the spot lies ${facts.spot}.`;
      }
    },
    hint: (facts) => {
      switch (facts.fault) {
        case 'range':
          return 'Percentages are of the length, the half span (negative on the left) and the height; bearings go from 0 to 360.';
        case 'words':
          return 'Add "at", for example: at: left engine pylon.';
        case 'sector':
          return 'Write bearings clockwise from dead ahead, for example { from: 110, to: 250 }; all round is { from: 0, to: 360 }.';
        case 'alone':
          return 'Add "spot", or take the sector out.';
        case 'side':
          return 'Correct one of them, or leave the side out: the spot says it.';
      }
    },
    explanation:
      'Drawings show each lamp at its spot and, where it is given, the sector that it is seen from. They must say the same as ' +
      'the tables.',
  }),
  SL330: define({
    severity: 'error',
    title: 'Not a number',
    message: (facts: { text: string }) => `"${facts.text}" is not a plain decimal number.`,
    hint: () => 'Write figures with a decimal point if needed, without separators: 10800, 0.5.',
    explanation: 'Ranges are counted exactly, so that they are written as plain decimals.',
  }),
  SL331: define({
    severity: 'error',
    title: 'A control without positions',
    message: (facts: { control: string }) => `"${facts.control}" has no positions.`,
    hint: () => 'List under "positions" where it can stand.',
    explanation: 'A control always stands in one of its positions.',
  }),
};
