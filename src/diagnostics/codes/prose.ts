/** SL501-: notes, their references, computed blocks and checked sentences. */
import { define } from '../define.ts';
import { didYouMean } from '../nearest.ts';

type Nothing = Record<never, never>;

export const proseCodes = {
  SL501: define({
    severity: 'error',
    title: 'A reference to nothing',
    message: (facts: { id: string; nearest?: string | undefined }) =>
      `The note refers to "${facts.id}", which has no page.`,
    hint: (facts) => `${didYouMean(facts.nearest)}Check the id behind "ref:".`,
    explanation:
      'A reference becomes a link to the page of a panel, control, light, sign, annunciator, message, condition or option.',
  }),
  SL502: define({
    severity: 'error',
    title: 'A note without a heading block',
    message: (_facts: Nothing) =>
      'A note begins with a block between two lines of three dashes, which this one does not have.',
    hint: () => 'Put three dashes in the first line, then "title: ...", then three dashes again.',
    explanation: 'The block gives the title of the note and, under "about", the definitions whose pages show it.',
  }),
  SL503: define({
    severity: 'error',
    title: 'HTML in a note',
    message: (_facts: Nothing) => 'Notes are Markdown; HTML would not be checked, nor printed as it should.',
    hint: () => 'Say it in Markdown. If the characters are meant as they are, put a backslash before "<".',
    explanation: 'The book carries nothing that its own checks cannot read.',
  }),
  SL504: define({
    severity: 'error',
    title: 'A picture in a note',
    message: (_facts: Nothing) => 'Notes cannot hold pictures.',
    hint: () => 'Say it in words, or refer to the page that has the diagram.',
    explanation: 'A picture cannot be held to the rules, so that it would go stale unseen.',
  }),
  SL505: define({
    severity: 'error',
    title: 'An unknown block',
    message: (facts: { name: string }) => `"${facts.name}" is no block that a note can have.`,
    hint: () =>
      'Use :checked[...]{holds="..."} or ::table{of="..."}. If the colon is meant as it is, put a backslash before it.',
    explanation: 'A note has two kinds of computed parts: checked sentences and tables.',
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
};
