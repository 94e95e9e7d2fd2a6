/**
 * The search of the book, on every page: opened by its button or by "/", used with the keyboard or a thumb. A classic script
 * without requests of its own: the entries come as a second script when the search is first opened, so that a folder opened
 * without a server has the same search.
 */
import MiniSearch from 'minisearch';
import type { SearchEntry } from '../book/index.ts';
import { bring, ROOT } from './parts/book-files.ts';
import { made } from './parts/elements.ts';

declare global {
  /** Set by search-data.js. */
  var switchleafSearch: readonly SearchEntry[] | undefined;
}

const RESULTS = 12;

/** What crews see and touch stands before what it is made of. */
const WEIGHTS: Readonly<Record<string, number>> = {
  sequence: 0.6,
  latch: 0.4,
  condition: 0.6,
  option: 0.6,
  glossary: 0.7,
  page: 0.8,
};

type Finder = (words: string) => SearchEntry[];

/** Legends and titles count most, and a beginning of a word more than a mistyped one. */
function finderOf(entries: readonly SearchEntry[]): Finder {
  const index = new MiniSearch({
    fields: ['title', 'legends', 'words', 'kind', 'place'],
    idField: 'at',
    searchOptions: {
      boost: { title: 4, legends: 4, words: 1.5 },
      prefix: (term) => term.length > 1,
      fuzzy: (term) => (term.length > 3 ? 0.25 : false),
      weights: { prefix: 0.7, fuzzy: 0.3 },
      combineWith: 'AND',
      boostDocument: (at) => WEIGHTS[entries[at as number]?.kind ?? ''] ?? 1,
    },
  });
  const joined = (words: readonly string[] | undefined): string => (words ?? []).join(' ');
  index.addAll(
    entries.map((entry, at) => ({ ...entry, at, legends: joined(entry.legends), words: joined(entry.words) })),
  );
  return (words) => {
    const all = index.search(words);
    const found = (all.length > 0 ? all : index.search(words, { combineWith: 'OR' })).flatMap(
      ({ id }) => entries[id as number] ?? [],
    );
    const isCalledSo = ({ title, legends = [] }: SearchEntry): boolean =>
      [title, ...legends].some((name) => name.toLowerCase() === words.toLowerCase());
    return [...found.filter(isCalledSo), ...found.filter((entry) => !isCalledSo(entry))].slice(0, RESULTS);
  };
}

async function load(): Promise<Finder> {
  await bring('search-data.js');
  return finderOf(globalThis.switchleafSearch ?? []);
}

/** One result, as a link in an option of the list. */
function resultOf(entry: SearchEntry, at: number): HTMLElement {
  const option = made('li', 'search-result');
  option.id = `search-result-${at}`;
  option.setAttribute('role', 'option');
  option.dataset['to'] = entry.anchor === undefined ? entry.to : `${entry.to}#${entry.anchor}`;
  const title = made('span', 'search-title', entry.title);
  const legends = entry.kind === 'control' ? [] : (entry.legends ?? []);
  const kind = [entry.kind, entry.place].filter((part) => part !== undefined && part !== '').join(' · ');
  option.append(title, ...legends.map((legend) => made('span', 'legend', legend)), made('span', 'search-kind', kind));
  if (entry.fits !== undefined) option.append(made('span', 'search-fits', `On ${entry.fits}`));
  return option;
}

function start(dialog: HTMLDialogElement, button: HTMLButtonElement): void {
  const input = dialog.querySelector('input') as HTMLInputElement;
  const list = dialog.querySelector('ul') as HTMLUListElement;
  const status = dialog.querySelector('[role="status"]') as HTMLElement;
  let finder: Promise<Finder> | undefined;
  let chosen = 0;

  const options = (): HTMLElement[] => [...list.children] as HTMLElement[];
  const mark = (at: number): void => {
    chosen = at;
    for (const [index, option] of options().entries()) option.setAttribute('aria-selected', String(index === at));
    const current = options()[at];
    if (current) input.setAttribute('aria-activedescendant', current.id);
    else input.removeAttribute('aria-activedescendant');
    current?.scrollIntoView({ block: 'nearest' });
  };
  const go = (option: HTMLElement | undefined): void => {
    if (option?.dataset['to'] === undefined) return;
    dialog.close();
    location.href = new URL(option.dataset['to'], ROOT).href;
  };
  const show = async (): Promise<void> => {
    const words = input.value.trim();
    finder ??= load();
    const found =
      words === ''
        ? []
        : await finder.then(
            (find) => find(words),
            () => undefined,
          );
    // What has been typed since is searched for by its own call.
    if (input.value.trim() !== words) return;
    list.replaceChildren(...(found ?? []).map(resultOf));
    input.setAttribute('aria-expanded', String((found ?? []).length > 0));
    list.dataset['words'] = words;
    mark(0);
    status.textContent = sayFound(words, found?.length);
  };
  const open = (): void => {
    if (!dialog.open) dialog.showModal();
    input.select();
    void show();
  };

  button.hidden = false;
  button.addEventListener('click', open);
  input.addEventListener('input', () => void show());
  list.addEventListener('click', (event) =>
    go((event.target as Element).closest<HTMLElement>('[role="option"]') ?? undefined),
  );
  dialog.addEventListener('click', (event) => {
    if (event.target === dialog) dialog.close();
  });
  dialog.addEventListener('keydown', (event) => {
    const count = options().length;
    if (event.key === 'ArrowDown' && count > 0) mark((chosen + 1) % count);
    else if (event.key === 'ArrowUp' && count > 0) mark((chosen + count - 1) % count);
    else if (event.key === 'Enter' && event.target === input) go(options()[chosen]);
    else return;
    event.preventDefault();
  });
  document.addEventListener('keydown', (event) => {
    const typing = (event.target as Element).closest('input, textarea, select, [contenteditable]');
    if (event.key !== '/' || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    open();
  });
}

function sayFound(words: string, count: number | undefined): string {
  if (count === undefined) return 'The search of this copy is not there. The index lists everything.';
  if (words === '') return '';
  if (count === 0) return `Nothing in this book is called “${words}”.`;
  return count === 1 ? 'One result' : `${count}${count === RESULTS ? ' best' : ''} results`;
}

document.addEventListener('DOMContentLoaded', () => {
  const dialog = document.querySelector<HTMLDialogElement>('dialog.search');
  const button = document.querySelector<HTMLButtonElement>('button.find');
  if (dialog && button) start(dialog, button);
});
