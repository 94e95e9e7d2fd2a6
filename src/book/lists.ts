/** The lists of supplies, sequences, sounds and tours: only those with something on them are in the book. */
import type { Compiled } from '../compile/index.ts';
import type { Tour } from '../model/index.ts';
import {
  CONDITIONS,
  FLEET,
  itemAddress,
  LEGENDS,
  MESSAGES,
  OPTIONS,
  PROCEDURES,
  procedureAddress,
  SEQUENCES,
  SUPPLIES,
  TOURS,
  tourAddress,
} from './addresses.ts';
import type { HomePage, Listed } from './book.ts';
import { listedSequence, listedSound } from './links-time.ts';
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

/** The pages of the lists, for the contents: what a reader in a hurry looks up comes first. */
export function listPages(compiled: Compiled): Listed[] {
  const { options, conditions } = compiled.fleet;
  return [
    ...procedureList(compiled),
    ...(hasLegends(compiled) ? [{ to: LEGENDS, title: 'Legends: what they can mean' }] : []),
    ...(hasMessages(compiled) ? [{ to: MESSAGES, title: 'Messages and sounds' }] : []),
    ...(options.length > 0
      ? [
          { to: FLEET, title: 'The fleet by option' },
          { to: OPTIONS, title: 'Options' },
        ]
      : []),
    ...(conditions.length > 0 ? [{ to: CONDITIONS, title: 'Conditions and signals' }] : []),
    ...(hasSupplies(compiled) ? [{ to: SUPPLIES, title: 'Supplies' }] : []),
    ...(hasSequences(compiled) ? [{ to: SEQUENCES, title: 'Sequences and timelines' }] : []),
    ...(compiled.fleet.tours.length > 0 ? [{ to: TOURS, title: 'Tours' }] : []),
  ];
}

/** The one procedure, or the list of several. */
function procedureList({ fleet: { procedures } }: Compiled): Listed[] {
  const [first, ...others] = procedures;
  if (!first) return [];
  return [
    {
      to: others.length > 0 ? PROCEDURES : procedureAddress(first),
      title: others.length > 0 ? 'Procedures' : first.title,
    },
  ];
}

/** What the home page has of them. */
export function homeLists(
  compiled: Compiled,
): Pick<HomePage, 'procedures' | 'supplies' | 'sequences' | 'sounds' | 'tours'> {
  const { items, procedures, sequences, sounds, tours } = compiled.fleet;
  const supplies = items.filter(({ kind }) => kind === 'supply');
  const named = sequences.filter(({ kind }) => kind === 'sequence');
  return {
    procedures: procedures.map((procedure) => ({ to: procedureAddress(procedure), title: procedure.title })),
    supplies: hasSupplies(compiled)
      ? [
          { to: SUPPLIES, title: 'What is lost with what' },
          ...supplies.map((supply) => ({ to: itemAddress(supply), title: supply.title })),
        ]
      : [],
    sequences: hasSequences(compiled)
      ? [...named.map(listedSequence), { to: SEQUENCES, title: 'All sequences, latches and timelines' }]
      : [],
    sounds: sounds.map(listedSound),
    tours: tours.map(listedTour),
  };
}

export function listedTour(tour: Tour): Listed {
  const stops = `${tour.stops.length} ${tour.stops.length === 1 ? 'stop' : 'stops'}`;
  const detail = tour.minutes === undefined ? stops : `${stops}, ${tour.minutes} min`;
  return { to: tourAddress(tour), title: tour.title, detail };
}
