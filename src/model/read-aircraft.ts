/** aircraft.csv: one aircraft a line, one column an option. */
import { type Diagnostics, nearestName, type SourceFile } from '../diagnostics/index.ts';
import type { Context } from './context.ts';
import { type Cell, type CsvTable, readCsv } from './csv-source.ts';
import type { Aircraft, Option } from './fleet.ts';

const FIXED = ['serial', 'registration', 'from', 'to'] as const;

/** Reads the fleet and gives the aircraft in service on `date`: from `from` to `to`, both days included. */
export function readAircraft(
  file: SourceFile,
  options: readonly Option[],
  date: string | undefined,
  context: Context,
): readonly Aircraft[] | undefined {
  const { diagnostics } = context;
  const table = readCsv(file, diagnostics);
  if (!table || !hasColumns(table, options, context)) return undefined;
  const reader = new RowReader(table, options, diagnostics);
  const rows = table.rows.flatMap((row) => reader.read(row) ?? []);
  reportTwice(rows, diagnostics);
  return rows
    .filter(({ from, to }) => date === undefined || (from <= date && (to === '' || date <= to)))
    .map((row) => row.aircraft);
}

interface Row {
  readonly aircraft: Aircraft;
  readonly from: string;
  readonly to: string;
  readonly serial: Cell;
  readonly registration: Cell;
}

function hasColumns(table: CsvTable, options: readonly Option[], { diagnostics, names }: Context): boolean {
  const known = [...FIXED, ...options.map(({ id }) => id)];
  const given = table.columns.map(({ text }) => text);
  const missing = known.filter((column) => !given.includes(column));
  const taken = new Set<string>();
  let sound = true;
  for (const column of table.columns) {
    if (known.includes(column.text) || names.isBroken(column.text)) continue;
    const nearest = nearestName(column.text, missing);
    if (nearest !== undefined) taken.add(nearest);
    diagnostics.report('SL313', { column: column.text, nearest }, column.place);
    sound = false;
  }
  const [first] = table.columns;
  for (const column of missing) {
    if (taken.has(column)) continue;
    diagnostics.report('SL314', { column, option: !FIXED.some((each) => each === column) }, first?.place);
    sound = false;
  }
  return sound;
}

class RowReader {
  readonly #columns: readonly string[];
  readonly #options: readonly Option[];
  readonly #diagnostics: Diagnostics;

  constructor(table: CsvTable, options: readonly Option[], diagnostics: Diagnostics) {
    this.#columns = table.columns.map(({ text }) => text);
    this.#options = options;
    this.#diagnostics = diagnostics;
  }

  /** Undefined after a report. */
  read(row: readonly Cell[]): Row | undefined {
    const cell = (column: string): Cell => row[this.#columns.indexOf(column)] as Cell;
    const [serial, registration, from, to] = FIXED.map(cell) as [Cell, Cell, Cell, Cell];
    let sound = [serial, registration, from].every((each, at) => this.#filled(each, FIXED[at] ?? ''));
    for (const day of [from, to]) sound = this.#isDate(day) && sound;
    if (sound && to.text !== '' && to.text < from.text) {
      this.#diagnostics.report('SL319', { from: from.text, to: to.text }, to.place);
      sound = false;
    }
    const fit = new Map<string, string>();
    for (const option of this.#options) {
      const value = cell(option.id);
      if (this.#filled(value, option.id) && this.#isValue(option, value)) fit.set(option.id, value.text);
      else sound = false;
    }
    if (!sound) return undefined;
    const aircraft: Aircraft = {
      serial: serial.text,
      registration: registration.text,
      kind: 'aircraft',
      fit,
      changes: [],
      place: serial.place,
    };
    return { aircraft, from: from.text, to: to.text, serial, registration };
  }

  #filled(cell: Cell, column: string): boolean {
    if (cell.text !== '') return true;
    this.#diagnostics.report('SL321', { column }, cell.place);
    return false;
  }

  #isDate(cell: Cell): boolean {
    const { text } = cell;
    if (text === '') return true;
    const day = new Date(`${text}T00:00:00Z`);
    if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text))
      return true;
    this.#diagnostics.report('SL126', { text }, cell.place);
    return false;
  }

  #isValue(option: Option, cell: Cell): boolean {
    const known = option.values.map(({ id }) => id);
    if (known.includes(cell.text)) return true;
    const facts = { option: option.id, value: cell.text, known, nearest: nearestName(cell.text, known) };
    this.#diagnostics.report('SL315', facts, cell.place);
    return false;
  }
}

/** A serial names one airframe for good; a registration one at a time. */
function reportTwice(rows: readonly Row[], diagnostics: Diagnostics): void {
  rows.forEach((row, at) => {
    for (const other of rows.slice(0, at)) {
      if (other.serial.text === row.serial.text) {
        const related = [{ place: other.serial.place, label: 'the other one' }];
        diagnostics.report('SL316', { serial: row.serial.text }, row.serial.place, related);
      } else if (other.registration.text === row.registration.text && overlap(other, row)) {
        const related = [{ place: other.registration.place, label: 'the other one' }];
        diagnostics.report('SL317', { registration: row.registration.text }, row.registration.place, related);
      }
    }
  });
}

function overlap(a: Row, b: Row): boolean {
  return (a.to === '' || b.from <= a.to) && (b.to === '' || a.from <= b.to);
}
