/** The whole book as data, out of the compiled fleet. */
import type { Compiled } from '../compile/index.ts';
import type { Aircraft } from '../model/index.ts';
import { ABOUT, COMPARE, DIFFERENCES, HOME, indexOf, panelAddress } from './addresses.ts';
import { allPages } from './all-pages.ts';
import { type AttributeViews, attributeViews } from './attributes.ts';
import type { AttributeView, Book, FleetEntry, Frame } from './book.ts';
import { STANDING_CAUTION } from './caution.ts';
import { packComparison } from './comparison/packed-comparison.ts';
import { exploredFleet } from './explorer/explored-fleet.ts';
import { packExplorer } from './explorer/packed-explorer.ts';
import { formerAnchors } from './former-addresses.ts';
import { laterAll, once } from './later.ts';
import { listedControl } from './links.ts';
import { listPages } from './lists.ts';
import { baselineOf } from './pages/aircraft.ts';
import { changesListed } from './pages/changes.ts';
import { hasPairs } from './pages/compare.ts';
import { hasExplorer } from './pages/explorer.ts';
import { queriesListed } from './pages/front.ts';
import { sheetHeads, sheetPages } from './pages/sheets.ts';
import { quoteViews } from './quotes.ts';
import { type RevisionRecord, recordOf } from './releases/record.ts';
import type { Release } from './releases/released.ts';
import { tableChanges } from './releases/table-changes.ts';
import { searchEntries } from './search.ts';
import { seenOf } from './seen.ts';

/** The whole book, all of it made; `releases` are what earlier revisions were, the last first. */
export function makeBook(compiled: Compiled, releases: readonly Release[] = []): Book {
  return wholeBook(openBook(compiled, releases));
}

/** The same book with all parts made. */
export function wholeBook(book: Book): Book {
  return { ...book, pages: book.pages.map((page) => ({ ...page })) };
}

/** The book, each part of which is made when it is first read. */
export function openBook(compiled: Compiled, releases: readonly Release[] = []): Book {
  const { fleet } = compiled;
  const index = indexOf(fleet);
  const record = recordOf(compiled, releases);
  const views = once(() => attributeViews(compiled, tableChanges(compiled, record)));
  const seen = once(() => seenOf(compiled));
  const own = allPages({ compiled, index, views, seen, record });
  const sheets = once(() => sheetPages({ compiled, views: views(), pages: own }));
  const pages = [...own, ...laterAll(sheetHeads(fleet), () => sheets().pages)];
  const parts = {
    seen: once(() => seen().data),
    comparison: once(() => (hasPairs(compiled) || hasExplorer(compiled) ? packComparison(compiled, 'all') : undefined)),
    explorer: once(() => (hasExplorer(compiled) ? packExplorer(exploredFleet(compiled)) : undefined)),
    search: once(() => searchEntries(compiled, pages)),
    tables: once(() => tables(views())),
    quotes: once(() => quoteViews(compiled)),
  };
  return {
    frame: frame(compiled, record),
    index,
    formerAnchors: formerAnchors(fleet),
    pages,
    get seen() {
      return parts.seen();
    },
    get comparison() {
      return parts.comparison();
    },
    get explorer() {
      return parts.explorer();
    },
    get search() {
      return parts.search();
    },
    get topics() {
      return sheets().topics;
    },
    get tables() {
      return parts.tables();
    },
    get quotes() {
      return parts.quotes();
    },
  };
}

function frame(compiled: Compiled, record: RevisionRecord): Frame {
  const { fleet } = compiled;
  const { operator, type, title, revision, date, language, paper, address, remarks, cautions } = fleet.book;
  return {
    operator,
    type,
    title,
    revision,
    date,
    language,
    paper,
    ...(address === undefined ? {} : { address }),
    ...(remarks === undefined ? {} : { remarks }),
    cautions: [STANDING_CAUTION, ...cautions],
    fleet: fleet.aircraft.map(fleetEntry),
    ...(hasPairs(compiled) ? { compare: COMPARE } : {}),
    contents: [
      ...fleet.panels.map((panel) => ({
        title: panel.title,
        to: panelAddress(panel),
        entries: fleet.controls.filter((control) => control.panel === panel.id).map(listedControl),
      })),
      {
        title: 'This book',
        to: HOME,
        entries: [
          { to: DIFFERENCES, title: `Differences from ${baselineOf(compiled).registration}` },
          ...(hasPairs(compiled) ? [{ to: COMPARE, title: 'Any two aircraft' }] : []),
          ...changesListed(record),
          ...listPages(compiled),
          ...queriesListed(fleet),
          { to: ABOUT, title: 'About and cautions' },
        ],
      },
    ],
  };
}

function fleetEntry({ serial, registration, kind, changes }: Aircraft): FleetEntry {
  const later = changes
    .filter(({ option }) => option === 'registration')
    .map((change) => [change.date, change.value] as const);
  return { serial, registration, device: kind === 'device', ...(later.length > 0 ? { later } : {}) };
}

function tables(views: AttributeViews): Map<string, AttributeView[]> {
  const byItem = Map.groupBy(views, ([{ item }]) => item.id);
  return new Map([...byItem].map(([id, list]) => [id, list.map(([, view]) => view)]));
}
