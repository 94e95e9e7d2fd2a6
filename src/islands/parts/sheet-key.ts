/** Worksheets: what is left out is numbered, and stands by these numbers in a key of its own. */
import type { SheetPart } from './sheet-blocks.ts';

/** Numbers the answers of drawn pages in reading order. */
export function numbered(place: HTMLElement): void {
  [...place.querySelectorAll<HTMLElement>('td.answer')].forEach((cell, at) => {
    const number = document.createElement('span');
    number.className = 'blank';
    number.textContent = String(at + 1);
    cell.append(number);
  });
}

/** So many letters, at most and one answer more, stand in a row: a row is never cut, and must fit on the smallest page. */
const MOST = 250;

/** The same numbers with the answers, a row or more for each table. */
export function keyOf(parts: readonly SheetPart[]): SheetPart[] {
  let number = 0;
  const rows = parts.flatMap(({ title, rows: all }) => {
    const made: HTMLTableRowElement[] = [];
    let said: HTMLTableCellElement | undefined;
    for (const answer of all.flatMap((row) => [...row.querySelectorAll<HTMLElement>('td.answer')])) {
      if (!said || (said.textContent ?? '').length > MOST) {
        const row = document.createElement('tr');
        row.className = 'first';
        const what = document.createElement('td');
        what.textContent = title.textContent;
        said = document.createElement('td');
        said.className = 'keys';
        row.append(what, said);
        made.push(row);
      }
      number += 1;
      said.append(keyTo(number, answer), ' ');
    }
    return made;
  });
  const title = document.createElement('h3');
  title.textContent = 'Key';
  title.className = 'same';
  const table = document.createElement('table');
  table.className = 'sheet-table';
  return rows.length === 0 ? [] : [{ title, topic: undefined, head: undefined, rows, table }];
}

function keyTo(number: number, answer: HTMLElement): HTMLElement {
  const made = document.createElement('span');
  made.className = 'key';
  const figure = document.createElement('strong');
  figure.textContent = String(number);
  const lines = [...answer.querySelectorAll('.line')];
  made.append(figure, ' ', ...lines.flatMap((line, at) => [...(at > 0 ? ['; '] : []), ...inside(line)]));
  return made;
}

function inside(line: Element): Node[] {
  return [...line.childNodes].map((node) => node.cloneNode(true));
}
