/** The blocks of a page that hold for some aircraft: one's own first, the others folded. */
import { made } from './elements.ts';
import { hashText } from './hash.ts';

/** Whether a block that holds for `fits` holds for an aircraft on a day. See src/components/fits-attribute.ts. */
export function holdsFor(fits: string, serial: string, day: string): boolean {
  return stayOf(fits, serial, day) !== undefined;
}

/** The day since which a block holds for an aircraft, empty where it is from the start; undefined where it does not hold. */
export function stayOf(fits: string, serial: string, day: string): string | undefined {
  for (const each of fits.split(' ')) {
    const [who, from = '', until = ''] = each.split('/');
    if (who === serial && (from === '' || from <= day) && (until === '' || day <= until)) return from;
  }
  return undefined;
}

const BLOCK = '[data-fits]';

/**
 * Brings what holds for the aircraft on that day to the front of its neighbours and folds the others away. Where none of them
 * holds, all stay as they are. What holds for another aircraft `beside` it and not for it stands after it, with a line that says
 * so, or that it is the same there. Gives the latest day since which one of them holds, empty where all do from the start.
 */
export function arrange(
  root: ParentNode,
  serial: string,
  day: string,
  beside?: { readonly serial: string; readonly name: string },
): string {
  let since = '';
  const parents = new Set([...root.querySelectorAll(BLOCK)].map((block) => block.parentElement as HTMLElement));
  for (const parent of parents) {
    const blocks = [...parent.children].filter((child): child is HTMLElement => child.matches(BLOCK));
    const own = blocks.filter((block) => holdsFor(block.dataset['fits'] ?? '', serial, day));
    const others = blocks.filter((block) => !own.includes(block));
    const [first] = blocks;
    if (own.length === 0 || others.length === 0 || !first) continue;
    for (const block of own) {
      block.classList.add('mine');
      const from = stayOf(block.dataset['fits'] ?? '', serial, day) ?? '';
      if (from > since) since = from;
    }
    first.before(...own);
    const theirs = beside ? others.filter((block) => holdsFor(block.dataset['fits'] ?? '', beside.serial, day)) : [];
    const rest = others.filter((block) => !theirs.includes(block));
    const put: HTMLElement[] = [];
    if (
      beside &&
      (theirs.length > 0 || own.some((block) => holdsFor(block.dataset['fits'] ?? '', beside.serial, day)))
    ) {
      const words = theirs.length > 0 ? `Otherwise on ${beside.name}:` : `The same on ${beside.name}.`;
      put.push(made('p', 'beside', words), ...theirs);
    }
    own.at(-1)?.after(...put);
    if (rest.length === 0) continue;
    const names = rest.map((block, at) => (at === 0 ? whose(block) : whose(block).replace(/^On /, '')));
    const fold = made('details', 'others', made('summary', '', names.join('; ')));
    [...own, ...put].at(-1)?.after(fold);
    fold.append(...rest);
  }
  openTarget();
  return since;
}

/** "On QQ-OAA to QQ-OAD, 4 aircraft". */
function whose(block: HTMLElement): string {
  const line = block.querySelector('.holds');
  const words = (line?.querySelector('summary') ?? line)?.textContent?.trim() ?? 'On other aircraft';
  return words.replace(/^Holds for /, 'On ');
}

/** Undoes it, in the order that the page was built in. */
export function restore(root: ParentNode, order: ReadonlyMap<Element, number>): void {
  for (const parent of new Set([...root.querySelectorAll('details.others, .beside')].map((put) => put.parentElement))) {
    const folds = [...(parent?.children ?? [])].filter((child) => child.matches('details.others'));
    const blocks = [parent, ...folds].flatMap((each) =>
      [...(each?.children ?? [])].filter((child) => child.matches(BLOCK)),
    );
    const place = parent?.querySelector(`:scope > ${BLOCK}`);
    place?.before(...blocks.toSorted((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0)));
    for (const fold of folds) fold.remove();
    parent?.querySelector(':scope > .beside')?.remove();
  }
  for (const block of root.querySelectorAll('.mine')) block.classList.remove('mine');
}

/** A link into a folded block opens it. */
export function openTarget(): void {
  const target = location.hash === '' ? null : document.getElementById(hashText());
  for (let fold = target?.closest('details') ?? null; fold; fold = fold.parentElement?.closest('details') ?? null)
    fold.open = true;
  if (target) target.scrollIntoView();
}
