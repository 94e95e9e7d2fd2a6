/** Proof of a state table against its diagram, by other means than those that made it: by counting cases. */
import { caseCount, type ValueBox } from './case-count.ts';
import type { Diagrams } from './diagrams.ts';
import { FlatDiagram } from './flat-diagram.ts';
import { ascending } from './inspect.ts';
import type { StateTable, TableRow } from './state-table.ts';
import type { Node } from './unique-table.ts';
import { isInterval } from './value-sets.ts';

/**
 * What is wrong with a table of `f`, or undefined when it is right: cells well formed, no possible case in two rows or
 * in none, every row with a possible case and with the outcome of all of its possible cases.
 */
export function verifyTable(diagrams: Diagrams, f: Node, table: StateTable, impossible: number): string | undefined {
  if (new Set(table.columns).size < table.columns.length) return 'a column stands twice';
  for (const [index, row] of table.rows.entries()) {
    const malformed = malformedCell(diagrams, table.columns, row);
    if (malformed !== undefined) return `row ${index + 1} ${malformed}`;
  }
  const flat = new FlatDiagram(diagrams, f, ascending([...table.columns, ...diagrams.support(f)]));
  const count = caseCount(flat);
  const possibleIn = (box: ValueBox): bigint => count(box, (outcome) => outcome !== impossible);
  const boxes = table.rows.map(({ cells }) => flat.levels.map((level) => cells[table.columns.indexOf(level)]));
  const marks = boxes.map(marksOf);
  let covered = 0n;
  for (const [index, { outcome }] of table.rows.entries()) {
    const box = boxes[index] as ValueBox;
    const cases = possibleIn(box);
    if (cases === 0n) return `row ${index + 1} holds only impossible cases`;
    for (let earlier = 0; earlier < index; earlier += 1) {
      if (areApart(marks[earlier] as Marks, marks[index] as Marks)) continue;
      if (possibleIn(common(boxes[earlier] as ValueBox, box)) > 0n)
        return `row ${index + 1} holds a case of an earlier row`;
    }
    if (count(box, (each) => each === outcome) !== cases) return `row ${index + 1} holds a case of another outcome`;
    covered += cases;
  }
  return covered === possibleIn([]) ? undefined : 'a possible case is in no row';
}

/** By column, a bit for each value of a cell, that of another value where there are more than bits. */
type Marks = readonly number[];

function marksOf(box: ValueBox): Marks {
  return box.map((cell) => cell?.reduce((mask, value) => mask | (1 << value), 0) ?? -1);
}

/** Whether two boxes surely have no case in common. */
function areApart(one: Marks, other: Marks): boolean {
  for (let column = 0; column < one.length; column += 1) {
    if (((one[column] as number) & (other[column] as number)) === 0) return true;
  }
  return false;
}

/** The box of what is in both. */
function common(one: ValueBox, other: ValueBox): ValueBox {
  return one.map((cell, column) => {
    const beside = other[column];
    return cell && beside ? cell.filter((value) => beside.includes(value)) : (cell ?? beside);
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
