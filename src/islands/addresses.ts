/**
 * Addresses within a page, for passing on: a mark at every heading, table and position that has one, and at the row under the
 * pointer, the thumb or the arrow keys. Each is a link to where it stands, and puts its address on the clipboard.
 * A page that has moved is left for the present one with what the address named; an address whose row is no longer there
 * leads to its table.
 */
import { hashText } from './parts/hash.ts';
import { markAll } from './parts/mark-all.ts';
import { markFor, say } from './parts/marks.ts';

const ROW = 'main tr[id]';

/** The page is a former address: on to the present one, with the query and the anchor as they are called now. */
function leaveMoved(link: HTMLAnchorElement): void {
  const url = new URL(link.href);
  url.search = location.search;
  const { former = '', present = '' } = link.dataset;
  url.hash = location.hash.replace(new RegExp(`\\b${former}(?=-|_|$)`), present);
  location.replace(url);
}

/** Rows change with the rules: what remains of an address is its table, its group or its section. */
function nearest(): void {
  let id = hashText();
  if (id === '' || document.getElementById(id)) return;
  while (id.includes('_')) {
    id = id.slice(0, id.lastIndexOf('_'));
    if (!document.getElementById(id)) continue;
    location.replace(`#${encodeURIComponent(id)}`);
    say('This row is not in the book any more. This is its table.');
    return;
  }
}

/** One mark goes from row to row: a table of marks would be in the way of whoever reads it or tabs through it. */
function rowMark(): void {
  const mark = markFor('', 'Link to this row');
  mark.classList.add('of-row');
  const put = (row: HTMLElement): void => {
    if (mark.closest('tr') === row) return;
    mark.setAttribute('href', `#${encodeURIComponent(row.id)}`);
    (row.querySelector('.result') ?? row.lastElementChild)?.append(mark);
  };
  const rowOf = (event: Event): HTMLElement | null => (event.target as Element).closest<HTMLElement>(ROW);
  document.addEventListener('pointerover', (event) => {
    const row = rowOf(event);
    if (row && event.pointerType === 'mouse' && !mark.matches(':focus')) put(row);
  });
  document.addEventListener('click', (event) => {
    const row = rowOf(event);
    if (row && !(event.target as Element).closest('a, button, summary')) put(row);
  });
  document.addEventListener('keydown', (event) => {
    const from = (event.target as Element).closest<HTMLElement>('table .link-mark');
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    const table = from?.closest('table');
    if (!from || !table || step === 0) return;
    event.preventDefault();
    const rows = [...table.querySelectorAll<HTMLElement>('tr[id]')];
    const at = rows.findIndex((row) => row.contains(from)) + step;
    const row = rows[at];
    if (row) put(row);
    (row ? mark : at < 0 ? table.querySelector<HTMLElement>('caption .link-mark') : null)?.focus();
  });
}

document.addEventListener('DOMContentLoaded', () => {
  const moved = document.querySelector<HTMLAnchorElement>('.moved-to a');
  if (moved) {
    leaveMoved(moved);
    return;
  }
  markAll(document);
  rowMark();
  nearest();
  addEventListener('hashchange', nearest);
});
