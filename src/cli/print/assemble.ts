/** What the browser does to put a page of the book into a printed document. These functions run there: they may use nothing of this file. */

export interface Piece {
  readonly id: string;
  readonly address: string;
  /** The page as it was built. */
  readonly html: string;
  /** The id of each page of the document, by its address. */
  readonly ids: Readonly<Record<string, string>>;
  /** Where pages that are left out can be read; none where that is not known. */
  readonly online: string;
  /** The one aircraft that it is for; empty for all. */
  readonly serial: string;
  readonly day: string;
}

/** Puts the body of a page into its place, with ids and links that hold in the document. */
export function putIn({ id, address, html, ids, online, serial, day }: Piece): void {
  const place = document.getElementById(id);
  const source = new DOMParser().parseFromString(html, 'text/html').querySelector('main');
  if (!place || !source) throw new Error(`no page ${address}`);
  const main = document.importNode(source, true);
  for (const left of main.querySelectorAll('.trail, script, form, dialog, [hidden]')) left.remove();

  const holds = (fits: string): boolean =>
    fits.split(' ').some((each) => {
      const [who, from = '', until = ''] = each.split('/');
      return who === serial && (from === '' || from <= day) && (until === '' || day <= until);
    });
  if (serial !== '')
    for (const block of main.querySelectorAll<HTMLElement>('[data-fits]'))
      if (!holds(block.dataset['fits'] ?? '')) block.remove();

  // A heading of the page stands one level below that of its chapter; what a reader unfolds on the screen is open on paper.
  for (const heading of main.querySelectorAll('h1, h2, h3, h4, h5')) {
    heading.setAttribute('role', 'heading');
    heading.setAttribute('aria-level', String(Number(heading.tagName.slice(1)) + 1));
  }
  for (const fold of main.querySelectorAll<HTMLDetailsElement>('details:not(.holds)')) fold.open = true;

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
    const to = link.getAttribute('href') ?? '';
    if (/^[a-z]+:/i.test(to)) continue;
    const base = `https://book.invalid/${address}`;
    const url = new URL(to, base);
    const page = decodeURIComponent(url.pathname.slice(1));
    const target = ids[page];
    const anchor = decodeURIComponent(url.hash.slice(1));
    if (target !== undefined) link.setAttribute('href', anchor === '' ? `#${target}` : `#${target}-${anchor}`);
    else if (online !== '') link.setAttribute('href', `${online}${page}${url.hash}`);
    else link.removeAttribute('href');
  }
  place.className = main.className;
  place.append(...main.childNodes);
}

/**
 * Once all pages are in: sends links to anchors that the document lacks to the head of their page, and leaves out titles that say
 * what the chapter's says just above.
 */
export function mend(): void {
  for (const chapter of document.querySelectorAll('.chapter-of-book')) {
    const title = chapter.querySelector('main:first-of-type h1');
    if (title?.textContent === chapter.querySelector('.chapter-title')?.textContent) title?.remove();
  }
  for (const link of document.querySelectorAll('main a[href^="#"]')) {
    const anchor = (link.getAttribute('href') ?? '').slice(1);
    if (!document.getElementById(anchor)) link.setAttribute('href', `#${anchor.split('-')[0]}`);
  }
}

/** On a page that is printed by itself: links to the folder that it was built in lead to the book's address, or nowhere. */
export function leadOut({ root, online }: { readonly root: string; readonly online: string }): void {
  for (const link of document.querySelectorAll<HTMLAnchorElement>('a[href]')) {
    if (!link.href.startsWith(root) || (link.getAttribute('href') ?? '').startsWith('#')) continue;
    if (online === '') link.removeAttribute('href');
    else link.href = online + link.href.slice(root.length);
  }
}

/** Writes the numbers of pages into the contents. */
export function numberPages(numbers: Readonly<Record<string, number>>): void {
  for (const place of document.querySelectorAll<HTMLElement>('[data-page-of]'))
    place.textContent = String(numbers[place.dataset['pageOf'] ?? ''] ?? '');
}
