/** SL501-: notes, tours and notices, their references, computed blocks and checked sentences. */
import { define } from '../define.ts';
import { didYouMean } from '../nearest.ts';

type Nothing = Record<never, never>;

/** What the text is. */
interface Kind {
  readonly kind: 'note' | 'tour' | 'notice';
}
const MANY = { note: 'Notes', tour: 'Tours', notice: 'Notices' } as const;
/** What the block at the head of a text must say beside its title. */
const KEYS = {
  note: '',
  tour: ' and "panel: ..."',
  notice: ', "number: ...", "date: ..." and "expires: ..."',
} as const;

export const proseCodes = {
  SL501: define({
    severity: 'error',
    title: 'A reference to nothing',
    message: (facts: Kind & { id: string; nearest?: string | undefined }) =>
      `The ${facts.kind} refers to "${facts.id}", which has no page.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the id behind "ref:".`,
    explanation:
      'A reference becomes a link to the page of a panel, control, light, sign, annunciator, message, condition or option.',
  }),
  SL502: define({
    severity: 'error',
    title: 'A text without a heading block',
    message: ({ kind }: Kind) =>
      `A ${kind} begins with a block between two lines of three dashes, which this one does not have.`,
    hint: ({ kind }) => `Put three dashes in the first line, then "title: ..."${KEYS[kind]}, then three dashes again.`,
    explanation:
      'The block gives the title; in a note also, under "about", the definitions whose pages show it, in a tour its panel, and in a notice its number and dates.',
  }),
  SL503: define({
    severity: 'error',
    title: 'HTML in a text',
    message: ({ kind }: Kind) => `${MANY[kind]} are Markdown; HTML would not be checked, nor printed as it should.`,
    hint: () => 'Say it in Markdown. If the characters are meant as they are, put a backslash before "<".',
    explanation: 'The book carries nothing that its own checks cannot read.',
  }),
  SL504: define({
    severity: 'error',
    title: 'A picture in a text',
    message: ({ kind }: Kind) => `${MANY[kind]} cannot hold pictures.`,
    hint: () => 'Say it in words, or refer to the page that has the diagram.',
    explanation: 'A picture cannot be held to the rules, so that it would go stale unseen.',
  }),
  SL505: define({
    severity: 'error',
    title: 'An unknown block',
    message: (facts: Kind & { name: string }) => `"${facts.name}" is no block that a ${facts.kind} can have.`,
    hint: ({ kind }) =>
      `Use :checked[...]{holds="..."}${kind === 'tour' ? ', :::trap' : ''}, ::table{of="..."}, ::difference{of="..." on="..." from="..."}, ::aircraft{with="..."} or ::changes{by="..."}. If the colon is meant as it is, put a backslash before it.`,
    explanation:
      'What is computed in a text are its checked sentences, tables, differences, lists of aircraft and of changes. A tour has traps besides.',
  }),
  SL506: define({
    severity: 'error',
    title: 'A checked sentence that lacks a part',
    message: (facts: { lacks: 'claim' | 'words' }) =>
      facts.lacks === 'claim'
        ? 'The sentence is marked as checked but does not say what is to be checked.'
        : 'What is to be checked is said, but there is no sentence.',
    hint: (facts) =>
      facts.lacks === 'claim'
        ? 'Add {holds="..."} with an expression behind the closing bracket.'
        : 'Write the sentence between the square brackets: :checked[...]{holds="..."}.',
    explanation: 'A checked sentence carries a claim, which must hold in every case, in words that a reader sees.',
  }),
  SL507: define({
    severity: 'error',
    title: 'A table of what?',
    message: (_facts: Nothing) => 'The block does not say whose table is meant.',
    hint: () => 'Write ::table{of="..."} with the id of a light, sign, annunciator or message.',
    explanation: 'The block puts the computed state tables of one item into the note.',
  }),
  SL508: define({
    severity: 'error',
    title: 'An unknown aircraft',
    message: (facts: { registration: string; nearest?: string | undefined }) =>
      `No aircraft with the registration "${facts.registration}" is in service on the date of the book.`,
    hint: (facts) =>
      `${didYouMean(facts.nearest)}Write a registration of aircraft.csv. A table without "on" is shown for all fits.`,
    explanation: 'Computed parts of a text name aircraft as they are called on the date of the book.',
  }),
  SL509: define({
    severity: 'error',
    title: 'A link that leads nowhere',
    message: (facts: { url: string }) => `"${facts.url}" is neither a reference nor a web address.`,
    hint: () => 'Write [words](ref:id) for a page of the book, or a whole address that begins with https://.',
    explanation: 'Pages of the book are linked by id, so that a link cannot break unseen.',
  }),
  SL510: define({
    severity: 'error',
    title: 'A stop without a reference',
    message: (_facts: Nothing) => 'The heading of a stop is a reference to what stands there, and nothing else.',
    hint: () =>
      'Write ## [](ref:id) with the id of a control, a place, or a light, sign or annunciator. Words between the brackets take the place of its title.',
    explanation: 'What the class is shown at a stop is computed from what the heading refers to.',
  }),
  SL511: define({
    severity: 'error',
    title: 'A stop of another panel',
    message: (facts: { id: string; panel: string; tour: string }) =>
      `"${facts.id}" belongs to the panel "${facts.panel}", and the tour walks along "${facts.tour}".`,
    hint: () => 'Leave the stop out and refer to it in the text, or make a tour of the other panel.',
    explanation: 'A tour is a walk along one panel, so that what it leaves out can be told.',
  }),
  SL512: define({
    severity: 'error',
    title: 'The same stop twice',
    message: (facts: { id: string }) => `"${facts.id}" is a stop of this tour already.`,
    hint: () => 'Say there what is to be said of it, or leave one of the two out.',
    explanation: 'Each stop has an address of its own in the book.',
  }),
  SL513: define({
    severity: 'error',
    title: 'A tour without stops',
    message: (_facts: Nothing) => 'The tour has no stop.',
    hint: () => 'Begin each stop with a heading of the form ## [](ref:id).',
    explanation: 'A tour is a list of stops, in the order in which they are walked.',
  }),
  SL514: define({
    severity: 'error',
    title: 'A trap outside of a stop',
    message: (_facts: Nothing) =>
      'A trap belongs to a stop and stands right beneath it, not before the first one nor within a list, a quotation or another trap.',
    hint: () =>
      'Put :::trap and the closing ::: at the beginning of lines of their own, below the heading of the stop.',
    explanation: 'The class is shown the traps of each stop beside what is computed of it.',
  }),
  SL515: define({
    severity: 'error',
    title: 'A heading that is no stop',
    message: (_facts: Nothing) => 'The headings of a tour are its stops; they stand at level 2 and by themselves.',
    hint: () => 'Begin it with two number signs if it is a stop. Say anything else as text.',
    explanation: 'Whatever stands below a heading is said at that stop.',
  }),
  SL516: define({
    severity: 'error',
    title: 'A tour for no aircraft',
    message: (_facts: Nothing) => 'No aircraft of the book is as "for" says.',
    hint: () => 'Correct "for", or leave it out for the whole fleet.',
    explanation: 'A tour shows what is so on the aircraft that it is for.',
  }),
  SL517: define({
    severity: 'error',
    title: 'A stop that is not fitted',
    message: (facts: { id: string }) => `None of the aircraft of the tour has "${facts.id}".`,
    hint: () => 'Leave the stop out, or correct "for".',
    explanation: 'A tour shows what is so on the aircraft that it is for.',
  }),
  SL518: define({
    severity: 'error',
    title: 'A trap with settings',
    message: (facts: { key: string }) => `A trap has no settings, so that "${facts.key}" would do nothing.`,
    hint: () => 'Take out what stands in the braces behind :::trap. What the class should read goes below it.',
    explanation: 'A trap is shown as it is written, at its stop, on all aircraft that the tour is for.',
  }),
  SL520: define({
    severity: 'error',
    title: 'Two notices with one number',
    message: (facts: { number: string }) => `Another notice has the number "${facts.number}".`,
    hint: () => 'Give each notice a number of its own, an expired one too.',
    explanation: 'Crews name a notice by its number, also long after it has expired.',
  }),
  SL521: define({
    severity: 'error',
    title: 'A notice that expires before it is issued',
    message: (facts: { date: string; expires: string }) =>
      `The notice is of ${facts.date} and expires on ${facts.expires}, before that day.`,
    hint: () => 'Correct "date" or "expires". "expires" is the last day on which the notice holds.',
    explanation: 'A notice holds from its date to the day on which it expires, both included.',
  }),
  SL522: define({
    severity: 'error',
    title: 'A notice for no aircraft',
    message: (facts: { key: 'for' | 'changed-by' }) =>
      facts.key === 'for'
        ? 'No aircraft of the book is as "for" says.'
        : 'No aircraft of the book is changed by the document that "changed-by" names.',
    hint: (facts) => `Correct "${facts.key}", or leave it out for the whole fleet.`,
    explanation: 'A notice says at its head which aircraft are affected.',
  }),
  SL523: define({
    severity: 'error',
    title: 'Affected aircraft said twice',
    message: (_facts: Nothing) => 'The notice says both by "for" and by "changed-by" which aircraft are affected.',
    hint: () => 'Keep the one that is meant, and put the other in as ::aircraft{with="..."} or ::changes{by="..."}.',
    explanation: 'Two lists of aircraft at the head of a notice would leave open which one counts.',
  }),
  SL524: define({
    severity: 'error',
    title: 'A block that lacks a part',
    message: (facts: { name: string; lacks: string }) => `The block ::${facts.name} does not say "${facts.lacks}".`,
    hint: (facts) => `Add ${facts.lacks}="..." within the braces.`,
    explanation:
      '::difference needs "of" (a panel, a control or an item), "on" and "from" (two registrations), ::aircraft needs "with" (an expression over options), and ::changes needs "by" (a document).',
  }),
  SL525: define({
    severity: 'error',
    title: 'A notice of a later day',
    message: (facts: { date: string; book: string }) =>
      `The notice is of ${facts.date}, and the book is as of ${facts.book}.`,
    hint: () => 'Correct the date, or put the notice into the next revision of the book.',
    explanation: 'What the book says is so on its date; a notice that comes later belongs to a later revision.',
  }),
  SL526: define({
    severity: 'error',
    title: 'A difference of an aircraft from itself',
    message: (facts: { registration: string }) =>
      `The block compares ${facts.registration} with ${facts.registration}.`,
    hint: () => 'Name two aircraft, one in "on" and the other in "from".',
    explanation: '::difference shows how one aircraft differs from another.',
  }),
  SL527: define({
    severity: 'error',
    title: 'A document that changes nothing',
    message: (facts: { document: string }) => `No change in modifications.csv is ordered by ${facts.document}.`,
    hint: () => 'Correct the id, or name the document in the column "document" of modifications.csv.',
    explanation: '::changes lists the changes that a document orders.',
  }),
};
