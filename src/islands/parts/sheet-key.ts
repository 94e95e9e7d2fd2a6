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

/** The same numbers with the answers, a row for each table. */
export function keyOf(parts: readonly SheetPart[]): SheetPart[] {
  let number = 0;
  const rows = parts.flatMap(({ title, rows: all }) => {
    const answers = all.flatMap((row) => [...row.querySelectorAll<HTMLElement>('td.answer')]);
    if (answers.length === 0) return [];
    const row = document.createElement('tr');
    row.className = 'first';
    const what = document.createElement('td');
    what.textContent = title.textContent;
    const said = document.createElement('td');
    said.className = 'keys';
    for (const answer of answers) {
      number += 1;
      const one = document.createElement('span');
      one.className = 'key';
      const figure = document.createElement('strong');
      figure.textContent = String(number);
      one.append(
        figure,
        ' ',
        ...[...answer.querySelectorAll('.line')].flatMap((line, at) => [...(at > 0 ? ['; '] : []), ...inside(line)]),
      );
      said.append(one, ' ');
    }
    row.append(what, said);
    return [row];
  });
  const title = document.createElement('h3');
  title.textContent = 'Key';
  title.className = 'same';
  const table = document.createElement('table');
  table.className = 'sheet-table';
  return rows.length === 0 ? [] : [{ title, topic: undefined, head: undefined, rows, table }];
}

function inside(line: Element): Node[] {
  return [...line.childNodes].map((node) => node.cloneNode(true));
}
