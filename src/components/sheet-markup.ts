/**
 * The blocks of a sheet as HTML. One function for the pages and for the scripts that bring topics into a reader's own sheet, so that both
 * are the same; islands/sheet.ts lays them out.
 */
import type { Address, Effectivity, SheetBlock, SheetCell, SheetRow, SheetTopicView } from '../book/index.ts';
import { glyph } from '../figures/index.ts';
import { fitsAttribute } from './fits-attribute.ts';
import { escaped, linkHtml, tells, wordsHtml } from './html.ts';
import { plain } from './rows.ts';

export function topicMarkup(topic: SheetTopicView, from: Address): string {
  const blocks = topic.blocks.map((block) => blockMarkup(block, topic, from)).join('');
  return `<section class="sheet-topic" data-topic="${topic.id}"><h2>${escaped(topic.title)}</h2>${blocks}</section>`;
}

function blockMarkup(block: SheetBlock, topic: SheetTopicView, from: Address): string {
  const { id, title, to, note, lamps, effectivity, columns, rows } = block;
  const words = to ? linkHtml(from, to.to, title, to.anchor) : escaped(title);
  const said = note === undefined ? '' : ` <span class="note">${escaped(note)}</span>`;
  // A topic of one list bears its name already.
  const same = title === topic.title && topic.blocks.every((each) => each.title === title);
  const heading = `<h3 id="${id}"${same ? ' class="same"' : ''}${tells(lamps)}>${words}${said}</h3>`;
  const heads = columns.map((column, at) => {
    if (column.every(({ text }) => text === '')) return '<td></td>';
    const isAnswer = rows.some(({ cells }) => startingAt(cells, at)?.answer);
    return `<th scope="col"${isAnswer ? ' class="answer"' : ''}>${wordsHtml(column, from)}</th>`;
  });
  const head = columns.length === 0 ? '' : `<thead><tr>${heads.join('')}</tr></thead>`;
  const body = rows.map((row) => rowMarkup(row, columns, from)).join('');
  const holds = effectivity.whole ? '' : `<p class="for">On ${escaped(effectivity.text)}</p>`;
  return `<section class="sheet-block"${on(effectivity)}>${heading}${holds}<div class="wide" role="group" aria-labelledby="${id}" tabindex="0"><table class="sheet-table"><caption>${escaped(note === undefined ? title : `${title}: ${note}`)}</caption>${head}<tbody${tells()}>${body}</tbody></table></div></section>`;
}

/** The cell that begins in a column. */
function startingAt(cells: SheetRow['cells'], column: number): SheetCell | undefined {
  let at = 0;
  return cells.find(({ span }) => {
    at += span;
    return at - span === column;
  });
}

function rowMarkup(
  { cells, first, lamp, effectivity }: SheetRow,
  columns: SheetBlock['columns'],
  from: Address,
): string {
  const holds = effectivity && !effectivity.whole ? `<span class="for">On ${escaped(effectivity.text)}</span>` : '';
  const inside = cells.map((cell, at) => {
    const before = cells.slice(0, at).reduce((sum, { span }) => sum + span, 0);
    return cellMarkup(cell, cell.span > 1 ? '' : plain(columns[before]), from, at === 0 ? holds : '');
  });
  return `<tr${first ? ' class="first"' : ''}${lamp === undefined ? '' : tells([lamp])}${effectivity ? on(effectivity) : ''}>${inside.join('')}</tr>`;
}

/** `column`: its title, which stands before it on narrow screens. */
function cellMarkup(
  { lines, answer, quiet, span, lamps }: SheetCell,
  column: string,
  from: Address,
  after: string,
): string {
  const classes = [...(answer ? ['answer'] : []), ...(quiet ? ['quiet'] : [])];
  const attributes = [
    classes.length > 0 ? ` class="${classes.join(' ')}"` : '',
    span > 1 ? ` colspan="${span}"` : '',
    column === '' ? '' : ` data-column="${escaped(column)}"`,
    lamps ? ` data-${lamps.state}="${escaped(lamps.anchors.join(' '))}"` : '',
  ].join('');
  const inside = lines.map(({ state, words }) => {
    const named = state
      ? `<span class="state">${glyph(state.glyph)}<span>${escaped(state.text)}</span></span>${words.length > 0 ? ' ' : ''}`
      : '';
    return `<span class="line">${named}${wordsHtml(words, from)}</span>`;
  });
  return `<td${attributes}>${inside.join('')}${after}</td>`;
}

/** `data-on`, since blocks with `data-fits` are put in order by the page's own script. */
function on(effectivity: Effectivity): string {
  return effectivity.whole ? '' : ` data-on="${fitsAttribute(effectivity)}"`;
}
