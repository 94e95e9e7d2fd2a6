/** What is new in the book, gone from it or called otherwise, and of what the words have changed. */
import type { Compiled } from '../../compile/index.ts';
import type { Fleet } from '../../model/index.ts';
import {
  ABOUT,
  indexOf,
  itemAddress,
  noticeAddress,
  practiceAddress,
  QUERIES,
  queryAnchor,
  sourceAnchor,
  tourAddress,
} from '../addresses.ts';
import type { Inline, Listed } from '../book.ts';
import type { ChangesPage, ListedChanges } from '../book-changes.ts';
import { link, text } from '../cells.ts';
import { LISTED_KINDS, type ListedKind, type Listing, listings, WORDS } from './listings.ts';
import type { Released } from './released.ts';

/** `before` goes by the present ids. */
export function listedChanges(
  { fleet }: Pick<Compiled, 'fleet'>,
  { listings: before, words }: Pick<Released, 'listings' | 'words'>,
): ChangesPage['lists'] {
  const now = listings(fleet);
  const keyed = (list: readonly Listing[]): Map<string, Listing> =>
    new Map(list.map((each) => [`${each.kind} ${each.id}`, each]));
  const [old, young] = [keyed(before), keyed(now)];
  const linkOf = linksOf(fleet);
  const pairs = [...young].flatMap(([key, here]) => {
    const there = old.get(key);
    return there ? [{ here, there }] : [];
  });
  const lists = [
    { id: 'new', title: 'New in the book', kinds: byKind([...young].filter(([key]) => !old.has(key)).map(entry)) },
    {
      id: 'gone',
      title: 'No longer in the book',
      kinds: byKind(
        [...old].filter(([key]) => !young.has(key)).map(([, { kind, title }]) => [kind, [text(title)]] as const),
      ),
    },
    {
      id: 'renamed',
      title: 'Called otherwise',
      kinds: byKind(
        pairs
          .filter(({ here, there }) => here.title !== there.title)
          .map(({ here, there }) => [here.kind, [...linkOf(here), text(`, before: ${there.title}`)]] as const),
      ),
    },
    {
      id: 'words',
      title: 'Said otherwise',
      lead: 'Of these something else has changed: words, sources, times, what a sound or a procedure is about.',
      kinds: byKind(
        pairs
          .filter(({ here, there }) => words === WORDS && here.words !== there.words)
          .map(({ here, there }) => [here.kind, [...linkOf(here), ...standOf(here, there)], there, here] as const),
      ),
    },
  ];
  return lists.filter(({ kinds }) => kinds.length > 0);

  function entry([, here]: readonly [string, Listing]): readonly [ListedKind, Inline[]] {
    return [here.kind, linkOf(here)];
  }
}

/** "revision C, before: B" of a source, "answered" of a query. */
function standOf({ kind, stand }: Listing, before: Listing): Inline[] {
  if (stand === undefined || stand === before.stand) return [];
  return [text(kind === 'source' ? `: revision ${stand}, before: ${before.stand}` : `: ${stand} now`)];
}

/** One entry, with the lines of it that are told. */
type Entry = readonly [kind: ListedKind, words: readonly Inline[], before?: Listing, now?: Listing];

function byKind(entries: readonly Entry[]): ListedChanges[] {
  return (Object.keys(LISTED_KINDS) as ListedKind[]).flatMap((kind) => {
    const own = entries
      .filter(([each]) => each === kind)
      .map(([, words, before, now]) => ({ words, before: linesWithout(before, now), now: linesWithout(now, before) }));
    return own.length === 0 ? [] : [{ kind: LISTED_KINDS[kind], entries: own }];
  });
}

/** The lines of one that the other has not; none where either has no lines at all. */
function linesWithout(one: Listing | undefined, other: Listing | undefined): readonly string[] {
  if (!one?.lines || !other?.lines) return [];
  const known = new Set(other.lines);
  return one.lines.filter((line) => !known.has(line));
}

/** The title of a thing, as a link where it has a page or a place on one. */
function linksOf(fleet: Fleet): (listing: Listing) => Inline[] {
  const index = indexOf(fleet);
  const place = ({ kind, id }: Listing): Omit<Listed, 'title'> | undefined => {
    switch (kind) {
      case 'lamp': {
        const [of, attribute] = id.split('.');
        const item = fleet.items.find((each) => each.id === of);
        return item && { to: itemAddress(item), anchor: `${of}-${attribute}` };
      }
      case 'note': {
        const about = fleet.notes.find((note) => note.id === id)?.about[0];
        return about === undefined ? undefined : index.get(about);
      }
      case 'tour':
        return { to: tourAddress({ id }) };
      case 'notice':
        return { to: noticeAddress({ name: id }) };
      case 'practice':
        return { to: practiceAddress({ id }) };
      case 'query':
        return { to: QUERIES, anchor: queryAnchor(id) };
      case 'source':
        return { to: ABOUT, anchor: sourceAnchor(id) };
      default:
        return index.get(id);
    }
  };
  return (listing) => {
    const found = place(listing);
    return [found ? link(found.to, listing.title, found.anchor) : text(listing.title)];
  };
}
