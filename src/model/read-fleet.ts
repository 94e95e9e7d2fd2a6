/**
 * Content files in, one typed and checked Fleet out. Names are declared first, in all files; what refers to them is read
 * then, so that files and definitions may stand in any order.
 */
import { type Diagnostics, type SourceFile, severityOf } from '../diagnostics/index.ts';
import { type ContentFiles, sortFiles } from './content-files.ts';
import { Context } from './context.ts';
import { reportCycles } from './cycles.ts';
import { reportFittedTogether, reportLostReturns, reportNoneNormal, reportSameLegends } from './fitted-together.ts';
import type { Aircraft, Claim, Fleet, Query } from './fleet.ts';
import { KnownFits } from './known-fits.ts';
import { Names } from './names.ts';
import { prune } from './prune.ts';
import { type ReadBook, readBook, readSources } from './read-book.ts';
import { readClaims } from './read-claims.ts';
import { readConditions, readSignals } from './read-conditions.ts';
import { declareGlossary } from './read-glossary.ts';
import { readNote } from './read-notes.ts';
import { readNotices } from './read-notices.ts';
import { readOptions } from './read-options.ts';
import { declareOverrides } from './read-overrides.ts';
import { declarePanel } from './read-panels.ts';
import { declarePractice } from './read-practice.ts';
import { declareProcedure } from './read-procedures.ts';
import { declareQueries } from './read-queries.ts';
import { readService } from './read-service.ts';
import { declareSheets } from './read-sheets.ts';
import { declareTimelines } from './read-timelines.ts';
import { readTour } from './read-tours.ts';
import { reportSameColumns } from './same-titles.ts';
import { reportUnreadSupply } from './supply.ts';

/**
 * Reads the files of a content folder and reports every error in them. After errors the Fleet holds what is sound, so that
 * it can be judged in the same run; it is undefined where too little is left to judge anything by.
 */
export function readFleet(files: readonly SourceFile[], diagnostics: Diagnostics): Fleet | undefined {
  const sorted = sortFiles(files, diagnostics);
  const { fleet, declared } = readParts(sorted, diagnostics);
  const failed = diagnostics.all.some((each) => severityOf(each) === 'error');
  // Whatever is left out must have been reported: a book that silently lacks a light would mislead its readers.
  if (!failed && (fleet === undefined || !isWhole(fleet, declared, sorted)))
    throw new Error('content was left out without a report');
  return fleet;
}

/** Whether nothing is declared or listed by a panel that the Fleet lacks, and every note, tour and notice is there. */
function isWhole(fleet: Fleet, declared: readonly string[], files: ContentFiles): boolean {
  const { panels, detectors, controls, items, overrides, sequences, sounds, timelines, procedures, queries } = fleet;
  const { glossary, notes, tours, notices, sheets, practice } = fleet;
  const lists = [
    detectors,
    controls,
    items,
    overrides,
    sequences,
    sounds,
    timelines,
    procedures,
    queries,
    glossary,
    sheets,
    practice,
  ];
  const known = new Set(lists.flatMap((list) => list.map(({ id }) => id)));
  const listed = [...declared, ...panels.flatMap((panel) => [...panel.controls, ...panel.items])];
  const texts =
    notes.length === files.notes.length &&
    tours.length === files.tours.length &&
    notices.length === files.notices.length;
  return texts && listed.every((id) => known.has(id));
}

/** Of conditions that cannot be read. */
const NO_ORDERS = { orders: [], whole: false };

/** The Fleet as far as it can be used, and the ids that were declared, apart from what the panels list. */
function readParts(
  files: ContentFiles,
  diagnostics: Diagnostics,
): { readonly fleet: Fleet | undefined; readonly declared: readonly string[] } {
  const sources = readSources(files.sources, diagnostics);
  const names = new Names(diagnostics);
  for (const file of files.misnamed) names.breakAllIn(file);
  if (files.lacksNames) names.breakUnknown();
  const declaredQueries = declareQueries(files.queries, diagnostics);
  const { tables, misnamed } = files;
  const known = { documents: sources, queries: declaredQueries.known, tables, misnamed };
  const context = new Context(diagnostics, names, known);
  const read = files.book && readBook(files.book, diagnostics);
  const { options, constraints: readConstraints } = readOptions(files.options, context);
  const conditions = files.conditions && readConditions(files.conditions, context);
  const declaredSignals = readSignals(files.signals, context);
  const panels = files.panels.flatMap((file) => declarePanel(file, context) ?? []);
  const declaredOverrides = declareOverrides(files.overrides, context);
  const declaredTimelines = declareTimelines(files.timelines, context);
  const declaredTerms = declareGlossary(files.glossary, context);
  const declaredSheets = declareSheets(files.sheets, context);
  const declaredProcedures = files.procedures.flatMap((file) => declareProcedure(file, context) ?? []);
  const declaredPractice = declarePractice(files.practice, context);
  names.reportFormer();

  const { constraints, whole: constraintsAreWhole } = readConstraints();
  const service = readService(files, options, constraints, read?.book.date, context);
  // Of a fleet with unreadable lines nothing can be missing: the line may be the one that is meant.
  const wholeFleet = service?.whole ? service.aircraft : undefined;
  const aircraft = service?.aircraft ?? [];
  if (read && wholeFleet) reportBaseline(read, wholeFleet, diagnostics);
  const detectors = conditions?.detectors?.read() ?? [];
  const { orders: detectorOrders, whole: ordersAreWhole } = conditions?.detectors?.orders(detectors) ?? NO_ORDERS;
  const { never, whole: neverIsWhole } = conditions?.never() ?? { never: [], whole: false };
  const signals = declaredSignals.flatMap((signal) => signal.read() ?? []);
  const places = panels.flatMap((panel) => panel.places);
  const around = { controls: panels.flatMap(({ declaredControls }) => declaredControls), places };
  const controls = panels.flatMap((panel) => panel.controls(around));
  const fits = new KnownFits(aircraft, options, constraints);
  reportFittedTogether(controls, places, fits, diagnostics);
  for (const control of controls) {
    reportLostReturns(control, fits, diagnostics);
    reportNoneNormal(control, fits, diagnostics);
    const entry = around.controls.find((each) => each.entry.key === control.id)?.entry;
    if (entry) reportSameLegends(control, entry, fits, diagnostics);
  }
  const items = [...panels.flatMap((panel) => panel.supplies()), ...panels.flatMap((panel) => panel.items())];
  const complete =
    !files.lacksNames &&
    files.misnamed.length === 0 &&
    panels.length === files.panels.length &&
    names.ofKinds(['item']).every((id) => items.some((item) => item.id === id));
  const { overrides, whole: overridesAreWhole } = declaredOverrides.read({ items, complete });
  const sequences = panels.flatMap((panel) => panel.sequences());
  const sounds = panels.flatMap((panel) => panel.sounds());
  const timelines = declaredTimelines.flatMap(
    (timeline) => timeline.read({ aircraft: wholeFleet, controls, items, sequences }) ?? [],
  );
  reportSameColumns({ conditions: conditions?.conditions ?? [], controls, sequences }, diagnostics);
  const procedures = declaredProcedures.flatMap((procedure) => procedure.read(controls) ?? []);
  const circular = reportCycles(signals, items, overrides, diagnostics);
  if (!circular)
    reportUnreadSupply(
      panels.flatMap(({ declared }) => declared),
      items,
      signals,
      diagnostics,
    );
  const claims: readonly Claim[] = files.claims ? readClaims(files.claims, context) : [];
  const notes = files.notes.flatMap((file) => readNote(file, wholeFleet, context) ?? []);
  const stoppable = { panels: panels.flatMap((panel) => panel.panel() ?? []), places, controls, items };
  const tours = files.tours.flatMap((file) => readTour(file, wholeFleet, fits, stoppable, context) ?? []);
  const notices = readNotices(files.notices, read?.book.date, wholeFleet, fits, context);
  const practice = declaredPractice.flatMap(
    (set) =>
      set.read({
        fits: wholeFleet && fits,
        panels: stoppable.panels.map(({ id }) => id),
        hasStages: files.procedures.length > 0,
      }) ?? [],
  );
  const judgeable =
    !files.lacksNames &&
    constraintsAreWhole &&
    // What is said of cases would be wrong of those that an unreadable entry excludes.
    neverIsWhole &&
    ordersAreWhole &&
    // Without one of them, items would be judged as they never are.
    overridesAreWhole &&
    !circular &&
    aircraft.length > 0;
  const queries = declaredQueries.read(context);
  const glossary = declaredTerms.map((term) => term.read());
  reportUnused(queries, context);
  const sheets = declaredSheets.flatMap(
    (sheet) => sheet.read({ aircraft: wholeFleet, procedures, paper: read?.book.paper ?? 'A4' }) ?? [],
  );
  const declared = [
    ...panels.flatMap((panel) => panel.declaredIds),
    ...(conditions?.detectors?.ids ?? []),
    ...declaredOverrides.ids,
    ...[...declaredTimelines, ...declaredProcedures, ...declaredTerms, ...declaredSheets, ...declaredPractice].map(
      ({ id }) => id,
    ),
  ];
  if (!read || !judgeable) return { fleet: undefined, declared };
  const fleet = prune({
    book: read.book,
    options,
    constraints,
    aircraft,
    conditions: conditions?.conditions ?? [],
    detectors,
    detectorOrders,
    never,
    signals,
    panels: stoppable.panels,
    places,
    controls,
    items,
    overrides,
    sounds,
    sequences,
    timelines,
    procedures,
    queries,
    glossary,
    sources: [...(sources?.values() ?? [])],
    claims,
    notes,
    tours,
    notices,
    sheets,
    practice,
    releases: files.releases,
  });
  return { fleet, declared };
}

/** Tables and queries that nothing names. After errors the mistake may lie in the name. */
function reportUnused(queries: readonly Query[], context: Context): void {
  const { diagnostics } = context;
  if (diagnostics.all.some((each) => severityOf(each) === 'error')) return;
  for (const { id, place, answered } of queries) {
    if (!answered && !context.isAsked(id)) diagnostics.report('SL370', { query: id }, place);
  }
  for (const file of context.unreadTables) diagnostics.report('SL365', {}, { file, start: 0, end: 0 });
}

function reportBaseline({ baseline }: ReadBook, aircraft: readonly Aircraft[], diagnostics: Diagnostics): void {
  if (aircraft.some(({ serial }) => serial === baseline.written)) return;
  diagnostics.report('SL320', { serial: baseline.written }, baseline.place);
}
