/** A sheet for one aircraft: composes its pages, says what they take, and keeps the choice in the address. */

import type { Composition } from '../paper/index.ts';
import { PAPERS, type PaperName, paperSize } from '../paper/index.ts';
import { isFresh, storedChoice } from './parts/choice.ts';
import { canCompare } from './parts/comparison-data.ts';
import { made } from './parts/elements.ts';
import { marksOf, onChanged, sayWritten } from './parts/out-of-order.ts';
import { ownParts } from './parts/own-parts.ts';
import { nameByDay } from './parts/registrations.ts';
import { type SheetPart, show, signature, since } from './parts/sheet-blocks.ts';
import { keyOf, numbered } from './parts/sheet-key.ts';
import { composed, draw, type Frame, type Paper } from './parts/sheet-pages.ts';
import { bringTopics, type Pair } from './parts/sheet-topics.ts';
import { dayOf } from './parts/times.ts';

/** The keys of the address that this script reads and writes, beside `aircraft`. */
const KEYS = ['size', 'orientation', 'up', 'sheets', 'variant'] as const;

/** In letters. A code of more has modules so small, on the width that it has on paper, that a camera may miss them. */
const LONGEST = 250;
/** Codes of more modules than this on a side are drawn larger. */
const FINE = 45;

class SheetPage {
  readonly #root: HTMLElement;
  readonly #form: HTMLFormElement;
  readonly #text: HTMLElement;
  readonly #papers: HTMLElement;
  readonly #status: HTMLElement;
  readonly #day: string;
  readonly #isOwn: boolean;
  /** How often it was composed. */
  #turn = 0;

  constructor(root: HTMLElement) {
    const part = <E extends HTMLElement>(selector: string): E => {
      const found = root.querySelector<E>(selector);
      if (!found) throw new Error(`the sheet has no ${selector}`);
      return found;
    };
    this.#root = root;
    this.#form = part('form');
    this.#text = part('.sheet-text');
    this.#papers = part('.papers');
    this.#status = part('.composed');
    const query = new URLSearchParams(location.search);
    this.#day = query.get('day') ?? dayOf(new Date());
    this.#isOwn = this.#form.querySelector('.choice') !== null;
    for (const key of KEYS) {
      const value = query.get(key);
      if (value !== null) this.#set(key, value);
    }
    this.#set('for', query.get('aircraft') ?? ownAircraft() ?? root.dataset['shown'] ?? '');
    const topics = (query.get('topics') ?? '').split(',');
    for (const box of this.#boxes) box.checked = topics.includes(box.value);
    const pair = (query.get('pair') ?? '').split(',');
    this.#pairSelects.forEach((select, at) => {
      this.#set(select.name, pair[at] ?? '');
    });
    const choosePair = this.#form.querySelector<HTMLElement>('.pair');
    if (choosePair) choosePair.hidden = !canCompare();
    this.#form.hidden = false;
    this.#form.addEventListener('submit', (event) => {
      event.preventDefault();
      print();
    });
    this.#form.addEventListener('change', () => void this.compose());
    document.addEventListener('switchleaf:aircraft', (event) => {
      this.#set('for', String((event as CustomEvent).detail ?? root.dataset['shown']));
      void this.compose();
    });
    onChanged(() => void this.compose());
    addEventListener('resize', () => this.#fit());
  }

  get #boxes(): HTMLInputElement[] {
    return [...this.#form.querySelectorAll<HTMLInputElement>('input[name="topic"]')];
  }

  get #pairSelects(): HTMLSelectElement[] {
    return [...this.#form.querySelectorAll<HTMLSelectElement>('.pair select')];
  }

  /** The two aircraft that are compared on an own sheet. */
  get #pair(): Pair | undefined {
    const [here = '', there = ''] = this.#pairSelects.map(({ value }) => value);
    if (!canCompare() || here === '' || there === '' || here === there) return undefined;
    return { serials: [here, there], day: this.#day };
  }

  #get(key: string): string {
    return this.#form.querySelector<HTMLSelectElement>(`select[name="${key}"]`)?.value ?? '';
  }

  /** Leaves a choice as it is where there is no such value. */
  #set(key: string, value: string): void {
    const select = this.#form.querySelector<HTMLSelectElement>(`select[name="${key}"]`);
    if (select && [...select.options].some((option) => option.value === value)) select.value = value;
  }

  /** The sheets as the reader wants them; the limits are the author's. */
  get #paper(): Paper {
    const limits = (key: string) => {
      const [from = 1, to = 1] = (this.#root.dataset[key] ?? '').split(' ').map(Number);
      return { from, to };
    };
    const sheets = this.#get('sheets');
    return {
      size: PAPERS.find((name) => name === this.#get('size')) ?? ('A4' as PaperName),
      orientation: this.#get('orientation') === 'landscape' ? 'landscape' : 'portrait',
      twoUp: this.#get('up') === '2',
      sheets: sheets === '' ? limits('sheets') : { from: Number(sheets), to: Number(sheets) },
      type: limits('type'),
      columns: limits('columns'),
    };
  }

  /** Composes anew; what it came to stands in the status, and in `data-composed` for whoever prints. */
  async compose(): Promise<void> {
    delete this.#root.dataset['composed'];
    this.#turn += 1;
    const turn = this.#turn;
    const chosen = this.#boxes.filter(({ checked }) => checked).map(({ value }) => value);
    const pair = this.#pair;
    for (const [at, select] of this.#pairSelects.entries()) {
      const other = this.#pairSelects[1 - at]?.value;
      for (const option of select.options) option.disabled = option.value !== '' && option.value === other;
    }
    const isWhole = !this.#isOwn || (await bringTopics(this.#text, chosen, pair, () => turn === this.#turn));
    const serial = this.#get('for');
    const address = this.#addressOf(serial, chosen, pair);
    const isLong = this.#isOwn && this.#online(address).length > LONGEST;
    const code = this.#isOwn ? await this.#ownCode(address) : this.#root.querySelector('.sheet-code svg');
    await document.fonts.ready;
    // Something else may have been chosen since.
    if (turn !== this.#turn) return;
    const paper = this.#paper;
    carry(address);
    const parts = show(this.#text, serial, this.#day);
    this.#text.dataset['on'] = serial;
    sayWritten();
    this.#papers.replaceChildren();
    this.#papers.hidden = true;
    this.#root.classList.remove('done');
    this.#status.hidden = false;
    if (!isWhole) {
      this.#say('Something of what is chosen can’t be read here, so that the sheet would not be whole.', false);
      return;
    }
    if (parts.length === 0) {
      this.#say(
        this.#isOwn && chosen.length === 0 && !pair
          ? 'Choose what the sheet is about.'
          : `There is nothing to show for ${this.#nameOf(serial)}.`,
        false,
      );
      return;
    }
    const frame = this.#frame(serial, code ?? undefined);
    const found = composed(parts, paper, frame, this.#root);
    if (!('pages' in found)) {
      this.#say(this.#failure(found, paper, serial), false);
      return;
    }
    this.#papers.hidden = false;
    // What is measured while it is drawn is measured in its true size.
    this.#papers.style.setProperty('--shown', '1');
    draw(parts, paper, frame, found, this.#papers);
    const isWorksheet = this.#get('variant') === 'worksheet';
    this.#papers.classList.toggle('worksheet', isWorksheet);
    const key = isWorksheet ? this.#key(parts, paper, frame) : '';
    this.#root.classList.add('done');
    this.#fit();
    const columns = found.columns === 1 ? 'one column' : `${found.columns} columns`;
    const short =
      isLong && code ? ' More is chosen than its code can carry: the code leads to this page without the choice.' : '';
    this.#say(
      `Fills ${sheetsOf(found.sheets, paper)} in ${columns}, in type of ${found.type} points.${key}${short}`,
      true,
    );
  }

  /** Draws the key, and says on how many sheets. */
  #key(parts: readonly SheetPart[], paper: Paper, frame: Frame): string {
    numbered(this.#papers);
    const answers = keyOf(parts);
    const place = document.createElement('div');
    place.className = 'key-papers';
    this.#papers.append(place);
    const keyFrame = { ...frame, title: `${frame.title}: key`, code: undefined };
    const keyPaper = { ...paper, sheets: { from: 1, to: 6 }, columns: { from: 1, to: 2 } };
    const found = composed(answers, keyPaper, keyFrame, this.#root);
    if (!('pages' in found)) return ' Its key does not fit on paper of this size.';
    draw(answers, keyPaper, keyFrame, found, place);
    return ` Its key takes ${found.sheets === 1 ? 'one sheet' : `${found.sheets} sheets`} more.`;
  }

  #say(words: string, done: boolean): void {
    this.#status.textContent = words;
    this.#status.classList.toggle('fails', !done);
    this.#root.dataset['composed'] = done ? 'yes' : 'no';
  }

  #failure(found: Exclude<Composition, { pages: unknown }>, paper: Paper, serial: string): string {
    const name = this.#nameOf(serial);
    const asked = sheetsOf(paper.sheets.to, paper);
    switch (found.fails) {
      case 'much':
        return found.needs === undefined
          ? `What there is to say of ${name} does not fit on paper of this size, since something is higher than a page. Choose larger paper, or print the text below as it is.`
          : `What there is to say of ${name} does not fit on ${asked} in type of ${paper.type.from} points, the smallest that this sheet allows. It takes ${sheetsOf(found.needs, paper)}: choose that number, or larger paper.`;
      case 'little':
        return `What there is to say of ${name} does not fill ${asked}, not even in type of ${paper.type.to} points. ${found.needs === 1 ? 'One sheet is enough' : `${found.needs} sheets are enough`}: choose that number, or smaller paper.`;
      case 'wide':
        return `A table is wider than the page in type of ${paper.type.from} points, the smallest that this sheet allows. Choose landscape or larger paper.`;
    }
  }

  #nameOf(serial: string): string {
    // Paper says what the book calls an aircraft with another registration today, since its tables do.
    const option = this.#form.querySelector(`select[name="for"] option[value="${CSS.escape(serial)}"]`);
    return option?.textContent ?? serial;
  }

  /** The address where the book is online; empty where its author gives none. */
  #online(address?: URL): string {
    const online = this.#root.querySelector<HTMLElement>('.sheet-code')?.dataset['online'] ?? '';
    return online === '' ? '' : online + (address?.search.replaceAll('%2C', ',') ?? '');
  }

  /** The code of an own sheet's address, choice and all; without the choice where that is too long to be read from paper. */
  async #ownCode(address: URL): Promise<Element | undefined> {
    const whole = this.#online(address);
    const draw = whole === '' ? undefined : (await ownParts())?.code;
    if (!draw) return undefined;
    const bench = made('div');
    bench.innerHTML = draw(whole.length > LONGEST ? this.#online() : whole);
    const code = bench.querySelector('svg');
    if (code && code.viewBox.baseVal.width > FINE) code.classList.add('fine');
    return code ?? undefined;
  }

  #frame(serial: string, code: Element | undefined): Frame {
    const { edition = '', date = '' } = this.#root.dataset;
    const all = [...this.#form.querySelectorAll<HTMLOptionElement>('select[name="for"] option')].map(
      ({ value }) => value,
    );
    const marked = this.#marked(serial);
    const own = signature(this.#text, serial, this.#day);
    const alike = all.filter((each) => signature(this.#text, each, this.#day) === own);
    const others = alike.filter((each) => each !== serial);
    const from = since(this.#text, serial, this.#day);
    const whole = others.length === all.length - 1 && marked === '';
    const name = this.#nameOf(serial);
    const titles = [...this.#text.querySelectorAll<HTMLElement>('.sheet-topic:not([hidden]) > h2')];
    const cautions = [...document.querySelectorAll('footer.caution > p:not(.edition, .copy, .to-remark)')];
    return {
      title: this.#isOwn
        ? titles.map((title) => title.textContent).join(' · ')
        : (document.querySelector('h1')?.textContent ?? ''),
      who: whole ? 'Every aircraft' : from > date ? `${name} as it is since ${from}` : name,
      alsoFor:
        whole || others.length === 0 || marked !== ''
          ? ''
          : `the same on ${runs(others, all)
              .map((each) => each.map((one) => this.#nameOf(one)).join(' to '))
              .join(', ')}`,
      edition,
      caution: [marked, ...cautions.map((one) => one.textContent)].join(' ').trim(),
      code,
    };
  }

  /** The reader's own marks, where the sheet says of a lamp that it is unserviceable; who decides is said with them. */
  #marked(serial: string): string {
    const topics = '.sheet-topic:not([hidden]) .sheet-block:not([hidden]) :is(h3, tr:not([hidden]))';
    if (!this.#text.querySelector(`${topics} .out-tag`)) return '';
    const now = new Date();
    const lamps = marksOf(serial, now).map(({ title }) => title);
    return `Unserviceable on ${dayOf(now)}, as marked by the reader: ${lamps.join('; ')}. The minimum equipment list and maintenance decide on dispatch.`;
  }

  /** Pages are drawn in their true size; a narrow screen shows them smaller. */
  #fit(): void {
    const { size, orientation } = this.#paper;
    const width = (paperSize(size, orientation).width * 96) / 25.4;
    this.#papers.style.setProperty('--shown', String(Math.min(1, this.#root.clientWidth / width)));
    this.#papers.style.setProperty('--tall', `${this.#papers.offsetHeight}px`);
  }

  /** The address of the sheet as it is chosen. */
  #addressOf(serial: string, topics: readonly string[], pair: Pair | undefined): URL {
    const url = new URL(location.href);
    for (const key of KEYS) {
      const select = this.#form.querySelector<HTMLSelectElement>(`select[name="${key}"]`);
      const usual = [...(select?.options ?? [])].find(({ defaultSelected }) => defaultSelected) ?? select?.options[0];
      if (select && select.value !== usual?.value) url.searchParams.set(key, select.value);
      else url.searchParams.delete(key);
    }
    if (serial !== this.#root.dataset['shown'] || url.searchParams.has('aircraft'))
      url.searchParams.set('aircraft', serial);
    const own = { topics: topics.join(','), pair: pair?.serials.join(',') ?? '' };
    for (const [key, value] of Object.entries(own)) {
      if (this.#isOwn && value !== '') url.searchParams.set(key, value);
      else url.searchParams.delete(key);
    }
    return url;
  }
}

function carry(url: URL): void {
  try {
    if (url.href !== location.href) history.replaceState(history.state, '', url);
  } catch {
    // A folder opened without a server: browsers do not let its addresses change.
  }
}

function sheetsOf(number: number, { size, twoUp }: Paper): string {
  const paper = size === 'Letter' ? 'US Letter' : size;
  return `${number === 1 ? 'one sheet' : `${number} sheets`} of ${paper}${twoUp ? ', two pages on each' : ''}`;
}

/** Runs of three or more that follow each other in the fleet as their ends, the rest one by one. */
function runs(some: readonly string[], all: readonly string[]): string[][] {
  const groups: string[][] = [];
  for (const each of some) {
    const last = groups.at(-1);
    if (last && all.indexOf(last.at(-1) ?? '') + 1 === all.indexOf(each)) last.push(each);
    else groups.push([each]);
  }
  return groups.flatMap((group) =>
    group.length > 2 ? [[group[0] as string, group.at(-1) as string]] : group.map((one) => [one]),
  );
}

function ownAircraft(): string | undefined {
  const choice = storedChoice();
  return choice && isFresh(choice, new Date()) ? choice.serial : undefined;
}

document.addEventListener('DOMContentLoaded', () => {
  const root = document.getElementById('sheet');
  nameByDay(document);
  if (root) void new SheetPage(root).compose();
});
