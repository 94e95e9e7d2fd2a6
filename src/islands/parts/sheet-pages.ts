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
  const bench = document.createElement('div');
  bench.className = 'papers bench';
  const first = leaf(paper, frame, true, '1/1');
  const other = leaf(paper, frame, false, '2/2');
  const sheet = sheetOf(paper);
  sheet.append(first.page, ...(paper.twoUp ? [other.page] : []));
  bench.append(sheet);
  if (!paper.twoUp) {
    const second = sheetOf(paper);
    second.append(other.page);
    bench.append(second);
  }
  const column = document.createElement('div');
  column.className = 'column';
  const pieces = parts.map((part) => piece(part, 0, part.rows.length, false));
  column.append(...pieces);
  // What stands above rows that go on is another heading.
  const repeats = parts.map((part) => piece(part, 0, 0, true));
  const beside = document.createElement('div');
  beside.className = 'column';
  beside.append(...repeats);
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
    const { page, columns: inside } = leaf(paper, frame, at === 0, `${at + 1}/${found.pages.length}`);
    if (!paper.twoUp || at % 2 === 0) sheets.push(sheetOf(paper));
    sheets.at(-1)?.append(page);
    for (const pieces of columns) {
      const column = document.createElement('div');
      column.className = 'column';
      column.append(...pieces.map((one) => pieceOf(parts, one)));
      inside.append(column);
    }
  });
  place.append(...sheets);
  alignColumns(parts, found, place);
}

function pieceOf(parts: readonly SheetPart[], { block, from, to }: Piece): HTMLElement {
  const part = parts[block] as SheetPart;
  const made = piece(part, from, to, from > 0);
  made.dataset['block'] = String(block);
  return made;
}

/** The columns of a table that goes on are as wide as where it began. */
function alignColumns(parts: readonly SheetPart[], found: Composed, place: HTMLElement): void {
  parts.forEach((part, at) => {
    const pieces = [...place.querySelectorAll<HTMLElement>(`.piece[data-block="${at}"]`)];
    if (pieces.length < 2) return;
    // The whole table, as it was measured.
    const whole = piece(part, 0, part.rows.length, false);
    const first = pieces[0] as HTMLElement;
    const bench = document.createElement('div');
    bench.className = 'column bench';
    bench.style.width = `${first.parentElement?.clientWidth ?? 0}px`;
    bench.append(whole);
    first.parentElement?.append(bench);
    const cells = [...whole.querySelectorAll('tr')].toSorted((a, b) => b.cells.length - a.cells.length)[0]?.cells ?? [];
    const widths = [...cells].map((cell) => cell.getBoundingClientRect().width);
    bench.remove();
    for (const one of pieces) {
      const group = document.createElement('colgroup');
      for (const width of widths) {
        const column = document.createElement('col');
        column.style.width = `${width}px`;
        group.append(column);
      }
      const table = one.querySelector('table');
      table?.prepend(group);
      table?.classList.add('fixed');
    }
  });
  place.dataset['columns'] = String(found.columns);
}

/** Rows of a table under its heading, which is said again where they go on. */
function piece({ title, topic, head, rows, table }: SheetPart, from: number, to: number, again: boolean): HTMLElement {
  const made = document.createElement('section');
  made.className = 'piece';
  const lead = document.createElement('div');
  lead.className = 'piece-lead';
  if (topic && !again) lead.append(named('h2', topic));
  const own = named('h3', title);
  own.className = title.classList.contains('same') && !again ? 'piece-title same' : 'piece-title';
  if (again) {
    const more = document.createElement('span');
    more.className = 'note';
    more.textContent = ' continued';
    own.append(more);
  }
  lead.append(own);
  const copy = document.createElement('table');
  copy.className = table.className;
  if (head) copy.append(head.cloneNode(true));
  const body = document.createElement('tbody');
  body.append(...rows.slice(from, to).map((row) => row.cloneNode(true)));
  copy.append(body);
  made.append(lead, copy);
  return made;
}

function named(level: 'h2' | 'h3', from: HTMLElement): HTMLElement {
  const made = document.createElement(level);
  made.append(...[...from.childNodes].map((node) => node.cloneNode(true)));
  return made;
}

function sheetOf({ size, orientation, twoUp }: Paper): HTMLElement {
  const sheet = document.createElement('div');
  sheet.className = ['paper', `${size.toLowerCase()}-${orientation}`, ...(twoUp ? ['two-up'] : [])].join(' ');
  return sheet;
}

/** An empty page. */
function leaf(_: Paper, frame: Frame, first: boolean, number: string): { page: HTMLElement; columns: HTMLElement } {
  const page = document.createElement('article');
  page.className = first ? 'leaf first' : 'leaf';
  const head = document.createElement('header');
  const words = document.createElement('div');
  words.append(
    line('p', 'leaf-name', frame.title),
    line('p', 'leaf-who', frame.who, frame.alsoFor),
    line('p', 'leaf-edition', frame.edition),
  );
  head.append(words);
  if (first && frame.code) head.append(frame.code.cloneNode(true));
  const columns = document.createElement('div');
  columns.className = 'leaf-columns';
  const foot = document.createElement('footer');
  foot.append(line('p', 'leaf-caution', frame.caution), line('p', 'leaf-number', number));
  page.append(head, columns, foot);
  return { page, columns };
}

function line(tag: 'p', name: string, words: string, more = ''): HTMLElement {
  const made = document.createElement(tag);
  made.className = name;
  const strong = document.createElement('span');
  strong.textContent = words;
  made.append(strong);
  if (more !== '') {
    const rest = document.createElement('span');
    rest.className = 'more';
    rest.textContent = ` ${more}`;
    made.append(rest);
  }
  return made;
}
