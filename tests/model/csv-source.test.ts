import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Diagnostics } from '../../src/diagnostics/index.ts';
import { readCsv } from '../../src/model/csv-source.ts';

const cell = fc
  .array(fc.constantFrom('a', 'é', '😀', '"', ',', '\n', ' ', 'x'), { maxLength: 6 })
  .map((all) => all.join(''));
const quote = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

it('finds every cell in the file, whatever quotes, line ends and marks surround it', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 5 }),
      fc.constantFrom('\n', '\r\n'),
      fc.constantFrom('', '\uFEFF'),
      fc.boolean(),
      (rows, end, mark, closed) => {
        const lines = [['one', 'two'], ...rows].map((row) => row.map(quote).join(','));
        const text = mark + lines.join(end) + (closed ? end : '');
        const diagnostics = new Diagnostics();
        const table = readCsv({ path: 'list.csv', text }, diagnostics);
        expect(diagnostics.all).toEqual([]);
        const wanted = rows.filter((row) => row.some((each) => each.trim() !== ''));
        expect(table?.rows.map((row) => row.map((each) => each.text))).toEqual(
          wanted.map((row) => row.map((each) => each.trim())),
        );
        table?.rows.forEach((row, at) => {
          row.forEach(({ place }, column) => {
            const source = quote(wanted[at]?.[column] ?? '');
            const there = source.startsWith('"') ? source : source.trim();
            expect(text.slice(place.start, place.end)).toBe(there);
          });
        });
      },
    ),
    { numRuns: 400 },
  );
});
