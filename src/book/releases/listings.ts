/** All that has a name in a book, with a checksum of the words about it: what a later revision says otherwise shows by them. */
import { crc32 } from '../../logic/index.ts';
import type { Fleet } from '../../model/index.ts';
import { detectorLines, procedureLines, sequenceLines, signalLines, soundLines } from './lines.ts';

/** Things of one kind are listed together. In the order of the page of changes. */
export const LISTED_KINDS = {
  panel: 'Panels',
  control: 'Controls',
  light: 'Lights',
  sign: 'Signs',
  annunciator: 'Annunciators',
  message: 'Messages',
  sound: 'Sounds',
  supply: 'Supplies',
  lamp: 'Lamps and other properties',
  condition: 'Conditions',
  signal: 'Signals',
  detector: 'Detectors',
  sequence: 'Sequences',
  option: 'Options',
  procedure: 'Procedures',
  note: 'Notes',
  tour: 'Tours',
  notice: 'Crew notices',
  sheet: 'Sheets',
  practice: 'Practice',
  query: 'Queries',
  source: 'Sources',
  term: 'Glossary',
} as const;

export type ListedKind = keyof typeof LISTED_KINDS;

/** Raised when a definition that says the same as before would come to another checksum: a new property of the fleet is enough. */
export const WORDS = 1;

export interface Listing {
  readonly kind: ListedKind;
  /** Unique within its kind. */
  readonly id: string;
  readonly title: string;
  /** Of the words; what the tables, sentences and flows show is compared by itself. */
  readonly words: number;
  /** Of a source its revision; of a query whether it is answered. */
  readonly stand?: string;
  /** What is said line by line, of what is not compared case by case. */
  readonly lines?: readonly string[];
}

export function listings(fleet: Fleet): Listing[] {
  const first = firstIds(fleet);
  const of = <T extends { readonly id: string; readonly title: string }>(
    kind: ListedKind,
    list: readonly T[],
    aside: readonly (keyof T)[] = [],
    more: (one: T) => Pick<Listing, 'stand' | 'lines'> = () => ({}),
  ): Listing[] =>
    list.map((one) => ({
      ...{ kind, id: one.id, title: one.title, words: wordsOf(one, aside as readonly string[], first) },
      ...more(one),
    }));
  return [
    ...of('panel', fleet.panels, ['controls', 'items']),
    // Positions, legends and what is fitted are compared fit by fit, rules case by case.
    ...of('control', fleet.controls, ['fitted', 'positions']),
    ...fleet.items.flatMap((item) => [
      ...of(item.kind, [item], [...BEHAVIOUR, 'suppressedBy', 'latch']),
      ...of(
        'lamp',
        item.attributes.slice(item.attributes[0]?.lamp ? 0 : 1).map((attribute) => ({
          ...attribute,
          id: `${item.id}.${attribute.id}`,
          title: `${item.title}: ${attribute.title}`,
        })),
        ['rules', 'policy', 'control'],
      ),
    ]),
    ...of('sound', fleet.sounds, [], (one) => ({ lines: soundLines(fleet, one) })),
    ...of('condition', fleet.conditions),
    ...of('signal', fleet.signals, [], (one) => ({ lines: signalLines(fleet, one) })),
    ...of('detector', fleet.detectors, [], (one) => ({ lines: detectorLines(fleet, one) })),
    ...of('sequence', fleet.sequences, [], (one) => ({ lines: sequenceLines(fleet, one) })),
    ...of('option', fleet.options),
    ...of('procedure', fleet.procedures, [], (one) => ({ lines: procedureLines(fleet, one) })),
    ...of('note', fleet.notes, ['about', 'claims', 'quotes']),
    ...of('tour', fleet.tours, ['panel', 'claims', 'quotes']),
    ...of(
      'notice',
      fleet.notices.map((notice) => ({ ...notice, id: notice.name })),
      ['about', 'claims', 'quotes'],
    ),
    ...of('sheet', fleet.sheets),
    ...of('practice', fleet.practice),
    ...of('query', fleet.queries, [], ({ answered }) => ({ stand: answered ? 'answered' : 'open' })),
    ...of('source', fleet.sources, [], ({ revision }) => ({ stand: revision })),
    ...of('term', fleet.glossary),
  ];
}

/** Of a thing itself: its title is compared by itself, as is what it behaves by. */
const OWN: readonly string[] = ['id', 'title', 'formerly'];
const BEHAVIOUR = [
  'fitted',
  'legends',
  'legend',
  'attributes',
  'noun',
  'plural',
  'supply',
  'stations',
  'inhibit',
] as const;

/** Where something stands in a file, and what a text refers to and claims by ids, which have no words. */
function isLeftOut(key: string, value: unknown): boolean {
  if (['place', 'formerly', 'url', 'attributes'].includes(key)) return true;
  // In other things these are the position of a control and a document.
  if (typeof value !== 'object' || value === null) return false;
  return key === 'position' || (key === 'source' && 'path' in value);
}

/** Renaming an id changes no words: things go by the first id that they had. */
function firstIds(fleet: Fleet): ReadonlyMap<string, string> {
  const { panels, options, controls, conditions, sequences, items, sounds, procedures, signals, detectors } = fleet;
  const defined = [panels, options, controls, conditions, sequences, items, sounds, procedures, signals, detectors];
  const parts = [...options.flatMap(({ values }) => values), ...controls.flatMap(({ positions }) => positions)];
  return new Map(
    [...defined.flat(), ...parts].flatMap(({ id, formerly: [former] = [] }) =>
      former === undefined ? [] : [[id, former] as const],
    ),
  );
}

function wordsOf(thing: object, aside: readonly string[], first: ReadonlyMap<string, string>): number {
  const left = Object.entries(thing).filter(([key]) => !OWN.includes(key) && !aside.includes(key));
  return crc32(
    JSON.stringify(Object.fromEntries(left), (key, value) => {
      if (isLeftOut(key, value)) return undefined;
      return typeof value === 'string' ? (first.get(value) ?? value) : value;
    }),
  );
}
