/** Decision tables: rule lists as CSV files in tables/, one rule a row. */
import { nearestName, type Place } from '../diagnostics/index.ts';
import type { Expression } from '../language/index.ts';
import type { Context } from './context.ts';
import { type Cell, type CsvTable, readCsv } from './csv-source.ts';
import type { Rule } from './fleet.ts';
import { type Ruled, readOutcome } from './read-outcome.ts';
import type { ScalarNode } from './yaml-source.ts';

/** Reads the table that `name` names. Undefined after a report. */
export function readTable(name: ScalarNode, ruled: Ruled, context: Context): Rule[] | undefined {
  const { diagnostics } = context;
  const file = context.table(name.written);
  if (!file) {
    if (context.isMisplacedTable(name.written)) return undefined;
    const nearest = nearestName(name.written, context.tableNames);
    diagnostics.report('SL363', { table: name.written, nearest }, name.place);
    return undefined;
  }
  const before = diagnostics.all.length;
  const table = readCsv(file, diagnostics);
  // Rows of a wrong length are left out; without them cases would be reported that the table does cover.
  if (!table || diagnostics.all.length > before || !hasColumns(table, context)) return undefined;
  const rows = table.rows.map((row, at) => readRow(table, row, at === table.rows.length - 1, ruled, context));
  const rules = rows.filter((rule) => rule !== undefined);
  return rules.length === rows.length ? rules : undefined;
}

/** The columns that say what happens; all before them are tests. */
const OUTCOME = ['then', 'query'];

function hasColumns({ columns }: CsvTable, context: Context): boolean {
  const { diagnostics } = context;
  const texts = columns.map(({ text }) => text);
  const [first] = columns;
  if (!texts.includes('then')) {
    diagnostics.report('SL364', { column: undefined, nearest: undefined }, first?.place);
    return false;
  }
  let sound = true;
  columns.forEach((column, at) => {
    if (OUTCOME.includes(column.text)) return;
    const [name = ''] = column.text.split('.');
    if (at < texts.indexOf('then') && context.declaration(name)) return;
    sound = false;
    if (context.names.isBroken(name) || context.names.former.report(name, column.place)) return;
    const nearest = nearestName(column.text, [...context.readable, ...OUTCOME]);
    diagnostics.report('SL364', { column: column.text, nearest }, column.place);
  });
  return sound;
}

function readRow(
  { columns }: CsvTable,
  row: readonly Cell[],
  last: boolean,
  ruled: Ruled,
  context: Context,
): Rule | undefined {
  const cellOf = (column: string): Cell | undefined => row[columns.findIndex(({ text }) => text === column)];
  const tests = columns.flatMap((column, at) => {
    const cell = row[at] as Cell;
    return OUTCOME.includes(column.text) || cell.text === '' || cell.text === '-' ? [] : [{ column, cell }];
  });
  const place = placeOf(row);
  const read = tests.map(({ column, cell }) => context.cell(column.text, cell));
  const then = cellOf('then') as Cell;
  if (then.text === '') {
    context.diagnostics.report('SL321', { column: 'then' }, place);
    return undefined;
  }
  const query = cellOf('query');
  const outcome = readOutcome(
    { written: then.text, place: then.place },
    query && query.text !== '' ? { written: query.text, place: query.place } : undefined,
    ruled,
    context,
  );
  const args = read.filter((each) => each !== undefined);
  if (args.length < read.length || !outcome) return undefined;
  const [only] = args;
  if (!only && !last) {
    context.diagnostics.report('SL323', { table: true }, place);
    return undefined;
  }
  const when: Expression | undefined = args.length > 1 ? { op: 'and', args, place } : only;
  return { ...(when ? { when } : {}), ...outcome, place };
}

function placeOf(row: readonly Cell[]): Place {
  const [first] = row as [Cell, ...Cell[]];
  return { ...first.place, end: Math.max(...row.map(({ place }) => place.end)) };
}
