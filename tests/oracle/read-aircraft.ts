/** The oracle's own reading of the aircraft: as they entered service, changed up to the book's date and after it. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { AircraftText } from './content.ts';

type Row = Record<string, string>;

function rowsOf(folder: string, name: string): Row[] {
  const path = join(folder, name);
  if (!existsSync(path)) return [];
  return parse(readFileSync(path, 'utf8'), { columns: true, skip_empty_lines: true, trim: true, bom: true });
}

/** Every aircraft of the file, in or out of service: `options` and `registration` are those of the book's date. */
export function readAircraft(folder: string, date: string): AircraftText[] {
  const all = rowsOf(folder, 'modifications.csv').sort((a, b) =>
    a['date']! < b['date']! ? -1 : a['date'] === b['date'] ? 0 : 1,
  );
  return rowsOf(folder, 'aircraft.csv').map(
    ({ serial = '', registration = '', from = '', to = '', kind, ...options }) => {
      const own = all.filter((row) => row['serial'] === serial);
      const now: Row = { ...options, registration };
      for (const row of own) if (row['date']! <= date) now[row['option']!] = row['value']!;
      const { registration: named = '', ...values } = now;
      return {
        serial,
        registration: named,
        kind: kind || 'aircraft',
        from,
        to,
        options: values,
        changes: own
          .filter((row) => row['date']! > date && (to === '' || row['date']! <= to))
          .map((row) => ({ date: row['date']!, option: row['option']!, value: row['value']! })),
      };
    },
  );
}
