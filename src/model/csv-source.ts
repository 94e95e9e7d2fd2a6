/** Reads a CSV file (RFC 4180: commas, double quotes, doubled quotes inside) into rows whose cells know their place. */
import { CsvError, parse } from 'csv-parse/sync';
import type { Diagnostics, Place, SourceFile } from '../diagnostics/index.ts';

export interface Cell {
  /** Without quotes and without blanks around it. */
  readonly text: string;
  /** The characters of the file, quotes included; for an empty cell, the point where it would stand. */
  readonly place: Place;
}

export interface CsvTable {
  readonly columns: readonly Cell[];
  /** Each with as many cells as there are columns. */
  readonly rows: readonly (readonly Cell[])[];
}

interface RecordInfo {
  readonly bytes: number;
}

/** Returns the table, or undefined after reporting why there is none. Rows of a wrong length are reported and left out. */
export function readCsv(file: SourceFile, diagnostics: Diagnostics): CsvTable | undefined {
  const records = readRecords(file, diagnostics);
  if (records === undefined) return undefined;
  const [columns, ...rows] = records;
  if (columns === undefined) {
    diagnostics.report('SL104', {}, { file, start: 0, end: 0 });
    return undefined;
  }
  if (columns.length === 1 && /[;\t]/.test(columns[0]?.text ?? '')) {
    const separator = columns[0]?.text.includes(';') ? 'semicolons' : 'tabs';
    diagnostics.report('SL141', { separator }, columns[0]?.place);
    return undefined;
  }
  if (hasDuplicates(columns, diagnostics)) return undefined;
  return { columns, rows: rows.filter((row) => hasEveryCell(row, columns, diagnostics)) };
}

/** The records that are not blank lines. */
function readRecords(file: SourceFile, diagnostics: Diagnostics): Cell[][] | undefined {
  const start = file.text.startsWith('\uFEFF') ? 1 : 0;
  const text = file.text.slice(start);
  // csv-parse counts bytes, places count characters.
  const bytes = new TextEncoder().encode(text);
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  const records: Cell[][] = [];
  let at = start;
  let byte = 0;
  try {
    parse(text, {
      bom: false,
      record_delimiter: ['\r\n', '\n'],
      relax_column_count: true,
      on_record(record: readonly string[], info: RecordInfo) {
        const cells = placeCells(file, record, at);
        if (cells.some((cell) => cell.text !== '')) records.push(cells);
        at += decoder.decode(bytes.subarray(byte, info.bytes)).length;
        byte = info.bytes;
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const quote = Math.max(file.text.indexOf('"', at), at);
    const line = /^[^\r\n]*/.exec(file.text.slice(quote))?.[0] ?? '';
    const place = { file, start: quote, end: quote + Math.max(1, line.trimEnd().length) };
    diagnostics.report(error.code === 'CSV_QUOTE_NOT_CLOSED' ? 'SL107' : 'SL140', { quote: 'double' }, place);
    return undefined;
  }
  return records;
}

function placeCells(file: SourceFile, record: readonly string[], start: number): Cell[] {
  let at = start;
  return record.map((value) => {
    const quoted = file.text[at] === '"';
    const length = quoted ? value.replaceAll('"', '""').length + 2 : value.length;
    const lead = quoted ? 0 : value.length - value.trimStart().length;
    const text = value.trim();
    const from = at + lead;
    const place = { file, start: from, end: quoted ? from + length : from + text.length };
    at += length + 1;
    return { text, place };
  });
}

function hasDuplicates(columns: readonly Cell[], diagnostics: Diagnostics): boolean {
  let found = false;
  columns.forEach((column, index) => {
    const first = columns.findIndex((other) => other.text === column.text);
    if (first === index || column.text === '') return;
    found = true;
    const place = columns[first]?.place;
    const related = place === undefined ? [] : [{ place, label: 'first given here' }];
    diagnostics.report('SL142', { column: column.text }, column.place, related);
  });
  return found;
}

function hasEveryCell(row: readonly Cell[], columns: readonly Cell[], diagnostics: Diagnostics): boolean {
  if (row.length === columns.length) return true;
  const [first] = row;
  const last = row.at(-1);
  if (first !== undefined && last !== undefined) {
    const place = { ...first.place, end: last.place.end };
    diagnostics.report('SL143', { found: row.length, expected: columns.length }, place);
  }
  return false;
}
