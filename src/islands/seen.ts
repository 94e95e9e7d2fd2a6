/**
 * "From what I see": a reader says what is before them, one thing after another; which aircraft can show all of it, and what
 * each can mean there. What was said stands in the address, so that it can be passed on and taken back.
 */
import { type OccasionView, type SeenData, type SeenThing, SeenTogether, type TogetherView } from '../book/index.ts';
import { arrange } from './parts/blocks.ts';
import { bring } from './parts/book-files.ts';
import { onAircraft } from './parts/choice.ts';
import { button, linkTo, made, words } from './parts/elements.ts';
import { loadExplorer } from './parts/explorer-data.ts';
import { decoded } from './parts/hash.ts';
import { type Left, meaningOf, narrow, type Period, readSeen, type Seeing, seenOn, written } from './parts/narrow.ts';
import { dayOf } from './parts/times.ts';

declare global {
  /** Set by seen-data.js. */
  var switchleafSeen: SeenData | undefined;
}

const HASH = '#seen=';
let mine: string | undefined;
/** Shows the answer once more, where it stands. */
let showAgain: (() => void) | undefined;

onAircraft((serial) => {
  mine = serial;
  showAgain?.();
});

async function load(): Promise<SeenData | undefined> {
  await bring('seen-data.js');
  return globalThis.switchleafSeen;
}

/** What several things mean that are seen at once; undefined in a copy or a browser that has it not. */
async function loadTogether(): Promise<SeenTogether | undefined> {
  try {
    return new SeenTogether((await loadExplorer()).explorer.fleet);
  } catch {
    return undefined;
  }
}

const said = (): Seeing[] =>
  location.hash.startsWith(HASH) ? readSeen(decoded(location.hash.slice(HASH.length))) : [];
/** A step of its own in the browser's history: back takes it back. */
const say = (seen: readonly Seeing[]): void => {
  location.hash = seen.length === 0 ? 'what-i-see' : `${HASH}${written(seen)}`;
};

/** "QQ-OAA to QQ-OAD, QQ-OAF", in the order of the fleet. */
function listed(periods: readonly Period[], all: readonly Period[]): string {
  const runs: Period[][] = [];
  for (const period of periods) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run && before && all.indexOf(period) === all.indexOf(before) + 1) run.push(period);
    else runs.push([period]);
  }
  return runs
    .flatMap((run) => {
      const [first, ...rest] = run.map(({ registration }) => registration);
      return rest.length < 2 ? [first, ...rest] : [`${first} to ${rest.at(-1)}`];
    })
    .join(', ');
}

function namesOf(periods: readonly Period[]): Node[] {
  return periods.map(({ serial, registration }) =>
    made('li', '', linkTo({ to: `aircraft/${serial}.html`, title: registration })),
  );
}

/** What of it can be seen is told once for aircraft that are alike in it, my aircraft's first. */
function thingOf(
  thing: SeenThing,
  data: SeenData,
  { periods }: Left,
  all: readonly Period[],
  choice: string,
): HTMLElement {
  const block = made('div', 'thing');
  const title = made('p', 'name', linkTo(thing.what));
  if (thing.what.detail !== undefined) title.append(made('span', 'detail', ` ${thing.what.detail}`));
  block.append(title);
  const groups = thing.groups
    .map(({ fits, occasions }) => ({
      occasions,
      on: periods.filter(({ fit }) => (data.sets[fits] ?? []).includes(fit)),
    }))
    .filter(({ on }) => on.length > 0);
  const told = made('div', 'told-by-aircraft');
  for (const { occasions, on } of groups) {
    const group = made('div', 'occasions');
    group.dataset['fits'] = on.map(({ serial }) => serial).join(' ');
    if (on.length < periods.length || groups.length > 1) {
      group.append(made('p', 'holds', `On ${listed(on, all)}`));
    }
    for (const occasion of occasions) group.append(...occasionOf(occasion, choice));
    if (occasions.length === 0) group.append(made('p', '', 'In no case that the rules tell of.'));
    told.append(group);
  }
  block.append(told, ...thing.notes.map((note) => made('p', 'because', ...words(note))));
  return block;
}

function occasionOf({ state, alternatives, of, more }: OccasionView, choice: string): Node[] {
  const several = alternatives.length > 1 ? ', any of these' : '';
  const lead =
    of === 'rules'
      ? `By its rules, when${alternatives.length > 1 ? ' any of these holds' : ''}`
      : of === 'normal cases'
        ? `In normal cases${several}`
        : several === ''
          ? ''
          : 'Any of these';
  const head = [state.text === choice ? '' : `${state.text}`, lead].filter((part) => part !== '').join(': ');
  const only = alternatives.length === 1 ? alternatives[0] : undefined;
  return [
    ...(only
      ? [made('p', '', head === '' ? '' : `${head} `, ...words(only))]
      : [
          made('p', 'because', `${head}:`),
          made('ul', '', ...alternatives.map((each) => made('li', '', ...words(each)))),
        ]),
    ...(more ? [made('p', 'because', 'Other cases lead there too: see its tables.')] : []),
  ];
}

interface Sight {
  readonly id: string;
  readonly element: HTMLElement;
  readonly title: string;
  readonly buttons: ReadonlyMap<string, HTMLButtonElement>;
}

/** The words of each choice become a button. */
function sightOf(element: HTMLElement, pick: (seeing: Seeing) => void): Sight {
  const id = element.dataset['sight'] ?? '';
  const title = element.querySelector('.name a')?.textContent ?? '';
  const buttons = new Map<string, HTMLButtonElement>();
  for (const span of element.querySelectorAll<HTMLElement>('[data-choice]')) {
    const choice = span.dataset['choice'] ?? '';
    const made = button(span.textContent ?? '', () => pick({ sight: id, choice }));
    made.setAttribute('aria-label', `${title}: ${span.textContent}`);
    made.setAttribute('aria-pressed', 'false');
    span.replaceWith(made);
    buttons.set(choice, made);
  }
  return { id, element, title, buttons };
}

/** In which cases all of it is seen, told once for aircraft on which it is the same. */
function allOfIt(
  seen: readonly Seeing[],
  data: SeenData,
  together: SeenTogether,
  { periods }: Left,
  all: readonly Period[],
): HTMLElement | undefined {
  const on = seenOn(data, seen);
  if (on.length < 2) return undefined;
  const byForm = Map.groupBy(periods, ({ fit }) => together.form(fit, on));
  const section = made('div', 'meaning', made('h3', '', 'All of it at once'));
  const told = made('div', 'told-by-aircraft');
  for (const [form, some] of byForm) {
    const group = made('div', 'occasions');
    group.dataset['fits'] = some.map(({ serial }) => serial).join(' ');
    if (some.length < periods.length || byForm.size > 1) group.append(made('p', 'holds', `On ${listed(some, all)}`));
    const views = together.views(form, [...new Set(some.map(({ fit }) => fit))]);
    group.append(...views.flatMap((view) => casesOf(view, views.length > 1)));
    told.append(group);
  }
  section.append(told);
  return section;
}

function casesOf({ part, alternatives, more }: TogetherView, isOneOfTwo: boolean): Node[] {
  const [only, ...others] = alternatives;
  const lead = part === 'normal' ? 'In normal cases' : isOneOfTwo ? 'In abnormal cases' : 'Only in abnormal cases';
  return [
    ...(only && others.length === 0
      ? [made('p', '', `${lead}: `, ...words(only))]
      : [
          made('p', 'because', `${lead}, any of these:`),
          made('ul', '', ...alternatives.map((each) => made('li', '', ...words(each)))),
        ]),
    ...(more ? [made('p', 'because', 'More of them lead there too.')] : []),
  ];
}

function answer(
  seen: readonly Seeing[],
  data: SeenData,
  sights: ReadonlyMap<string, Sight>,
  together: SeenTogether | undefined,
): Node[] {
  const day = dayOf(new Date());
  const left = narrow(data, seen, day, together);
  const titleOf = ({ sight, choice }: Seeing): string =>
    `${sights.get(sight)?.title ?? sight}: ${sights.get(sight)?.buttons.get(choice)?.textContent ?? choice}`;
  const list = made('ul', 'said');
  for (const seeing of seen) {
    const take = button('Take away', () => say(seen.filter((each) => each !== seeing)));
    take.setAttribute('aria-label', `Take away: ${titleOf(seeing)}`);
    list.append(made('li', '', made('span', '', titleOf(seeing)), take));
  }
  const all = narrow(data, [], day).periods;
  const own = mine === undefined ? undefined : all.find(({ serial }) => serial === mine);
  const fits = left.periods;
  const count =
    fits.length === 0
      ? `No aircraft of this book can show all of this${together ? ' at once' : ''}. Look again, or take one away.`
      : fits.length === all.length
        ? `Every aircraft can show this, as the fleet is on ${day}.`
        : `${fits.length} of ${all.length} can show this, as the fleet is on ${day}:`;
  const nodes: Node[] = [list, made('p', 'count', count)];
  if (fits.length > 0 && fits.length < all.length) nodes.push(made('ul', 'aircraft', ...namesOf(fits)));
  if (own && fits.length > 0 && !fits.includes(own))
    nodes.push(made('p', 'not-mine', `${own.registration} is not one of them.`));
  const atOnce = together && fits.length > 0 ? allOfIt(seen, data, together, left, all) : undefined;
  if (atOnce) nodes.push(atOnce);
  if (fits.length > 0) {
    for (const seeing of seen) {
      const section = made('div', 'meaning', made('h3', '', seen.length === 1 ? 'What it can mean' : titleOf(seeing)));
      const choice = sights.get(seeing.sight)?.buttons.get(seeing.choice)?.textContent?.split(', ')[0] ?? '';
      const things = (meaningOf(data, seeing)?.things ?? []).filter(({ set }) =>
        (data.sets[set] ?? []).some((fit) => left.settled.has(fit)),
      );
      section.append(...things.map((thing) => thingOf(thing, data, left, all, choice)));
      nodes.push(section);
    }
  }
  const ends = made(
    'p',
    'ends',
    button('Something else that I see', () => find()),
    button('Start again', () => say([])),
  );
  return [...nodes, ends];
}

/** On to the lists, where the next thing is looked for. */
function find(): void {
  document.querySelector<HTMLInputElement>('.narrow-list input')?.focus();
}

function start(result: HTMLElement, body: HTMLElement, filter: HTMLElement): void {
  const pick = ({ sight, choice }: Seeing): void => {
    const seen = said();
    const again = seen.some((each) => each.sight === sight && each.choice === choice);
    const others = seen.filter((each) => each.sight !== sight);
    say(again ? others : [...others, { sight, choice }]);
  };
  const elements = [...document.querySelectorAll<HTMLElement>('[data-sight]')];
  const sights = new Map(elements.map((element) => [element.dataset['sight'] ?? '', sightOf(element, pick)]));

  let loading: Promise<SeenData | undefined> | undefined;
  let loadingTogether: Promise<SeenTogether | undefined> | undefined;
  const shownOf = (): Seeing[] => said().filter(({ sight, choice }) => sights.get(sight)?.buttons.has(choice));
  const show = async (isNew: boolean): Promise<void> => {
    const seen = shownOf();
    if (seen.length > 0) loading ??= load().catch(() => undefined);
    const data = seen.length === 0 ? undefined : await loading;
    if (seen.length > 1) loadingTogether ??= loadTogether();
    const together = seen.length > 1 ? await loadingTogether : undefined;
    // Something else may have been said since.
    if (written(seen) !== written(shownOf())) return;
    for (const { id, buttons } of sights.values()) {
      for (const [choice, each] of buttons) {
        const isSaid = seen.some((one) => one.sight === id && one.choice === choice);
        each.setAttribute('aria-pressed', String(isSaid));
        // What no aircraft can show together with the rest would lead nowhere.
        const others = seen.filter(({ sight }) => sight !== id);
        const none =
          data !== undefined && narrow(data, [...others, { sight: id, choice }], dayOf(new Date()), together);
        each.disabled = none !== false && none.periods.length === 0 && !isSaid;
      }
    }
    result.hidden = seen.length === 0;
    if (seen.length === 0) return;
    body.replaceChildren(
      ...(data ? answer(seen, data, sights, together) : [made('p', '', 'The data of this page are not in this copy.')]),
    );
    if (mine !== undefined) arrange(body, mine, dayOf(new Date()));
    result.dataset['said'] = written(seen);
    if (!isNew) return;
    result.scrollIntoView();
    (result.querySelector('h2') as HTMLElement).focus({ preventScroll: true });
  };

  filter.hidden = false;
  const input = filter.querySelector('input') as HTMLInputElement;
  input.addEventListener('input', () => {
    const wanted = input.value.trim().toLowerCase();
    for (const element of elements)
      element.hidden = !(element.querySelector('.name')?.textContent ?? '').toLowerCase().includes(wanted);
    for (const group of document.querySelectorAll<HTMLElement>('.sight-group, .sights'))
      group.hidden = !group.querySelector('.sight:not([hidden])');
  });
  addEventListener('hashchange', () => void show(true));
  showAgain = () => void show(false);
  void show(true);
}

document.addEventListener('DOMContentLoaded', () => {
  const result = document.querySelector<HTMLElement>('.what-i-see');
  const body = result?.querySelector<HTMLElement>('.answer');
  const filter = document.querySelector<HTMLElement>('.narrow-list');
  if (result && body && filter) start(result, body, filter);
});
