/** modifications.csv: one change of an aircraft a line. */
import { nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import { type Cell, type CsvTable, readCsv } from './csv-source.ts';
import type { Option } from './fleet.ts';
import { type AircraftLine, isDateCell, isFilled, isValueCell, type ReadAircraft } from './read-aircraft.ts';

/** A line of modifications.csv that is sound. */
export interface ChangeLine {
  readonly date: Cell;
  /** An option id, or `registration`. */
  readonly option: Cell;
  readonly value: Cell;
  readonly document?: string;
}

export interface ReadModifications {
  /** By serial, in order of their dates; of one day in the author's order. */
  readonly changes: ReadonlyMap<string, readonly ChangeLine[]>;
  /** Serials of the aircraft of which some line cannot be used, so that what they are is not known. */
  readonly broken: ReadonlySet<string>;
}

const COLUMNS = ['serial', 'option', 'value', 'date', 'document'] as const;
const OPTIONAL = 'document';
const REGISTRATION = 'registration';

/** Reads the lines; undefined after reporting why the file has none. */
export function readModifications(
  file: SourceFile,
  aircraft: ReadAircraft,
  options: readonly Option[],
  context: Context,
): ReadModifications | undefined {
  const table = readCsv(file, context.diagnostics);
  if (!table || !hasColumns(table, context)) return undefined;
  const columns = table.columns.map(({ text }) => text);
  const changes = new Map<string, ChangeLine[]>();
  const broken = new Set<string>();
  for (const row of table.rows) {
    const cell = (column: (typeof COLUMNS)[number]): Cell | undefined => row[columns.indexOf(column)];
    const serial = cell('serial') as Cell;
    const line = readLine(cell, aircraft, options, context);
    if (line === undefined) broken.add(serial.text);
    else changes.set(serial.text, [...(changes.get(serial.text) ?? []), line]);
  }
  for (const lines of changes.values()) {
    lines.sort((a, b) => (a.date.text < b.date.text ? -1 : a.date.text > b.date.text ? 1 : 0));
  }
  for (const line of aircraft.lines) {
    const serial = line.serial.text;
    if (!isConsistent(line, changes.get(serial) ?? [], context)) broken.add(serial);
  }
  return { changes, broken };
}

function hasColumns(table: CsvTable, { diagnostics }: Context): boolean {
  const given = table.columns.map(({ text }) => text);
  const lacking: string[] = COLUMNS.filter((column) => !given.includes(column));
  const taken = new Set<string>([OPTIONAL]);
  let sound = true;
  for (const column of table.columns) {
    if (COLUMNS.some((each) => each === column.text)) continue;
    const nearest = nearestName(column.text, lacking);
    if (nearest !== undefined) taken.add(nearest);
    diagnostics.report('SL350', { column: column.text, known: COLUMNS, nearest }, column.place);
    sound = false;
  }
  for (const column of lacking) {
    if (taken.has(column)) continue;
    diagnostics.report('SL314', { column, option: false }, table.columns[0]?.place);
    sound = false;
  }
  return sound;
}

/** Undefined after a report. */
function readLine(
  cell: (column: (typeof COLUMNS)[number]) => Cell | undefined,
  aircraft: ReadAircraft,
  options: readonly Option[],
  context: Context,
): ChangeLine | undefined {
  const { diagnostics, names } = context;
  const [serial, option, value, date] = (['serial', 'option', 'value', 'date'] as const).map(cell) as [
    Cell,
    Cell,
    Cell,
    Cell,
  ];
  const filled = { serial, option, value, date };
  let sound = Object.entries(filled)
    .map(([column, each]) => isFilled(each, column, diagnostics))
    .every(Boolean);
  if (serial.text !== '' && !aircraft.serials.includes(serial.text)) {
    sound = false;
    const nearest = nearestName(serial.text, aircraft.serials);
    // Of aircraft with unreadable lines none can be missing: the line may be the one that is meant.
    if (aircraft.whole) diagnostics.report('SL345', { serial: serial.text, nearest }, serial.place);
  }
  sound = isDateCell(date, diagnostics) && sound;
  const known = options.find(({ id }) => id === option.text);
  if (known) sound = (value.text === '' || isValueCell(known, value, context)) && sound;
  else if (option.text !== REGISTRATION && option.text !== '') {
    sound = false;
    if (!names.isBroken(option.text) && !names.former.report(option.text, option.place)) {
      const nearest = nearestName(option.text, [...options.map(({ id }) => id), REGISTRATION]);
      diagnostics.report('SL346', { option: option.text, nearest }, option.place);
    }
  }
  const document = cell(OPTIONAL);
  const cited = document !== undefined && document.text !== '';
  if (cited) context.reportUnknownDocument(document.text, document.place);
  return sound ? { date, option, value, ...(cited ? { document: document.text } : {}) } : undefined;
}

/** Whether each change happens while in service, once a day, and changes something. Reports what doesn't. */
function isConsistent(aircraft: AircraftLine, changes: readonly ChangeLine[], { diagnostics }: Context): boolean {
  const before = new Map<string, Cell>([...aircraft.cells, [REGISTRATION, aircraft.registration]]);
  const dayOf = new Map<string, Cell>();
  let sound = true;
  for (const { date, option, value } of changes) {
    const name = (before.get(REGISTRATION) as Cell).text;
    const [earlier, last] = [before.get(option.text) as Cell, dayOf.get(option.text)];
    const { from, to } = aircraft;
    if (date.text < from || (to !== '' && date.text > to)) {
      diagnostics.report('SL347', { aircraft: name, date: date.text, from, to }, date.place);
      sound = false;
    } else if (last?.text === date.text) {
      const related = [{ place: earlier.place, label: 'the other one' }];
      diagnostics.report('SL348', { aircraft: name, option: option.text, date: date.text }, value.place, related);
      sound = false;
    } else if (earlier.text === value.text) {
      const related = [{ place: earlier.place, label: 'said here' }];
      diagnostics.report('SL349', { aircraft: name, option: option.text, value: value.text }, value.place, related);
      sound = false;
    }
    before.set(option.text, value);
    dayOf.set(option.text, date);
  }
  return sound;
}
