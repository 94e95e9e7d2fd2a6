/** SL501-: notes and tours, their references, computed blocks and checked sentences. */
import { define } from '../define.ts';
import { didYouMean } from '../nearest.ts';

type Nothing = Record<never, never>;

/** What the text is. */
interface Kind {
  readonly kind: 'note' | 'tour';
}
const MANY = { note: 'Notes', tour: 'Tours' } as const;

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
    hint: ({ kind }) =>
      `Put three dashes in the first line, then "title: ..."${kind === 'tour' ? ' and "panel: ..."' : ''}, then three dashes again.`,
    explanation:
      'The block gives the title; in a note also, under "about", the definitions whose pages show it, and in a tour its panel.',
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
      `Use :checked[...]{holds="..."}${kind === 'tour' ? ', :::trap' : ''} or ::table{of="..."}. If the colon is meant as it is, put a backslash before it.`,
    explanation: 'A text has two kinds of computed parts: checked sentences and tables. A tour has traps besides.',
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
      `${didYouMean(facts.nearest)}Write a registration of aircraft.csv, or leave "on" out for all fits.`,
    explanation: '"on" picks the tables of the fit group that one aircraft belongs to.',
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
};
