/** The whole book as data, out of the compiled fleet. */
import type { Compiled } from '../compile/index.ts';
import { ABOUT, COMPARE, DIFFERENCES, HOME, indexOf, panelAddress } from './addresses.ts';
import { type AttributeViews, attributeViews } from './attributes.ts';
import type { AttributeView, Book, Frame } from './book.ts';
import { STANDING_CAUTION } from './caution.ts';
import { packComparison } from './comparison/packed-comparison.ts';
import { formerAnchors, movedPages } from './former-addresses.ts';
import { listedControl } from './links.ts';
import { hasLegends, hasMessages, hasSequences, listPages } from './lists.ts';
import { aboutPage } from './pages/about.ts';
import { aircraftPage, baselineOf } from './pages/aircraft.ts';
import { comparePage, hasPairs } from './pages/compare.ts';
import { conditionPage } from './pages/condition.ts';
import { conditionsPage } from './pages/conditions.ts';
import { controlPage } from './pages/control.ts';
import { differencesPages } from './pages/differences.ts';
import { fleetPage } from './pages/fleet.ts';
import { homePage, queriesListed } from './pages/front.ts';
import { glossaryPage } from './pages/glossary.ts';
import { itemPage } from './pages/item.ts';
import { legendsPage } from './pages/legends.ts';
import { messagesPage } from './pages/messages.ts';
import { noticesPages, withNotices } from './pages/notices.ts';
import { optionPage } from './pages/option.ts';
import { optionsPage } from './pages/options.ts';
import { panelPage } from './pages/panel.ts';
import { practicePages } from './pages/practice.ts';
import { proceduresPage, procedureViews } from './pages/procedure.ts';
import { queriesPage } from './pages/queries.ts';
import { seenPage } from './pages/seen.ts';
import { sequencePage, sequencesPage } from './pages/sequence.ts';
import { sheetPages } from './pages/sheets.ts';
import { soundPage } from './pages/sound.ts';
import { hasSupplies, suppliesPage, supplyPage } from './pages/supply.ts';
import { termsPage } from './pages/terms.ts';
import { tourPage, toursPage } from './pages/tour.ts';
import { quoteViews } from './quotes.ts';
import { searchEntries } from './search.ts';
import { seenOf } from './seen.ts';

export function makeBook(compiled: Compiled): Book {
  const { fleet } = compiled;
  const index = indexOf(fleet);
  const views = attributeViews(compiled);
  const options = fleet.options.map((option) => optionPage(compiled, option));
  const procedures = procedureViews(compiled);
  const seen = seenOf(compiled);
  const differences = differencesPages(compiled);
  const sounds = fleet.sounds.map((sound) => soundPage(compiled, sound));
  const [noticesPage, ...notices] = noticesPages(compiled, index);
  const book: Omit<Book, 'search' | 'topics'> = {
    frame: frame(compiled),
    pages: withNotices(
      [
        homePage(compiled),
        ...fleet.panels.map((panel) => panelPage(compiled, panel)),
        ...fleet.controls.map((control) => controlPage(compiled, views, procedures, control)),
        ...fleet.items.map((item) =>
          item.kind === 'supply' ? supplyPage(compiled, views, item) : itemPage(compiled, views, procedures, item),
        ),
        ...(procedures.length > 1 ? [proceduresPage(compiled)] : []),
        ...procedures.map(({ page }) => page),
        ...(hasSupplies(compiled) ? [suppliesPage(compiled)] : []),
        ...(hasSequences(compiled) ? [sequencesPage(compiled)] : []),
        ...fleet.sequences.map((sequence) => sequencePage(compiled, sequence)),
        ...(hasMessages(compiled) ? [messagesPage(compiled, sounds)] : []),
        ...sounds,
        ...(hasLegends(compiled) ? [legendsPage(compiled)] : []),
        ...(fleet.controls.length > 0 ? [seenPage(seen.observations)] : []),
        ...(fleet.conditions.length > 0 ? [conditionsPage(compiled)] : []),
        ...(fleet.tours.length > 0 ? [toursPage(compiled)] : []),
        ...fleet.tours.map((tour) => tourPage(compiled, procedures, tour)),
        ...fleet.conditions.map((condition) => conditionPage(compiled, condition)),
        ...(options.length > 0 ? [optionsPage(options), fleetPage(compiled)] : []),
        ...options,
        ...fleet.aircraft.map((aircraft) => aircraftPage(compiled, aircraft)),
        ...differences,
        ...(hasPairs(compiled) ? [comparePage(compiled, differences)] : []),
        ...(fleet.queries.length > 0 ? [queriesPage(compiled)] : []),
        ...(fleet.glossary.length > 0 ? [glossaryPage(fleet, index)] : []),
        termsPage(compiled),
        ...(fleet.practice.length > 0 ? practicePages(compiled) : []),
        ...(notices.length > 0 ? [noticesPage, ...notices] : []),
        aboutPage(compiled, index),
        ...movedPages(fleet),
      ],
      notices,
    ),
    index,
    formerAnchors: formerAnchors(fleet),
    seen: seen.data,
    tables: tables(views),
    quotes: quoteViews(compiled),
  };
  const { pages: sheets, topics } = sheetPages({ compiled, views, pages: book.pages });
  const pages = [...book.pages, ...sheets];
  return {
    ...book,
    ...(hasPairs(compiled) ? { comparison: packComparison(compiled) } : {}),
    pages,
    topics,
    search: searchEntries(compiled, pages),
  };
}

function frame(compiled: Compiled): Frame {
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
    fleet: fleet.aircraft.map(({ serial, registration, kind }) => ({
      serial,
      registration,
      device: kind === 'device',
    })),
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
          ...listPages(compiled),
          ...queriesListed(fleet),
          { to: ABOUT, title: 'About and cautions' },
        ],
      },
    ],
  };
}

function tables(views: AttributeViews): Map<string, AttributeView[]> {
  const byItem = Map.groupBy(views, ([{ item }]) => item.id);
  return new Map([...byItem].map(([id, list]) => [id, list.map(([, view]) => view)]));
}
