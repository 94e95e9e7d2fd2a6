/** What the browser does to put a page of the book into a printed document. These functions run there: they may use nothing of this file. */

export interface Piece {
  readonly id: string;
  readonly address: string;
  /** The page as it was built. */
  readonly html: string;
  /** The id of each page of the document, by its address. */
  readonly ids: Readonly<Record<string, string>>;
  /** The ids of those that are printed together with it. */
  readonly here: readonly string[];
  /** What stands before an id to which another part of the document has to be searched. */
  readonly elsewhere: string;
  /** Where pages that are left out can be read; none where that is not known. */
  readonly online: string;
  /** The one aircraft that it is for; empty for all. */
  readonly serial: string;
  readonly day: string;
}

/** Puts the body of a page into its place, with ids and links that hold in the document. */
export function putIn({ id, address, html, ids, here, elsewhere, online, serial, day }: Piece): void {
  const place = document.getElementById(id);
  const source = new DOMParser().parseFromString(html, 'text/html').querySelector('main');
  if (!place || !source) throw new Error(`no page ${address}`);
  const main = document.importNode(source, true);
  const screenOnly = '.trail, .sections, .on-screen, .compare-with, .letters, details.text, details.holds > ul';
  for (const left of main.querySelectorAll(`script, form, dialog, [hidden], ${screenOnly}`)) left.remove();

  // A notice says itself whom it is for.
  if (serial !== '' && !main.classList.contains('page-notice')) {
    const holds = (fits: string): boolean =>
      fits.split(' ').some((each) => {
        const [who, from = '', until = ''] = each.split('/');
        return who === serial && (from === '' || from <= day) && (until === '' || day <= until);
      });
    const heads = 'h2, h3, h4, dt, caption, figcaption, thead, thead *, .kind, .kind *, .because, .alias, a, span';
    /** With whatever has nothing to say without it. */
    const remove = (block: Element): void => {
      const { parentElement: around, previousElementSibling: before, nextElementSibling: after } = block;
      block.remove();
      if (before?.matches('h3, h4') && !after?.matches(':not(h2, h3, h4)')) before.remove();
      if (around && around !== main && !around.querySelector(`:not(${heads})`)) remove(around);
    };
    for (const block of main.querySelectorAll<HTMLElement>('[data-fits], [data-on]'))
      if (!holds(block.dataset['fits'] ?? block.dataset['on'] ?? '')) remove(block);
    // All that is left holds for the one aircraft.
    for (const span of main.querySelectorAll<HTMLTableCellElement>('table:has(th.for-some) th[colspan]'))
      span.colSpan -= 1;
    for (const said of main.querySelectorAll('.holds, .how-many, .for-some')) said.remove();
  }

  const targetOf = (link: Element): URL => new URL(link.getAttribute('href') ?? '', `https://book.invalid/${address}`);
  // A flow is drawn once, where its table has its own page.
  for (const link of main.querySelectorAll('section.attribute > :is(h2, h3, h4) > a[href]')) {
    const page = decodeURIComponent(targetOf(link).pathname.slice(1));
    if (page === address || ids[page] === undefined) continue;
    for (const flow of link.closest('section')?.querySelectorAll('figure.flow') ?? []) flow.remove();
  }

  // Modes in words stand before their drawing, which often has to go on overleaf.
  for (const modes of main.querySelectorAll('#modes > table'))
    modes.parentElement?.querySelector('figure')?.before(modes);

  // A heading of the page stands one level below that of its chapter; what a reader unfolds on the screen is open on paper.
  for (const heading of main.querySelectorAll('h1, h2, h3, h4, h5')) {
    heading.setAttribute('role', 'heading');
    heading.setAttribute('aria-level', String(Number(heading.tagName.slice(1)) + 1));
  }
  for (const fold of main.querySelectorAll<HTMLDetailsElement>('details:not(.holds)')) fold.open = true;

  // An index leads to what the document has.
  for (const link of main.querySelectorAll('.terms a[href]'))
    if (ids[decodeURIComponent(targetOf(link).pathname.slice(1))] === undefined) link.closest('li')?.remove();
  for (const entry of main.querySelectorAll('.terms > ul > li')) if (!entry.querySelector('a')) entry.remove();

  const own = (anchor: string): string => `${id}-${anchor}`;
  for (const element of main.querySelectorAll('[id]')) element.id = own(element.id);
  const lists = ['aria-labelledby', 'aria-describedby', 'aria-controls', 'headers', 'for'];
  for (const element of main.querySelectorAll('*')) {
    for (const name of lists) {
      const value = element.getAttribute(name);
      if (value !== null) element.setAttribute(name, value.split(/\s+/).map(own).join(' '));
    }
    for (const { name, value } of [...element.attributes])
      if (value.includes('url(#'))
        element.setAttribute(
          name,
          value.replace(/url\(#([^)]+)\)/g, (_, anchor) => `url(#${own(anchor)})`),
        );
  }
  for (const use of main.querySelectorAll('use, textPath')) {
    const to = use.getAttribute('href');
    if (to?.startsWith('#')) use.setAttribute('href', `#${own(to.slice(1))}`);
  }
  for (const link of main.querySelectorAll('a[href]')) {
    if (/^[a-z]+:/i.test(link.getAttribute('href') ?? '')) continue;
    const url = targetOf(link);
    const page = decodeURIComponent(url.pathname.slice(1));
    const target = ids[page];
    const anchor = decodeURIComponent(url.hash.slice(1));
    const place = anchor === '' ? target : `${target}-${anchor}`;
    if (target !== undefined) link.setAttribute('href', here.includes(target) ? `#${place}` : `${elsewhere}${place}`);
    else if (online !== '') link.setAttribute('href', `${online}${page}${url.hash}`);
    else link.removeAttribute('href');
  }
  place.className = main.className;
  const columns = document.createElement('div');
  columns.className = 'printed-columns';
  const before = main.querySelectorAll(':scope > :is(.title, .notices-here)');
  place.append(...before);
  columns.append(...main.childNodes);
  place.append(columns);
}

export interface Mending {
  /** The page of each id of the document, as far as it is known yet. */
  readonly numbers: Readonly<Record<string, number>>;
  /** Ids that links lead to, of this part or of others. */
  readonly wanted: readonly string[];
  readonly elsewhere: string;
}

/**
 * Once all pages are in: sends links to anchors that are lacking to the head of their page, leaves out titles that say what the
 * chapter's says just above, numbers the entries of an index.
 */
export function mend({ numbers, wanted, elsewhere }: Mending): void {
  const [chapter] = document.querySelectorAll('.chapter-of-book');
  const title = chapter?.querySelector('main:first-of-type h1');
  if (title && title.textContent === chapter?.querySelector('.chapter-title')?.textContent) title.remove();
  for (const link of document.querySelectorAll('main a[href^="#"]')) {
    const anchor = (link.getAttribute('href') ?? '').slice(1);
    if (!document.getElementById(anchor)) link.setAttribute('href', `#${anchor.split('-')[0]}`);
  }
  for (const link of document.querySelectorAll(`main.page-terms a[href^="${elsewhere}"]`)) {
    const anchor = (link.getAttribute('href') ?? '').slice(elsewhere.length);
    const number = numbers[anchor] ?? numbers[anchor.split('-')[0] ?? ''];
    const shown = document.createElement('span');
    shown.className = 'of-page';
    shown.textContent = ` ${number}`;
    if (number !== undefined) link.append(shown);
  }

  // The browser keeps places that something on the same document leads to.
  const nav = document.createElement('nav');
  nav.hidden = true;
  for (const id of wanted)
    if (document.getElementById(id)) {
      const link = document.createElement('a');
      link.href = `#${id}`;
      nav.append(link);
    }
  document.body.append(nav);
}

/** Lets every section that has something too wide for a column go over all of them, between what stands in columns. */
export function widen(): void {
  const first = document.querySelector('.printed-columns');
  if (!first) return;
  const { columnGap, columnCount } = getComputedStyle(first);
  const count = Number(columnCount) || 1;
  if (count === 1) return;
  const column = (first.clientWidth - (count - 1) * Number.parseFloat(columnGap)) / count;
  const wide = new Set<Element>(
    document.querySelectorAll(
      '.printed-columns :is(.schematic, .phase-drawings, .stage, .stop, .walk), .page-panel .views',
    ),
  );
  // A drawing may shrink a little.
  for (const drawing of document.querySelectorAll('.printed-columns svg:not(.glyph)')) {
    const zoom = Number(getComputedStyle(drawing).getPropertyValue('zoom')) || 1;
    const natural = (Number.parseFloat(drawing.getAttribute('width') ?? '') || 0) * zoom;
    if (natural > column * 1.12 && drawing.getBoundingClientRect().width > 0) wide.add(drawing);
  }
  // A table may break its lines, but not into shreds.
  const style = document.createElement('style');
  const measured = (width: string): Map<Element, number> => {
    style.textContent = `.printed-columns table { width: ${width} !important; } .printed-columns caption { display: none; }`;
    const tables = [...document.querySelectorAll('.printed-columns table')];
    return new Map(tables.map((table) => [table, table.getBoundingClientRect().width]));
  };
  document.head.append(style);
  const least = measured('min-content');
  for (const [table, most] of measured('max-content'))
    if (most > column * 1.6 || (least.get(table) ?? 0) > column) wide.add(table);
  style.remove();

  for (const columns of document.querySelectorAll('.printed-columns')) {
    let open: Element | undefined;
    for (const child of [...columns.childNodes]) {
      const full = child instanceof Element && [...wide].some((each) => child.contains(each));
      if (full) {
        child.classList.add('full');
        columns.before(child);
        open = undefined;
      } else {
        if (!open) {
          open = document.createElement('div');
          open.className = 'printed-columns';
          columns.before(open);
        }
        open.append(child);
      }
    }
    columns.remove();
  }
}

/**
 * On a page that is printed by itself: links to the folder that it was built in lead to the book's address, or nowhere. The caution
 * stands in the margin of each sheet already, and needs none at the end.
 */
export function leadOut({ root, online }: { readonly root: string; readonly online: string }): void {
  document.querySelector('footer.caution')?.remove();
  for (const link of document.querySelectorAll<HTMLAnchorElement>('a[href]')) {
    if (!link.href.startsWith(root) || (link.getAttribute('href') ?? '').startsWith('#')) continue;
    if (online === '') link.removeAttribute('href');
    else link.href = online + link.href.slice(root.length);
  }
}
