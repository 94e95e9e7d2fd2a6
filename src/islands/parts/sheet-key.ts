/** Worksheets: what is left out is numbered, and stands by these numbers in a key of its own. */
import { made } from './elements.ts';
import type { SheetPart } from './sheet-blocks.ts';

/** Numbers the answers of drawn pages in reading order. */
export function numbered(place: HTMLElement): void {
  [...place.querySelectorAll<HTMLElement>('td.answer')].forEach((cell, at) => {
    cell.append(made('span', 'blank', String(at + 1)));
  });
}

/** So many letters, at most and one answer more, stand in a row: a row is never cut, and must fit on the smallest page. */
const MOST = 250;

/** The same numbers with the answers, a row or more for each table. */
export function keyOf(parts: readonly SheetPart[]): SheetPart[] {
  let number = 0;
  const rows = parts.flatMap(({ title, rows: all }) => {
    const written: HTMLTableRowElement[] = [];
    let said: HTMLTableCellElement | undefined;
    for (const answer of all.flatMap((row) => [...row.querySelectorAll<HTMLElement>('td.answer')])) {
      if (!said || (said.textContent ?? '').length > MOST) {
        said = made('td', 'keys');
        written.push(made('tr', 'first', made('td', '', title.textContent ?? ''), said));
      }
      number += 1;
      said.append(keyTo(number, answer), ' ');
    }
    return written;
  });
  if (rows.length === 0) return [];
  return [
    { title: made('h3', 'same', 'Key'), topic: undefined, head: undefined, rows, table: made('table', 'sheet-table') },
  ];
}

function keyTo(number: number, answer: HTMLElement): HTMLElement {
  const lines = [...answer.querySelectorAll('.line')].map((line) => line.cloneNode(true).childNodes);
  return made(
    'span',
    'key',
    made('strong', '', String(number)),
    ' ',
    ...lines.flatMap((nodes, at) => [...(at > 0 ? ['; '] : []), ...nodes]),
  );
}
