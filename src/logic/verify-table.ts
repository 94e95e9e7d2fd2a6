/** Proof of a state table against its diagram, by other means than those that made it. */
import type { Diagrams } from './diagrams.ts';
import type { StateTable, TableRow } from './state-table.ts';
import type { Node } from './unique-table.ts';
import { isInterval } from './value-sets.ts';

/**
 * What is wrong with a table of `f`, or undefined when it is right: cells well formed, no possible case in two rows or
 * in none, every row with a possible case and with the outcome of all of its possible cases.
 */
export function verifyTable(diagrams: Diagrams, f: Node, table: StateTable, impossible: number): string | undefined {
  if (new Set(table.columns).size < table.columns.length) return 'a column stands twice';
  const possible = diagrams.not(diagrams.casesOf(f, impossible));
  let covered = diagrams.no;
  for (const [index, row] of table.rows.entries()) {
    const malformed = malformedCell(diagrams, table.columns, row);
    if (malformed !== undefined) return `row ${index + 1} ${malformed}`;
    const cases = diagrams.and(possible, ...literals(diagrams, table.columns, row));
    if (cases === diagrams.no) return `row ${index + 1} holds only impossible cases`;
    if (diagrams.and(cases, covered) !== diagrams.no) return `row ${index + 1} holds a case of an earlier row`;
    if (diagrams.implies(cases, diagrams.casesOf(f, row.outcome)) !== diagrams.yes) {
      return `row ${index + 1} holds a case of another outcome`;
    }
    covered = diagrams.or(covered, cases);
  }
  return covered === possible ? undefined : 'a possible case is in no row';
}

function literals(diagrams: Diagrams, columns: readonly number[], row: TableRow): readonly Node[] {
  return row.cells.map((cell, index) => (cell ? diagrams.literal(columns[index] as number, cell) : diagrams.yes));
}

function malformedCell(diagrams: Diagrams, columns: readonly number[], row: TableRow): string | undefined {
  if (row.cells.length !== columns.length) return 'has not one cell for each column';
  for (const [index, cell] of row.cells.entries()) {
    const variable = diagrams.variables[columns[index] as number];
    if (!variable) return `has a cell under level ${columns[index]}, which does not exist`;
    if (!cell) continue;
    const rises = cell.every((value, at) => at === 0 || value > (cell[at - 1] as number));
    const last = cell.at(-1);
    if (last === undefined || !rises || (cell[0] as number) < 0 || last >= variable.size) {
      return `has no proper set of values of ${variable.id}`;
    }
    if (variable.ordered && !isInterval(cell)) return `has a gap in ${variable.id}`;
  }
  return undefined;
}
