/**
 * Any two aircraft: compared here, by the logic that the book was built with, out of a second script that is brought in when two
 * are chosen. The choice stands behind "#" in the address, so that it can be passed on and works in a folder without a server
 * too; what follows the two in the address is a part of the comparison.
 */
import { COMPARE, type ComparedFleet, compareAircraft } from '../book/index.ts';
import { comparisonHtml } from '../components/difference-html.ts';
import { listOn } from './parts/aircraft-list.ts';
import { freshChoice } from './parts/choice.ts';
import { canCompare, loadComparison } from './parts/comparison-data.ts';
import { hashText } from './parts/hash.ts';
import { markAll } from './parts/mark-all.ts';
import { sayWritten } from './parts/out-of-order.ts';
import { dayOf } from './parts/times.ts';

interface Parts {
  readonly selects: readonly [HTMLSelectElement, HTMLSelectElement];
  readonly found: HTMLElement;
  readonly result: HTMLElement;
}

/** The one or the two in the address, as they are written there: pages of aircraft lead here with one that is an anchor. */
function named(): string[] {
  const address = hashText();
  const chosen = document.getElementById(address);
  return chosen instanceof HTMLOptionElement ? [chosen.value] : address.split('/').slice(0, 2);
}

/** Says of which day the lists are, and puts the aircraft of that day in them. */
function dateLists(day: string, panel: HTMLElement, selects: readonly HTMLSelectElement[]): void {
  const asOf = panel.querySelector<HTMLTimeElement>('.hint time');
  if (!asOf || day <= asOf.dateTime) return;
  asOf.textContent = day;
  asOf.dateTime = day;
  listOn(day, panel, selects);
}

function start({ selects, found, result }: Parts): void {
  const title = document.title;
  const day = dayOf(new Date());
  const aircraft = [...selects[0].options].filter(({ value }) => value !== '');
  /** By serial, or by a registration as somebody may type it. */
  const serialOf = (name: string): string | undefined =>
    aircraft.find(({ value, text }) => value === name || text.toLowerCase() === name.toLowerCase())?.value;
  let fleet: Promise<ComparedFleet> | undefined;
  let shown = '';

  const clear = (words: string): void => {
    shown = '';
    result.replaceChildren();
    found.textContent = words;
    document.title = title;
  };
  const compare = async (serials: readonly [string, string]): Promise<void> => {
    shown = serials.join('/');
    const mine = shown;
    found.textContent = 'Comparing …';
    fleet ??= loadComparison();
    const view = await fleet.then((loaded) => compareAircraft(loaded, serials, day)).catch(() => undefined);
    // Others may have been chosen since.
    if (shown !== mine) return;
    if (!view) {
      fleet = undefined;
      clear('The data for comparing can’t be read here. The pages below tell of differences without them.');
      return;
    }
    result.innerHTML = comparisonHtml(view, COMPARE);
    markAll(result);
    result.dataset['on'] = serials.join(' ');
    sayWritten();
    found.textContent = `As on ${day}, the day of reading.`;
    document.title = `${view.names.join(' and ')} · ${title}`;
    document.getElementById(hashText())?.scrollIntoView();
  };
  /** What the address says: it is changed by the lists, by links and by going back. */
  const follow = (): void => {
    const names = named();
    const unknown = names.filter((name) => name !== '' && serialOf(name) === undefined);
    const [here = '', there = ''] = names.map((name) => serialOf(name) ?? '');
    selects[0].value = here;
    selects[1].value = there;
    if (unknown.length > 0)
      clear(`This book has no aircraft “${unknown.join('” and no aircraft “')}”. Choose another one.`);
    else if (here === '' || there === '') clear('');
    else if (here === there) clear('That is the same aircraft twice. Choose another one.');
    else if (shown !== `${here}/${there}`) void compare([here, there]);
  };

  for (const select of selects) {
    select.addEventListener('change', () => {
      location.hash = selects.map(({ value }) => value).join('/');
    });
  }
  addEventListener('hashchange', follow);
  const mine = freshChoice(new Date());
  if (location.hash === '' && mine && serialOf(mine.serial) !== undefined) {
    location.replace(`#${[mine.serial, ...(mine.other === undefined ? [] : [mine.other])].join('/')}`);
  }
  follow();
}

document.addEventListener('DOMContentLoaded', () => {
  const panel = document.querySelector<HTMLElement>('.compare');
  const [here, there] = document.querySelectorAll<HTMLSelectElement>('.compare select');
  const found = document.querySelector<HTMLElement>('.compare .found');
  const result = document.querySelector<HTMLElement>('.compare .result');
  const excuse = document.querySelector<HTMLElement>('.needs-script');
  if (!panel || !here || !there || !found || !result || !excuse) return;
  if (!canCompare()) {
    excuse.textContent = 'Any other two are compared on this page by a script, for which this browser is too old.';
    return;
  }
  panel.hidden = false;
  excuse.hidden = true;
  dateLists(dayOf(new Date()), panel, [here, there]);
  start({ selects: [here, there], found, result });
});
