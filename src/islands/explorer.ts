/**
 * The explorer: one aircraft whose controls and conditions a reader moves one after another. The aircraft and the steps stand
 * behind "#" in the address, so that a case can be passed on and every step taken back.
 */
import { type ExploredFleet, followedCase } from '../book/index.ts';
import { caseHtml } from '../components/case-html.ts';
import { listOn } from './parts/aircraft-list.ts';
import { freshChoice } from './parts/choice.ts';
import { canCompare } from './parts/comparison-data.ts';
import { loadExplorer } from './parts/explorer-data.ts';
import { decoded, hashText } from './parts/hash.ts';
import { arrangeInputs, foldPanels, openTo } from './parts/inputs.ts';
import { sayWritten } from './parts/out-of-order.ts';
import { dayOf } from './parts/times.ts';

interface Parts {
  readonly select: HTMLSelectElement;
  readonly found: HTMLElement;
  readonly heard: HTMLElement;
  readonly ends: HTMLElement;
  readonly result: HTMLElement;
  readonly rest: HTMLElement;
  readonly movable: HTMLElement;
}

/** The serial and the steps in the address; no serial where it is that of a part of the page. */
function addressed(): readonly [serial: string, ...steps: string[]] {
  const hash = location.hash.slice(1);
  const part = hash === '' ? null : document.getElementById(decoded(hash));
  // Pages of aircraft lead here with one that is chosen.
  if (part instanceof HTMLOptionElement) return [part.value];
  if (hash === '' || part) return [''];
  const [serial = '', ...steps] = hash.split('/').map(decoded);
  return [serial, ...steps.filter((step) => step !== '')];
}

/** Only what would end a part of the address is written otherwise. */
function written(serial: string, steps: readonly string[]): string {
  return [serial, ...steps].map((part) => encodeURIComponent(part).replace(/%(3D|26)/g, decodeURIComponent)).join('/');
}

function start({ select, found, heard, ends, result, rest, movable }: Parts): void {
  const now = result.querySelector('.now') as HTMLElement;
  const title = document.title;
  const day = dayOf(new Date());
  let fleet: Promise<ExploredFleet> | undefined;
  let serial = '';
  let steps: readonly string[] = [];
  let shown = '';
  let isFolded = false;
  /** Where the reader came for, until an aircraft is chosen. */
  let sought: HTMLElement | undefined;

  const go = (next: readonly string[]): void => {
    location.hash = written(serial, next);
  };
  const take = (step: string): void => go([...steps, step]);
  const clear = (words: string): void => {
    shown = '';
    steps = [];
    found.textContent = words;
    heard.textContent = '';
    result.hidden = true;
    rest.hidden = true;
    ends.hidden = true;
    document.title = title;
    arrangeInputs(movable, undefined, take);
  };
  const show = async (): Promise<void> => {
    const mine = written(serial, steps);
    shown = mine;
    if (!fleet) found.textContent = 'Bringing the data …';
    fleet ??= loadExplorer();
    const loaded = await fleet.catch(() => undefined);
    // Another case may have been asked for since.
    if (shown !== mine) return;
    if (!loaded) {
      fleet = undefined;
      clear('The data of this page can’t be read here. The pages of the controls tell the same.');
      return;
    }
    const followed = followedCase(loaded, serial, day, steps);
    if (!followed) {
      clear('The data of this page have no such aircraft. Choose another one.');
      return;
    }
    const { view } = followed;
    const lost = steps.slice(followed.followed);
    steps = steps.slice(0, followed.followed);
    found.textContent =
      lost.length === 0
        ? `${view.registration} as on ${day}, the day of reading. ${view.notes.join(' ')}`.trim()
        : `This address cannot be followed to its end: from “${lost[0]}” on it names what this book does not have, or what cannot happen. What comes before is shown.`;
    const focused = document.activeElement;
    const wasOpen = rest.querySelector('details')?.open === true;
    const html = caseHtml(view);
    now.innerHTML = html.now;
    rest.innerHTML = html.rest;
    result.hidden = false;
    rest.hidden = false;
    ends.hidden = steps.length === 0;
    const everything = rest.querySelector('details');
    if (everything) everything.open = wasOpen;
    arrangeInputs(movable, view.inputs, take);
    if (!isFolded) foldPanels(movable, view.inputs);
    isFolded = true;
    if (sought) openTo(sought);
    sought = undefined;
    if (focused && focused !== document.body && !focused.isConnected) result.querySelector('h2')?.focus();
    else if (ends.hidden && ends.contains(focused)) select.focus();
    heard.textContent = view.last === undefined ? '' : `${view.last}. ${view.brief}`.replace('..', '.');
    sayWritten();
    document.title = `${view.registration} · ${title}`;
  };
  const follow = (): void => {
    const [name, ...rest] = addressed();
    if (name === '') {
      if (location.hash === '') {
        select.value = '';
        serial = '';
        clear('');
      }
      return;
    }
    const options = [...select.options].filter(({ value }) => value !== '');
    const known = options.find(({ value, text }) => value === name || text.toLowerCase() === name.toLowerCase());
    if (!known) {
      select.value = '';
      clear(`This book has no aircraft “${name}”. Choose another one.`);
      heard.textContent = found.textContent;
      return;
    }
    serial = known.value;
    select.value = serial;
    steps = rest;
    void show();
  };

  select.addEventListener('change', () => {
    serial = select.value;
    if (serial === '') location.hash = 'main';
    else go([]);
  });
  ends.querySelector('.undo')?.addEventListener('click', () => go(steps.slice(0, -1)));
  ends.querySelector('.again')?.addEventListener('click', () => go([]));
  const wide = matchMedia('(width >= 48rem)');
  // Beside what is moved there is room for all of it; else it comes after.
  const put = (): void => (wide.matches ? result.append(rest) : movable.after(rest));
  wide.addEventListener('change', put);
  put();
  now.addEventListener('click', (event) => {
    const step = (event.target as HTMLElement).closest<HTMLElement>('button[data-step]')?.dataset['step'];
    if (step !== undefined) take(step);
  });
  addEventListener('hashchange', follow);
  follow();
  if (serial !== '' || found.textContent !== '') return;
  const mine = freshChoice(new Date());
  const place = document.getElementById(hashText());
  if (mine && [...select.options].some(({ value }) => value === mine.serial)) {
    serial = mine.serial;
    select.value = serial;
    // The address may be that of a control, which stays in view.
    void show();
  } else if (place && movable.contains(place)) {
    sought = place;
    found.textContent = `Choose an aircraft, to move this: ${place.querySelector('a')?.textContent}.`;
    // Not before the browser has gone to the place itself.
    addEventListener('load', () =>
      requestAnimationFrame(() => {
        select.focus();
        select.scrollIntoView({ block: 'center' });
      }),
    );
  }
}

document.addEventListener('DOMContentLoaded', () => {
  const panel = document.querySelector<HTMLElement>('.explorer');
  const select = panel?.querySelector<HTMLSelectElement>('select');
  const found = panel?.querySelector<HTMLElement>('.found');
  const heard = panel?.querySelector<HTMLElement>('.heard');
  const ends = panel?.querySelector<HTMLElement>('.ends');
  const result = document.querySelector<HTMLElement>('.case');
  const rest = document.querySelector<HTMLElement>('.rest');
  const movable = document.querySelector<HTMLElement>('.movable');
  const excuse = document.querySelector<HTMLElement>('.needs-script');
  if (!panel || !select || !found || !heard || !ends || !result || !rest || !movable || !excuse) return;
  if (!canCompare()) {
    excuse.textContent =
      'A script moves them, for which this browser is too old. The pages of the controls tell the same in sentences and tables.';
    return;
  }
  panel.hidden = false;
  excuse.hidden = true;
  listOn(dayOf(new Date()), panel, [select]);
  start({ select, found, heard, ends, result, rest, movable });
});
