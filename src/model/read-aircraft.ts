/** aircraft.csv: one aircraft a line, as it entered service; one column an option. */
import { type Diagnostics, nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import { type Cell, type CsvTable, readCsv } from './csv-source.ts';
import { isDate } from './dates.ts';
import { type Aircraft, type Option, UNKNOWN } from './fleet.ts';
import { OWN_COLUMNS } from './read-options.ts';

/** A line of aircraft.csv that is sound. */
export interface AircraftLine {
  readonly serial: Cell;
  readonly registration: Cell;
  readonly kind: Aircraft['kind'];
  /** Days in service, both included; `to` is empty while it is in service for good. */
  readonly from: string;
  readonly to: string;
  /** The cell of every option, with the id of one of its values or `unknown`. */
  readonly cells: ReadonlyMap<string, Cell>;
}

export interface ReadAircraft {
  readonly lines: readonly AircraftLine[];
  /** Of all lines, also of those that cannot be used. */
  readonly serials: readonly string[];
  /** False when some lines cannot be used. */
  readonly whole: boolean;
}

const OPTIONAL = 'kind';

/** Reads the lines; undefined after reporting why the file has none. */
export function readAircraft(file: SourceFile, options: readonly Option[], context: Context): ReadAircraft | undefined {
  const before = context.diagnostics.all.length;
  const table = readCsv(file, context.diagnostics);
  if (!table || !hasColumns(table, options, context)) return undefined;
  const reader = new LineReader(table, options, context);
  const lines = table.rows.flatMap((row) => reader.read(row) ?? []);
  const single = withoutRepeated(lines, context.diagnostics);
  const serials = table.rows.map((row) => reader.cell(row, 'serial').text);
  return { lines: single, serials, whole: context.diagnostics.all.length === before };
}

function hasColumns(table: CsvTable, options: readonly Option[], { diagnostics, names }: Context): boolean {
  const known = [...OWN_COLUMNS, ...options.map(({ id }) => id)];
  const given = table.columns.map(({ text }) => text);
  const lacking = known.filter((column) => !given.includes(column));
  const taken = new Set<string>([OPTIONAL]);
  let sound = true;
  for (const column of table.columns) {
    if (known.includes(column.text) || names.isBroken(column.text)) continue;
    sound = false;
    const nearest = names.former.current(column.text) ?? nearestName(column.text, lacking);
    if (nearest !== undefined) taken.add(nearest);
    if (names.former.report(column.text, column.place)) continue;
    diagnostics.report('SL313', { column: column.text, nearest }, column.place);
  }
  const [first] = table.columns;
  for (const column of lacking) {
    if (taken.has(column)) continue;
    diagnostics.report('SL314', { column, option: !OWN_COLUMNS.some((each) => each === column) }, first?.place);
    sound = false;
  }
  return sound;
}

class LineReader {
  readonly #columns: readonly string[];
  readonly #options: readonly Option[];
  readonly #context: Context;
  readonly #diagnostics: Diagnostics;

  constructor(table: CsvTable, options: readonly Option[], context: Context) {
    this.#columns = table.columns.map(({ text }) => text);
    this.#options = options;
    this.#context = context;
    this.#diagnostics = context.diagnostics;
  }

  /** The cell of a column that is there. */
  cell(row: readonly Cell[], column: string): Cell {
    return row[this.#columns.indexOf(column)] as Cell;
  }

  /** Undefined after a report. */
  read(row: readonly Cell[]): AircraftLine | undefined {
    const filled = (column: string): boolean => isFilled(this.cell(row, column), column, this.#diagnostics);
    const [from, to] = [this.cell(row, 'from'), this.cell(row, 'to')];
    let sound = ['serial', 'registration', 'from'].map(filled).every(Boolean);
    for (const day of [from, to]) sound = isDateCell(day, this.#diagnostics) && sound;
    if (sound && to.text !== '' && to.text < from.text) {
      this.#diagnostics.report('SL319', { from: from.text, to: to.text }, to.place);
      sound = false;
    }
    const kind = this.#kind(row);
    const cells = new Map<string, Cell>();
    for (const option of this.#options) {
      const value = this.cell(row, option.id);
      if (filled(option.id) && isValueCell(option, value, this.#context)) cells.set(option.id, value);
      else sound = false;
    }
    if (!sound || kind === undefined) return undefined;
    const [serial, registration] = [this.cell(row, 'serial'), this.cell(row, 'registration')];
    return { serial, registration, kind, from: from.text, to: to.text, cells };
  }

  #kind(row: readonly Cell[]): Aircraft['kind'] | undefined {
    const cell = this.#columns.includes(OPTIONAL) ? this.cell(row, OPTIONAL) : undefined;
    if (cell === undefined || cell.text === '' || cell.text === 'aircraft') return 'aircraft';
    if (cell.text === 'device') return 'device';
    this.#diagnostics.report('SL342', { kind: cell.text }, cell.place);
    return undefined;
  }
}

/** False after a report. */
export function isFilled(cell: Cell, column: string, diagnostics: Diagnostics): boolean {
  if (cell.text !== '') return true;
  diagnostics.report('SL321', { column }, cell.place);
  return false;
}

/** True for a date and for an empty cell; false after a report. */
export function isDateCell({ text, place }: Cell, diagnostics: Diagnostics): boolean {
  if (text === '' || isDate(text)) return true;
  diagnostics.report('SL126', { text }, place);
  return false;
}

/** True for a value of the option and for `unknown`; false after a report. */
export function isValueCell(option: Option, { text, place }: Cell, { diagnostics, names }: Context): boolean {
  const known = option.values.map(({ id }) => id);
  if (known.includes(text) || text === UNKNOWN) return true;
  if (names.former.reportValue(option.id, text, place)) return false;
  const facts = { option: option.id, value: text, known, nearest: nearestName(text, [...known, UNKNOWN]) };
  diagnostics.report('SL315', facts, place);
  return false;
}

/** The lines whose serials stand there for the first time, since a serial names one airframe for good; reports the others. */
function withoutRepeated(lines: readonly AircraftLine[], diagnostics: Diagnostics): AircraftLine[] {
  const first = new Map<string, Cell>();
  return lines.filter(({ serial }) => {
    const other = first.get(serial.text);
    if (other === undefined) {
      first.set(serial.text, serial);
      return true;
    }
    const related = [{ place: other.place, label: 'the other one' }];
    diagnostics.report('SL316', { serial: serial.text }, serial.place, related);
    return false;
  });
}
