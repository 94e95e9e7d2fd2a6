/** The pages of a sheet: measured out of sight, composed, and drawn in their true size. */
import {
  type Composed,
  type Composition,
  compose,
  type Limits,
  type Measured,
  type Orientation,
  type PaperName,
  type Piece,
} from '../../paper/index.ts';
import { made } from './elements.ts';
import type { SheetPart } from './sheet-blocks.ts';

export interface Paper {
  readonly size: PaperName;
  readonly orientation: Orientation;
  readonly twoUp: boolean;
  readonly sheets: Limits;
  readonly type: Limits;
  readonly columns: Limits;
}

/** What stands at the head and at the foot of each page. */
export interface Frame {
  readonly title: string;
  /** "QQ-OAC", and for which others it is right too. */
  readonly who: string;
  readonly alsoFor: string;
  readonly edition: string;
  readonly caution: string;
  /** The code that leads to the page. */
  readonly code: Element | undefined;
}

/** A page was measured to the pixel; sums of many lengths may be out by a fraction each. */
const SLACK = 3;
/** How far rows may be set apart, in widths of an M. */
const AIR = 0.7;

/** Finds the type and the columns; `frame` takes room on each page too. */
export function composed(parts: readonly SheetPart[], paper: Paper, frame: Frame, place: HTMLElement): Composition {
  const bench = made('div', 'papers bench');
  const first = leaf(frame, true, '1/1');
  const other = leaf(frame, false, '2/2');
  const sheet = sheetOf(paper);
  sheet.append(first.page, ...(paper.twoUp ? [other.page] : []));
  bench.append(sheet);
  if (!paper.twoUp) {
    const second = sheetOf(paper);
    second.append(other.page);
    bench.append(second);
  }
  const pieces = parts.map((part) => piece(part, 0, part.rows.length, false));
  const column = made('div', 'column', ...pieces);
  // What stands above rows that go on is another heading.
  const repeats = parts.map((part) => piece(part, 0, 0, true));
  const beside = made('div', 'column', ...repeats);
  first.columns.append(column, beside);
  place.append(bench);
  const heights = [first, other].map(({ columns }) => {
    const { paddingTop, paddingBottom } = getComputedStyle(columns);
    return columns.clientHeight - Number.parseFloat(paddingTop) - Number.parseFloat(paddingBottom) - SLACK;
  });
  const width = first.columns.clientWidth;
  const measure = (type: number, columns: number): Measured => {
    bench.style.setProperty('--type', `${type}pt`);
    const gap = Number.parseFloat(getComputedStyle(first.columns).columnGap);
    const own = (width - gap * (columns - 1)) / columns;
    column.style.width = `${own}px`;
    beside.style.width = `${own}px`;
    return {
      blocks: pieces.map((one, at) => lengthsOf(one, repeats[at] as HTMLElement)),
      heights: [heights[0] ?? 0, heights[1] ?? 0],
      tooWide: pieces.some((one) =>
        [...one.children].some(
          (child) => child.scrollWidth > own + 0.5 || (child as HTMLElement).offsetWidth > own + 0.5,
        ),
      ),
      air: (type * AIR * 96) / 72,
    };
  };
  const perSheet = paper.twoUp ? 2 : 1;
  const found = compose({ ...paper, perSheet, measure });
  bench.remove();
  return found;
}

function lengthsOf(one: HTMLElement, repeat: HTMLElement): Measured['blocks'][number] {
  const height = (element: Element | null): number => element?.getBoundingClientRect().height ?? 0;
  const head = height(one.querySelector('thead'));
  return {
    lead: height(one.querySelector('.piece-lead')) + head,
    again: height(repeat.querySelector('.piece-lead')) + head,
    rows: [...one.querySelectorAll('tbody > tr')].map(height),
    gap: Number.parseFloat(getComputedStyle(one).marginTop),
  };
}

/** Draws the pages into `place`; a page of two-up sheets stands beside the one before. */
export function draw(
  parts: readonly SheetPart[],
  paper: Paper,
  frame: Frame,
  found: Composed,
  place: HTMLElement,
): void {
  place.style.setProperty('--type', `${found.type}pt`);
  place.style.setProperty('--air', `${found.air}px`);
  const sheets: HTMLElement[] = [];
  found.pages.forEach((columns, at) => {
    const { page, columns: inside } = leaf(frame, at === 0, `${at + 1}/${found.pages.length}`);
    if (!paper.twoUp || at % 2 === 0) sheets.push(sheetOf(paper));
    sheets.at(-1)?.append(page);
    for (const pieces of columns) inside.append(made('div', 'column', ...pieces.map((one) => pieceOf(parts, one))));
  });
  place.append(...sheets);
  alignColumns(parts, place);
}

function pieceOf(parts: readonly SheetPart[], { block, from, to }: Piece): HTMLElement {
  const part = parts[block] as SheetPart;
  const drawn = piece(part, from, to, from > 0);
  drawn.dataset['block'] = String(block);
  return drawn;
}

/** The columns of a table that goes on are as wide as where it began. */
function alignColumns(parts: readonly SheetPart[], place: HTMLElement): void {
  parts.forEach((part, at) => {
    const pieces = [...place.querySelectorAll<HTMLElement>(`.piece[data-block="${at}"]`)];
    if (pieces.length < 2) return;
    // The whole table, as it was measured.
    const whole = piece(part, 0, part.rows.length, false);
    const first = pieces[0] as HTMLElement;
    const bench = made('div', 'column bench', whole);
    bench.style.width = `${first.parentElement?.clientWidth ?? 0}px`;
    first.parentElement?.append(bench);
    const cells = [...whole.querySelectorAll('tr')].toSorted((a, b) => b.cells.length - a.cells.length)[0]?.cells ?? [];
    const widths = [...cells].map((cell) => cell.getBoundingClientRect().width);
    bench.remove();
    for (const one of pieces) {
      const group = made('colgroup');
      for (const width of widths) {
        const column = made('col');
        column.style.width = `${width}px`;
        group.append(column);
      }
      const table = one.querySelector('table');
      table?.prepend(group);
      table?.classList.add('fixed');
    }
  });
}

/** Rows of a table under its heading, which is said again where they go on. */
function piece({ title, topic, head, rows, table }: SheetPart, from: number, to: number, again: boolean): HTMLElement {
  const same = title.classList.contains('same') && !again;
  const copy = made('table', table.className);
  if (head) copy.append(unlinked(head));
  copy.append(made('tbody', '', ...rows.slice(from, to).map(unlinked)));
  return made(
    'section',
    'piece',
    made(
      'div',
      'piece-lead',
      ...(topic && !again ? [made('h2', '', ...unlinked(topic).childNodes)] : []),
      made(
        'h3',
        same ? 'piece-title same' : 'piece-title',
        ...unlinked(title).childNodes,
        ...(again ? [made('span', 'note', ' continued')] : []),
      ),
    ),
    copy,
  );
}

/** A copy without links: what is drawn is paper, too small to be touched; the text below it leads on. */
function unlinked(element: HTMLElement): HTMLElement {
  const copy = element.cloneNode(true) as HTMLElement;
  for (const link of copy.querySelectorAll('a')) link.replaceWith(...link.childNodes);
  return copy;
}

function sheetOf({ size, orientation, twoUp }: Paper): HTMLElement {
  return made('div', ['paper', `${size.toLowerCase()}-${orientation}`, ...(twoUp ? ['two-up'] : [])].join(' '));
}

/** An empty page. */
function leaf(frame: Frame, first: boolean, number: string): { page: HTMLElement; columns: HTMLElement } {
  const head = made(
    'header',
    '',
    made(
      'div',
      '',
      made(first ? 'h2' : 'p', 'leaf-name', frame.title),
      made(
        'p',
        'leaf-who',
        made('strong', '', frame.who),
        ...(frame.alsoFor === '' ? [] : [made('span', '', ` ${frame.alsoFor}`)]),
      ),
      made('p', 'leaf-edition', frame.edition),
    ),
  );
  if (first && frame.code) head.append(frame.code.cloneNode(true));
  const columns = made('div', 'leaf-columns');
  const foot = made('footer', '', made('p', 'leaf-caution', frame.caution), made('p', 'leaf-number', number));
  return { page: made('article', first ? 'leaf first' : 'leaf', head, columns, foot), columns };
}
