/** Every page of the book but the sheets, in the order of the book, each made when it is first read. */
import type { Compiled } from '../compile/index.ts';
import {
  ABOUT,
  aircraftAddress,
  COMPARE,
  CONDITIONS,
  conditionAddress,
  controlAddress,
  DIFFERENCES,
  differencesAddress,
  EXPLORER,
  FLEET,
  GLOSSARY,
  HOME,
  itemAddress,
  LEGENDS,
  MESSAGES,
  NOTICES,
  noticeAddress,
  OPTIONS,
  optionAddress,
  PRACTICE,
  PROCEDURES,
  panelAddress,
  practiceAddress,
  procedureAddress,
  QUERIES,
  SEEN,
  SEQUENCES,
  SUPPLIES,
  sequenceAddress,
  soundAddress,
  TERMS,
  TOURS,
  tourAddress,
} from './addresses.ts';
import type { AttributeViews } from './attributes.ts';
import type { Listed, Page } from './book.ts';
import type { NoticePage } from './book-notices.ts';
import { movedPages } from './former-addresses.ts';
import { later, laterAll, once } from './later.ts';
import { hasLegends, hasMessages, hasSequences } from './lists.ts';
import { aboutPage } from './pages/about.ts';
import { aircraftPage } from './pages/aircraft.ts';
import { changesAddress, changesPages } from './pages/changes.ts';
import { comparePage, hasPairs } from './pages/compare.ts';
import { conditionPage } from './pages/condition.ts';
import { conditionsPage } from './pages/conditions.ts';
import { controlPage } from './pages/control.ts';
import { differencesPages } from './pages/differences.ts';
import { explorerPage, hasExplorer } from './pages/explorer.ts';
import { fleetPage } from './pages/fleet.ts';
import { homePage } from './pages/front.ts';
import { glossaryPage } from './pages/glossary.ts';
import { itemPage } from './pages/item.ts';
import { legendsPage } from './pages/legends.ts';
import { messagesPage } from './pages/messages.ts';
import { noticesByPage, noticesPages } from './pages/notices.ts';
import { optionPage } from './pages/option.ts';
import { optionsPage } from './pages/options.ts';
import { panelPage } from './pages/panel.ts';
import { practicePages } from './pages/practice.ts';
import { proceduresPage, procedureViews } from './pages/procedure.ts';
import { queriesPage } from './pages/queries.ts';
import { seenPage } from './pages/seen.ts';
import { sequencePage, sequencesPage } from './pages/sequence.ts';
import { soundPage } from './pages/sound.ts';
import { hasSupplies, suppliesPage, supplyPage } from './pages/supply.ts';
import { termsPage } from './pages/terms.ts';
import { tourPage, toursPage } from './pages/tour.ts';
import { changedPages } from './releases/changed-pages.ts';
import type { RevisionRecord } from './releases/record.ts';
import type { Seen } from './seen.ts';

/** What several pages are made of, and other parts of the book too. */
export interface Shared {
  readonly compiled: Compiled;
  readonly index: ReadonlyMap<string, Listed>;
  readonly views: () => AttributeViews;
  readonly seen: () => Seen;
  readonly record: RevisionRecord;
}

export function allPages({ compiled, index, views, seen, record }: Shared): Page[] {
  const { fleet } = compiled;
  const procedures = once(() => procedureViews(compiled));
  const procedurePages = laterAll(
    compiled.procedures.map(({ procedure }) => ['procedure', procedureAddress(procedure)] as const),
    () => procedures().map(({ page }) => page),
  );
  const options = fleet.options.map((option) =>
    later('option', optionAddress(option), () => optionPage(compiled, option)),
  );
  const sounds = fleet.sounds.map((sound) => later('sound', soundAddress(sound), () => soundPage(compiled, sound)));
  const devices = fleet.aircraft.filter(({ kind }) => kind === 'device');
  const differences = laterAll(
    [DIFFERENCES, ...devices.map(differencesAddress)].map((address) => ['differences', address] as const),
    () => differencesPages(compiled),
  );
  const notices = laterAll(
    [['notices', NOTICES] as const, ...fleet.notices.map((notice) => ['notice', noticeAddress(notice)] as const)],
    () => noticesPages(compiled, index),
  );
  const practice = laterAll(
    [['practice', PRACTICE] as const, ...fleet.practice.map((set) => ['practice-set', practiceAddress(set)] as const)],
    () => practicePages(compiled),
  );
  const changes = laterAll(
    record.releases.map((release, at) => ['changes', changesAddress(release, at)] as const),
    () => changesPages(compiled, record),
  );
  const pages: Page[] = [
    later('home', HOME, () => homePage(compiled, record)),
    ...fleet.panels.map((panel) => later('panel', panelAddress(panel), () => panelPage(compiled, panel))),
    ...fleet.controls.map((control) =>
      later('control', controlAddress(control), () => controlPage(compiled, views(), procedures(), control)),
    ),
    ...fleet.items.map((item) =>
      item.kind === 'supply'
        ? later('supply', itemAddress(item), () => supplyPage(compiled, views(), item))
        : later('item', itemAddress(item), () => itemPage(compiled, views(), procedures(), item)),
    ),
    ...(procedurePages.length > 1 ? [later('procedures', PROCEDURES, () => proceduresPage(compiled))] : []),
    ...procedurePages,
    ...(hasSupplies(compiled) ? [later('supplies', SUPPLIES, () => suppliesPage(compiled))] : []),
    ...(hasSequences(compiled) ? [later('sequences', SEQUENCES, () => sequencesPage(compiled))] : []),
    ...fleet.sequences.map((sequence) =>
      later('sequence', sequenceAddress(sequence), () => sequencePage(compiled, sequence)),
    ),
    ...(hasMessages(compiled) ? [later('messages', MESSAGES, () => messagesPage(compiled, sounds))] : []),
    ...sounds,
    ...(hasLegends(compiled) ? [later('legends', LEGENDS, () => legendsPage(compiled))] : []),
    ...(fleet.controls.length > 0 ? [later('seen', SEEN, () => seenPage(seen().observations))] : []),
    ...(hasExplorer(compiled) ? [later('explorer', EXPLORER, () => explorerPage(compiled))] : []),
    ...(fleet.conditions.length > 0 ? [later('conditions', CONDITIONS, () => conditionsPage(compiled))] : []),
    ...(fleet.tours.length > 0 ? [later('tours', TOURS, () => toursPage(compiled))] : []),
    ...fleet.tours.map((tour) => later('tour', tourAddress(tour), () => tourPage(compiled, procedures(), tour))),
    ...fleet.conditions.map((condition) =>
      later('condition', conditionAddress(condition), () => conditionPage(compiled, condition)),
    ),
    ...(options.length > 0
      ? [later('options', OPTIONS, () => optionsPage(options)), later('fleet', FLEET, () => fleetPage(compiled))]
      : []),
    ...options,
    ...fleet.aircraft.map((aircraft) =>
      later('aircraft', aircraftAddress(aircraft), () => aircraftPage(compiled, aircraft)),
    ),
    ...differences,
    ...(hasPairs(compiled) ? [later('compare', COMPARE, () => comparePage(compiled, differences))] : []),
    ...changes,
    ...(fleet.queries.length > 0 ? [later('queries', QUERIES, () => queriesPage(compiled))] : []),
    ...(fleet.glossary.length > 0 ? [later('glossary', GLOSSARY, () => glossaryPage(fleet, index))] : []),
    later('terms', TERMS, () => termsPage(compiled)),
    ...(fleet.practice.length > 0 ? practice : []),
    ...(fleet.notices.length > 0 ? notices : []),
    later('about', ABOUT, () => aboutPage(compiled, index)),
    ...movedPages(fleet),
  ];
  const leading = once(() => noticesByPage(notices.filter((page): page is NoticePage => page.kind === 'notice')));
  const changed = once(() => (changes[0] ? changedPages(changes[0]) : undefined));
  return pages.map((page) =>
    later(page.kind, page.address, () => {
      const here = leading().get(page.address);
      const told = changed()?.get(page.address);
      if (!here && !told) return page;
      return { ...page, ...(here ? { notices: here } : {}), ...(told ? { changed: told } : {}) };
    }),
  );
}
