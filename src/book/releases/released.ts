/** A release: what a revision of the book said, kept as data beside the content, so that later ones can be compared with it. */
import { absentValue, type Compiled, comparable, valueIds } from '../../compile/index.ts';
import { crc32 } from '../../logic/index.ts';
import { type PackedComparison, packComparison } from '../comparison/packed-comparison.ts';
import { slug } from '../row-keys.ts';
import { type Listing, listings, WORDS } from './listings.ts';
import { keptOrders, type TableOrders, tableOrders } from './table-orders.ts';

/** What a release holds beside its revision and date. */
export interface Released {
  readonly comparison: PackedComparison;
  /** By the id of a control, sequence or condition with values, for each fit the ids of those that occur in some case. */
  readonly occurring: Readonly<Record<string, readonly (readonly string[])[]>>;
  /** Not in the earliest releases of this format. */
  readonly orders?: TableOrders;
  /** Which way the words were summed up: those of two ways are not compared. */
  readonly words: number;
  readonly listings: readonly Listing[];
}

/** An earlier revision of the book. */
export interface Release extends Released {
  /** The name of its file, without the ending. */
  readonly name: string;
  readonly revision: string;
  /** ISO. */
  readonly date: string;
}

/** Of what is written: raised when an older Switchleaf could not read it any more. */
export const RELEASE_FORMAT = 1;

/** What the file of a release holds, in this order. */
export interface ReleaseFile {
  readonly switchleafRelease: typeof RELEASE_FORMAT;
  readonly revision: string;
  readonly date: string;
  /** Of the text of `book`: what a hand has changed would tell of changes that nobody made. */
  readonly checksum: number;
  readonly book: Released;
}

/** What the file of the present revision is called, beside the content: its revision in small letters, or else its date. */
export function releasePath({ fleet }: Compiled): string {
  const { revision, date } = fleet.book;
  return `releases/${slug(revision) || date}.json`;
}

/** The text of a release file: the present revision, to be compared with later ones. Its head stands on lines of its own. */
export function releaseText(compiled: Compiled, last?: Release): string {
  const { revision, date } = compiled.fleet.book;
  const book: Released = {
    comparison: packComparison(compiled),
    occurring: occurringIds(compiled),
    orders: tableOrders(compiled, last?.orders && keptOrders(compiled, last.orders)),
    words: WORDS,
    listings: listings(compiled.fleet),
  };
  const text = JSON.stringify(book);
  const head = { switchleafRelease: RELEASE_FORMAT, revision, date, checksum: crc32(text) };
  const lines = Object.entries(head).map(([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)},\n`);
  return `{\n${lines.join('')}"book":\n${text}\n}\n`;
}

/** What occurs, by ids: levels and values have other numbers in every release. */
export function occurringIds(compiled: Compiled): Released['occurring'] {
  const { occurring } = comparable(compiled);
  const entries = compiled.space.meanings.flatMap((meaning, level): [string, string[][]][] => {
    if (meaning.kind !== 'control' && meaning.kind !== 'sequence' && meaning.kind !== 'condition') return [];
    const ids = valueIds(meaning);
    const absent = meaning.kind === 'condition' ? -1 : absentValue(meaning);
    const id = meaning.kind === 'control' ? meaning.control.id : compiled.space.variables[level]?.id;
    return [
      [
        id ?? '',
        compiled.fits.map((fit) =>
          occurring(level, fit)
            .filter((value) => value !== absent)
            .map((value) => ids[value] ?? ''),
        ),
      ],
    ];
  });
  return Object.fromEntries(entries);
}
