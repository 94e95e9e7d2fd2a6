/** Puts a mark at every heading, table and position that has an address, in a page or in what a script has added to it. */
import { markFor } from './marks.ts';

const MARKED = 'main :is(section, article, .group, .place)[id] > :is(h2, h3, h4)';
const TABLES = 'main table[id]';
const POSITIONS = 'main .positions > div[id]';

export function markAll(root: ParentNode): void {
  for (const heading of root.querySelectorAll<HTMLElement>(MARKED)) {
    heading.append(markFor(heading.parentElement?.id ?? '', 'Link to this section'));
  }
  for (const table of root.querySelectorAll<HTMLTableElement>(TABLES)) markTable(table);
  for (const position of root.querySelectorAll(POSITIONS)) {
    position.querySelector('dt')?.append(markFor(position.id, 'Link to this position'));
  }
}

/** The words of a caption get a name of their own, so that the mark is not read out with it. */
function markTable(table: HTMLTableElement): void {
  const { caption } = table;
  if (!caption) return;
  const words = document.createElement('span');
  words.id = caption.id === '' ? `${table.id}-caption` : caption.id;
  caption.removeAttribute('id');
  words.append(...caption.childNodes);
  caption.append(words, markFor(table.id, 'Link to this table'));
  table.setAttribute('aria-labelledby', words.id);
}
