/** The order of a printed book: chapter by chapter, where the pages on the screen stand by kind. */
import type { Book, Effectivity, Page } from '../../book/index.ts';

export interface Chapter {
  readonly title: string;
  readonly pages: readonly Page[];
}

/** Pages that have no use on paper as a part of a book: what they gather is in the contents, or is printed by itself. */
const SCREEN_ONLY: readonly Page['kind'][] = [
  'home',
  'sheets',
  'sheet',
  'own-sheet',
  'moved',
  'compare',
  'seen',
  'explorer',
  'practice',
  'practice-set',
];

/** The chapters after those of the panels, with the kinds of page in each, in order. */
const CHAPTERS: readonly (readonly [string, readonly Page['kind'][]])[] = [
  ['Messages, sounds and legends', ['messages', 'legends', 'sound']],
  ['Procedures', ['procedures', 'procedure']],
  ['Supplies', ['supplies', 'supply']],
  ['Sequences', ['sequences', 'sequence']],
  ['Conditions and signals', ['conditions', 'condition']],
  ['Options and the fleet', ['options', 'option', 'fleet']],
  ['Aircraft', ['aircraft']],
  ['Differences', ['differences']],
  ['Tours', ['tours', 'tour']],
  ['Crew notices', ['notices', 'notice']],
  ['Changes', ['changes']],
  ['Queries', ['queries']],
  ['About and cautions', ['about']],
  ['Glossary', ['glossary']],
  // The last, and by itself: it can only name pages that are printed before it.
  ['Index', ['terms']],
];

/** All of the book, each page once. */
export function chaptersOf(book: Book): Chapter[] {
  const pages = book.pages.filter(({ kind }) => !SCREEN_ONLY.includes(kind));
  const named = new Set(CHAPTERS.flatMap(([, kinds]) => kinds));
  const panels = pages.filter(({ kind }) => kind === 'panel');
  const ofPanels = panels.map((panel) => ({
    title: panel.title,
    pages: [panel, ...pages.filter((page) => !named.has(page.kind) && page.trail.at(-1)?.to === panel.address)],
  }));
  const placed = new Set(ofPanels.flatMap((chapter) => chapter.pages));
  const rest = CHAPTERS.map(([title, kinds]) => ({
    title,
    pages: kinds.flatMap((kind) => pages.filter((page) => page.kind === kind && !placed.has(page))),
  }));
  for (const page of rest.flatMap((chapter) => chapter.pages)) placed.add(page);
  const others = { title: 'Other pages', pages: pages.filter((page) => !placed.has(page)) };
  return [...ofPanels, ...rest.slice(0, -1), others, ...rest.slice(-1)].filter(({ pages: own }) => own.length > 0);
}

/** What of the book one aircraft needs: its own page first, then what it has; nothing that is about other aircraft alone. */
export function chaptersFor(book: Book, serial: string): Chapter[] {
  const own = book.pages.find((page) => page.kind === 'aircraft' && page.serial === serial);
  const has = ({ aircraft }: Effectivity): boolean => aircraft.some(({ to }) => to === `aircraft/${serial}.html`);
  const isFor = (page: Page): boolean => {
    switch (page.kind) {
      case 'aircraft':
      case 'options':
      case 'option':
      case 'fleet':
      case 'differences':
      case 'tours':
      case 'tour':
      case 'notices':
        return false;
      case 'notice':
        return has(page.effectivity);
      case 'sequence':
        return has(page.fitted);
      case 'control':
        return page.cues.some(
          ({ text, effectivity }) => has(effectivity) && text.map((part) => part.text).join('') !== 'Not fitted',
        );
      case 'item':
      case 'supply':
        return (
          own?.kind !== 'aircraft' ||
          own.items.some(({ to, state }) => to === page.address && state?.glyph !== 'not-fitted') ||
          !own.items.some(({ to }) => to === page.address)
        );
      default:
        return true;
    }
  };
  const chapters = chaptersOf(book).flatMap(({ title, pages }) => {
    const left = pages.filter(isFor);
    return left.length > 0 ? [{ title, pages: left }] : [];
  });
  return own ? [{ title: own.title, pages: [own] }, ...chapters] : chapters;
}
