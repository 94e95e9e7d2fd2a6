/**
 * What can be printed by itself. A new kind of page that has a print style of its own needs an entry in PAGES, and nothing else.
 */
import type { Book, Page } from '../../book/index.ts';

/** Kinds of page that are printed one by one, and the word by which all of them are asked for. */
const PAGES: Readonly<Partial<Record<Page['kind'], string>>> = {
  sheet: 'sheets',
  notice: 'notices',
  'practice-set': 'practice',
  changes: 'changes',
};

export type Printable =
  /** A page as it is, after its script has composed it where it has one. */
  | { readonly what: 'page'; readonly name: string; readonly page: Page; readonly composed: boolean }
  | { readonly what: 'book'; readonly name: string }
  | { readonly what: 'aircraft'; readonly name: string; readonly serial: string };

export type Found =
  | { readonly printables: readonly Printable[] }
  | { readonly unknown: string; readonly names: string[] };

/** Whoever is asked for: by registration or serial, in capitals or not; undefined where the book has no such aircraft. */
export function aircraftNamed(
  { frame }: Book,
  name: string,
): { readonly serial: string; readonly registration: string } | undefined {
  const wanted = name.toLowerCase();
  return frame.fleet.find(
    ({ serial, registration }) => serial.toLowerCase() === wanted || registration.toLowerCase() === wanted,
  );
}

/**
 * What words such as "book", "sheets", "notices", "aircraft" or the name of one page ("sheets/exterior-card") ask for. `serial`: the
 * aircraft that "aircraft" means; all of them where it is left out.
 */
export function printablesFor(book: Book, words: readonly string[], serial: string | undefined): Found {
  const pages = book.pages.flatMap((page): { readonly group: string; readonly printable: Printable }[] => {
    const group = PAGES[page.kind];
    if (group === undefined) return [];
    const printable: Printable = {
      what: 'page',
      name: nameOf(page),
      page,
      composed: page.kind === 'sheet',
    };
    return [{ group, printable }];
  });
  const reference = (of: string): Printable => ({ what: 'aircraft', name: `aircraft/${of}`, serial: of });
  const all = book.frame.fleet.map((one) => one.serial);
  const found: Printable[] = [];
  for (const word of words) {
    const tidy = word.replace(/^\.?\//, '').replace(/\.html$/, '');
    const own = aircraftNamed(book, tidy.replace(/^aircraft\//, ''));
    // The page of changes has the name of all such pages: it is the one about the last revision.
    const named = pages.filter(({ printable }) => printable.name === tidy);
    const some = named.length > 0 ? named : pages.filter(({ group }) => group === tidy);
    if (tidy === 'book') found.push({ what: 'book', name: 'book' });
    else if (tidy === 'aircraft') found.push(...(serial === undefined ? all : [serial]).map(reference));
    else if (some.length > 0) found.push(...some.map(({ printable }) => printable));
    else if (own) found.push(reference(own.serial));
    else {
      const groups = [...new Set(pages.map(({ group }) => group))];
      return { unknown: word, names: ['book', 'aircraft', ...groups, ...pages.map(({ printable }) => printable.name)] };
    }
  }
  return { printables: found };
}

/** "sheets/exterior-card". */
function nameOf({ address }: Page): string {
  return address.replace(/\.html$/, '');
}
