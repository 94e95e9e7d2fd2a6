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
  const upwards = lastTestedFirst(diagrams, table.columns);
  let covered = diagrams.no;
  for (const [index, row] of table.rows.entries()) {
    const malformed = malformedCell(diagrams, table.columns, row);
    if (malformed !== undefined) return `row ${index + 1} ${malformed}`;
    const cases = diagrams.and(...literals(diagrams, table.columns, row, upwards), possible);
    if (cases === diagrams.no) return `row ${index + 1} holds only impossible cases`;
    if (diagrams.and(cases, covered) !== diagrams.no) return `row ${index + 1} holds a case of an earlier row`;
    if (diagrams.implies(cases, diagrams.casesOf(f, row.outcome)) !== diagrams.yes) {
      return `row ${index + 1} holds a case of another outcome`;
    }
    covered = diagrams.or(covered, cases);
  }
  return covered === possible ? undefined : 'a possible case is in no row';
}

/** The columns in the order in which a conjunction grows upwards, by a node at a time. */
function lastTestedFirst(diagrams: Diagrams, columns: readonly number[]): readonly number[] {
  const depths = columns.map((level) => diagrams.order.indexOf(level));
  return [...columns.keys()].sort((a, b) => (depths[b] as number) - (depths[a] as number));
}

function literals(
  diagrams: Diagrams,
  columns: readonly number[],
  row: TableRow,
  order: readonly number[],
): readonly Node[] {
  return order.flatMap((index) => {
    const cell = row.cells[index];
    return cell ? [diagrams.literal(columns[index] as number, cell)] : [];
  });
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
