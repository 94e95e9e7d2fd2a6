/** The lists of supplies, sequences, sounds and tours: only those with something on them are in the book. */
import type { Compiled } from '../compile/index.ts';
import type { Tour } from '../model/index.ts';
import {
  CONDITIONS,
  EXPLORER,
  FLEET,
  GLOSSARY,
  LEGENDS,
  MESSAGES,
  NOTICES,
  OPTIONS,
  PRACTICE,
  PROCEDURES,
  procedureAddress,
  SEEN,
  SEQUENCES,
  SHEETS,
  SUPPLIES,
  TERMS,
  TOURS,
  tourAddress,
} from './addresses.ts';
import type { Address, Listed } from './book.ts';
import { hasExplorer } from './pages/explorer.ts';
import { hasSupplies } from './pages/supply.ts';

export function hasSequences({ fleet }: Compiled): boolean {
  return fleet.sequences.length + fleet.timelines.length > 0;
}

export function hasMessages({ fleet }: Compiled): boolean {
  return fleet.sounds.length > 0 || fleet.items.some(({ kind }) => kind === 'message');
}

export function hasLegends({ fleet }: Compiled): boolean {
  return fleet.items.some(({ kind, legend }) => kind !== 'message' && legend !== undefined);
}

/** The pages of the lists, each with the question that it answers: what a reader in a hurry looks up comes first. */
export function listPages(compiled: Compiled): Listed[] {
  const { options, conditions, glossary, tours, notices, practice } = compiled.fleet;
  const listed = (there: boolean, to: Address, title: string, detail: string): Listed[] =>
    there ? [{ to, title, detail }] : [];
  return [
    ...listed(
      compiled.fleet.controls.length > 0,
      SEEN,
      'From what I see',
      'A legend, a colour, a dark lamp, a selector’s positions: what it can mean, and on which aircraft.',
    ),
    ...listed(
      hasExplorer(compiled),
      EXPLORER,
      'Explorer',
      'Move a control or a condition, and see what lights up, what goes dark, and what goes on by itself.',
    ),
    ...listed(hasLegends(compiled), LEGENDS, 'Legends', 'What a legend can mean, lit or dark.'),
    ...listed(hasMessages(compiled), MESSAGES, 'Messages and sounds', 'What raises them, and what holds them back.'),
    ...listed(notices.length > 0, NOTICES, 'Crew notices', 'What crews are to know now, and until when.'),
    ...procedureList(compiled),
    ...listed(hasSupplies(compiled), SUPPLIES, 'Supplies', 'What goes dark with each of them, and what stays.'),
    ...listed(
      hasSequences(compiled),
      SEQUENCES,
      'Sequences and timelines',
      'What goes on by itself, step by step, and how long it takes.',
    ),
    ...listed(options.length > 0, FLEET, 'The fleet by option', 'Which aircraft is fitted how, now and later.'),
    ...listed(
      options.length > 0,
      OPTIONS,
      'Options',
      'What can differ between aircraft, and what each option decides.',
    ),
    ...listed(
      conditions.length > 0,
      CONDITIONS,
      'Conditions and signals',
      'What the lights depend on beside their controls, in one place.',
    ),
    ...listed(
      glossary.length > 0,
      GLOSSARY,
      'Glossary',
      'Words of the trade and of the house, as this book uses them.',
    ),
    {
      to: SHEETS,
      title: 'Sheets to print',
      detail: 'Quick references for one aircraft, on a stated number of sheets.',
    },
    { to: TERMS, title: 'Index', detail: 'Everything that has a name, from A to Z.' },
    ...listed(tours.length > 0, TOURS, 'Tours', 'A panel, stop by stop, for those who teach it.'),
    ...listed(practice.length > 0, PRACTICE, 'Practice sheets', 'Questions to print, with the answers and why.'),
  ];
}

/** The one procedure, or the list of several. */
function procedureList({ fleet: { procedures } }: Compiled): Listed[] {
  const [first, ...others] = procedures;
  if (!first) return [];
  const detail = 'Where each control should stand, stage by stage, and what is then lit.';
  return others.length > 0
    ? [{ to: PROCEDURES, title: 'Procedures', detail }]
    : [{ to: procedureAddress(first), title: first.title, detail }];
}

export function listedTour(tour: Tour): Listed {
  const stops = `${tour.stops.length} ${tour.stops.length === 1 ? 'stop' : 'stops'}`;
  const detail = tour.minutes === undefined ? stops : `${stops}, ${tour.minutes} min`;
  return { to: tourAddress(tour), title: tour.title, detail };
}
