/** All that has a name in a book, with a checksum of the words about it: what a later revision says otherwise shows by them. */
import { crc32 } from '../../logic/index.ts';
import type { Fleet } from '../../model/index.ts';

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
}

export function listings(fleet: Fleet): Listing[] {
  const of = <T extends { readonly id: string; readonly title: string }>(
    kind: ListedKind,
    list: readonly T[],
    aside: readonly (keyof T)[] = [],
    stand?: (one: T) => string,
  ): Listing[] =>
    list.map((one) => ({
      ...{ kind, id: one.id, title: one.title, words: wordsOf(one, aside as readonly string[]) },
      ...(stand ? { stand: stand(one) } : {}),
    }));
  return [
    ...of('panel', fleet.panels, ['controls', 'items']),
    // Positions, legends and what is fitted are compared fit by fit, rules case by case.
    ...of('control', fleet.controls, ['fitted', 'positions']),
    ...fleet.items.flatMap((item) => [
      ...of(item.kind, [item], ['fitted', 'legends', 'legend', 'attributes', 'noun', 'plural']),
      ...of(
        'lamp',
        item.attributes.slice(item.attributes[0]?.lamp ? 0 : 1).map((attribute) => ({
          ...attribute,
          id: `${item.id}.${attribute.id}`,
          title: `${item.title}: ${attribute.title}`,
        })),
        ['rules', 'policy'],
      ),
    ]),
    ...of('sound', fleet.sounds),
    ...of('condition', fleet.conditions),
    ...of('signal', fleet.signals),
    ...of('detector', fleet.detectors),
    ...of('sequence', fleet.sequences),
    ...of('option', fleet.options),
    ...of('procedure', fleet.procedures),
    ...of('note', fleet.notes, ['about']),
    ...of('tour', fleet.tours, ['panel']),
    ...of(
      'notice',
      fleet.notices.map((notice) => ({ ...notice, id: notice.name })),
      ['about'],
    ),
    ...of('sheet', fleet.sheets),
    ...of('practice', fleet.practice),
    ...of('query', fleet.queries, [], ({ answered }) => (answered ? 'answered' : 'open')),
    ...of('source', fleet.sources, [], ({ revision }) => revision),
    ...of('term', fleet.glossary),
  ];
}

/** Where a thing stands in a file says nothing about it, its title and what it behaves by are compared by themselves. */
const LEFT_OUT: readonly string[] = [
  'place',
  'position',
  'id',
  'title',
  'formerly',
  'control',
  'supply',
  'stations',
  'inhibit',
  'suppressedBy',
  'latch',
  // What a text refers to and claims by its ids.
  'attributes',
  'url',
  'claims',
  'quotes',
  'see',
];

function wordsOf(thing: object, aside: readonly string[]): number {
  const left = Object.entries(thing).filter(([key]) => !aside.includes(key));
  return crc32(
    JSON.stringify(Object.fromEntries(left), (key, value) => {
      if (LEFT_OUT.includes(key)) return undefined;
      // The file that a text stands in.
      if (key === 'source' && typeof value === 'object' && 'path' in value) return undefined;
      return value;
    }),
  );
}
