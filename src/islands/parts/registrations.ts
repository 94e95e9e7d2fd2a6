/** What aircraft are called on the day of reading, in lists to choose from: crews know them by no other name. */
import { made } from './elements.ts';
import { dayOf } from './times.ts';

/** Of a list, what names an aircraft that has another registration later: the days from which, and the names. */
const LATER = '[data-later]';

/** Puts today's registration in place of the book's, which stands behind it. May be done again. */
export function nameByDay(root: ParentNode, now = new Date()): void {
  for (const element of root.querySelectorAll<HTMLElement>(LATER)) {
    const later = JSON.parse(element.dataset['later'] ?? '[]') as [from: string, registration: string][];
    const today = later.findLast(([from]) => from <= dayOf(now))?.[1];
    if (today === undefined || element.dataset['name'] !== undefined) continue;
    const inBook = element.textContent ?? '';
    element.dataset['name'] = today;
    element.dataset['inBook'] = inBook;
    if (element instanceof HTMLOptionElement) element.textContent = `${today} (was ${inBook})`;
    else element.replaceChildren(today, ' ', made('small', '', `was ${inBook}`));
  }
}

/** What a list calls an aircraft, without what stands behind it. */
export function nameIn(element: HTMLElement): string {
  return element.dataset['name'] ?? element.textContent ?? '';
}
