/**
 * Lamps of my aircraft that a reader marks as unserviceable for today, on this device alone. Every page says which they are;
 * tables and drawings show what they change. Nothing here says whether the aircraft may go: that is said each time.
 */
import { holdsFor } from './parts/blocks.ts';
import { ROOT } from './parts/book-files.ts';
import { freshChoice, onAircraft, registrationOf } from './parts/choice.ts';
import { button, linkTo, made } from './parts/elements.ts';
import { clear, mark, marksOf, type OutOfOrder, onWritten, sayChanged } from './parts/out-of-order.ts';
import { dayOf } from './parts/times.ts';

const SVG = 'http://www.w3.org/2000/svg';
const TAG = 'unserviceable today';
/** What is told of some aircraft: blocks that are brought to the front, what else holds for them, and what compares them. */
const LIMITED = '[data-fits], [data-on], [data-of]';

/** Marks belong to the reader's own aircraft; a page that a link shows for another one has none. */
let own: string | undefined;
let announced = false;

onAircraft((serial) => {
  own = freshChoice(new Date())?.serial === serial ? serial : undefined;
  announced = true;
  show();
});
document.addEventListener('DOMContentLoaded', () => {
  if (!announced) show();
});
onWritten(() => {
  if (announced) show();
});
// Another window of the book may have marked or cleared something.
addEventListener('storage', () => {
  if (!announced) return;
  show();
  sayChanged();
});

function show(): void {
  for (const added of document.querySelectorAll('.out-tag, .out-note, .out-cross, .out-mark')) added.remove();
  for (const changed of document.querySelectorAll('.is-out, .not-out')) changed.classList.remove('is-out', 'not-out');
  const out = own === undefined ? [] : marksOf(own, new Date());
  say(out);
  offer(out);
  const lamps = new Set(out.map(({ lamp }) => lamp));
  if (lamps.size === 0) return;
  for (const { lamp } of out) {
    const heading = document.getElementById(lamp)?.querySelector('h2, h4');
    const link = heading?.querySelector('.link-mark');
    if (link) link.before(tag(TAG));
    else heading?.append(tag(TAG));
  }
  for (const table of document.querySelectorAll<HTMLTableElement>('table.states')) inTable(table, lamps);
  for (const row of document.querySelectorAll<HTMLTableRowElement>(
    '.sheet-text tr:has([data-serviceable], [data-failed])',
  ))
    inSheetRow(row, lamps);
  const drawings = [...document.querySelectorAll('main svg:has([data-unit])')].map((svg) => svg.parentElement);
  for (const figure of new Set(drawings)) if (figure) inFigure(figure, out);
  inWords(out);
}

function tag(words: string): HTMLElement {
  return made('span', 'out-tag', words);
}

/** The line on every page: which lamps, until when, and who decides. */
function say(out: readonly OutOfOrder[]): void {
  const line = document.querySelector<HTMLElement>('.out-today');
  if (!line) return;
  line.hidden = out.length === 0;
  if (own === undefined || out.length === 0) return;
  const serial = own;
  const name = registrationOf(serial) ?? serial;
  const list = made('ul');
  for (const { lamp, title, to } of out) {
    const [page = '', anchor] = to.split('#');
    const end = button('Clear', () => change(() => clear(serial, lamp)));
    end.setAttribute('aria-label', `Clear: ${title}`);
    list.append(made('li', '', linkTo({ to: page, title, ...(anchor ? { anchor } : {}) }), end));
  }
  const fold = made('details');
  fold.open = line.querySelector('details')?.open ?? false;
  const count = `${out.length} ${out.length === 1 ? 'lamp' : 'lamps'}`;
  fold.append(made('summary', '', `${name}: ${count} marked unserviceable today`), list);
  if (out.length > 1) fold.append(button('Clear all', () => change(() => clear(serial))));
  line.replaceChildren(
    fold,
    made(
      'p',
      '',
      'Your own mark, on this device, for a day. The minimum equipment list and maintenance decide on dispatch.',
    ),
  );
}

/** The button that was used is made anew, or goes: the focus stays with its lamp, or else with the line. */
function change(act: () => void): void {
  const row = document.activeElement?.closest('tr[data-lamp]');
  act();
  show();
  sayChanged();
  const next =
    row?.querySelector<HTMLElement>('.out-mark') ??
    document.querySelector<HTMLElement>('.out-today:not([hidden]) summary') ??
    document.getElementById('main');
  next?.focus({ preventScroll: true });
}

/** A button in the list of a light's lamps, on aircraft that have the light. */
function offer(out: readonly OutOfOrder[]): void {
  for (const row of document.querySelectorAll<HTMLElement>('tr[data-lamp]')) {
    const lamp = row.dataset['lamp'] ?? '';
    if (own === undefined || !holdsFor(row.dataset['on'] ?? '', own, dayOf(new Date()))) continue;
    const serial = own;
    const isOut = out.some((one) => one.lamp === lamp);
    row.classList.toggle('is-out', isOut);
    const light = document.querySelector('h1')?.textContent?.trim() ?? '';
    const title = `${light}, ${row.querySelector('th a')?.textContent ?? lamp}`;
    const to = `${location.href.slice(ROOT.length).replace(/[?#].*$/, '')}#${row.id}`;
    const act = button(isOut ? 'Clear' : 'Unserviceable?', () =>
      change(() => (isOut ? clear(serial, lamp) : mark({ serial, lamp, title, to, marked: new Date() }))),
    );
    act.className = 'out-mark';
    act.setAttribute('aria-label', isOut ? `Clear: ${title}` : `Mark ${title} unserviceable for today`);
    row.querySelector('th')?.append(...(isOut ? [tag(TAG)] : []), act);
  }
}

/** Rows that hold with the lamp failed are pointed out, those that need it to work are set back. */
function inTable(table: HTMLTableElement, out: ReadonlySet<string>): void {
  if (!isOwn(table)) return;
  if ((table.dataset['working'] ?? '').split(' ').some((lamp) => out.has(lamp))) {
    table.classList.add('not-out');
    const place = table.closest('.wide') ?? table;
    place.before(made('p', 'out-note', 'Not so today: these cases need a lamp that is marked unserviceable.'));
    return;
  }
  const columns = [...table.querySelectorAll<HTMLElement>('thead th')].flatMap((head, at) => {
    const lamps = (head.dataset['lamp'] ?? '').split(' ');
    return lamps.some((lamp) => out.has(lamp)) ? [{ at, shared: !lamps.every((lamp) => out.has(lamp)) }] : [];
  });
  if (columns.length === 0) return;
  for (const row of table.querySelectorAll<HTMLTableRowElement>('tr[id]')) {
    // The address of a row is made of its values.
    const values = row.id.slice(table.id.length + 1).split('_');
    const ofLamps = columns.map(({ at, shared }) => ({ at, shared, value: values[at] ?? 'any' }));
    const needs = ofLamps.find(({ value }) => value === 'serviceable');
    const decides = needs ?? ofLamps.find(({ value }) => value.endsWith('failed'));
    if (!decides) continue;
    // A table that lamps have in common goes on holding for those that work.
    if (!decides.shared) row.classList.add(needs ? 'not-out' : 'is-out');
    const results = row.querySelectorAll('.result');
    // Of two results neither is the case: that stands with the lamp.
    const both = results.length > 1;
    const whose = decides.shared ? ' for the failed lamp' : both ? '' : ': lamp failed';
    (both ? row.cells[decides.at] : results[0])?.append(tag(needs ? `not today${both ? whose : ''}` : `today${whose}`));
  }
}

/** The same on sheets, whose cells say themselves which lamps they are about. */
function inSheetRow(row: HTMLTableRowElement, out: ReadonlySet<string>): void {
  if (!isOwn(row)) return;
  const found = [...row.cells].flatMap((cell) => {
    const { serviceable, failed } = cell.dataset;
    const lamps = (serviceable ?? failed ?? '').split(' ');
    const needs = serviceable !== undefined;
    return lamps.some((lamp) => out.has(lamp)) ? [{ cell, needs, shared: !lamps.every((lamp) => out.has(lamp)) }] : [];
  });
  const decides = found.find(({ needs }) => needs) ?? found[0];
  if (!decides) return;
  const { cell, needs, shared } = decides;
  if (!shared) row.classList.add(needs ? 'not-out' : 'is-out');
  cell.append(tag(`${needs ? 'not today' : 'today'}${shared ? ' for the failed lamp' : ''}`));
}

/** What says of a light or of lamps what they do says that one is out, once in a line. See `tells` in src/components/html.ts. */
function inWords(out: readonly OutOfOrder[]): void {
  for (const place of document.querySelectorAll<HTMLElement>('main [data-tells]')) {
    const lamps = (place.dataset['tells'] ?? '').split(' ').filter((lamp) => lamp !== '');
    const links = [...place.querySelectorAll('a')].filter((link) => link.closest('[data-tells]') === place);
    if (lamps.length > 0) {
      const link = links[0];
      if (link && isOwn(link))
        link.after(...tags(out.filter(({ lamp }) => lamps.includes(lamp)).length, lamps.length > 1));
      continue;
    }
    const said = new Map<Element | null, Set<string>>();
    for (const link of links) {
      const page = link.href.replace(/[?#].*$/, '');
      const { length } = out.filter(({ to }) => new URL(to.replace(/#.*$/, ''), ROOT).href === page);
      const line = link.closest('p, li, dd, td, th, h2, h3, h4, h5');
      const before = said.get(line) ?? new Set();
      if (length === 0 || before.has(page) || !isOwn(link)) continue;
      said.set(line, before.add(page));
      link.after(...tags(length, true));
    }
  }
}

/** `some`: it is said of several lamps, so that it must be said how many. */
function tags(count: number, some: boolean): HTMLElement[] {
  if (count === 0) return [];
  return [tag(some ? `${count === 1 ? 'a lamp' : `${count} lamps`} ${TAG}` : TAG)];
}

/** Whether all that it stands in holds for the reader's aircraft today. */
function isOwn(element: Element): boolean {
  const day = dayOf(new Date());
  for (
    let at = element.closest<HTMLElement>(LIMITED);
    at;
    at = at.parentElement?.closest<HTMLElement>(LIMITED) ?? null
  ) {
    const { fits, on, of } = at.dataset;
    if (own === undefined || [fits, on, of].some((some) => some !== undefined && !holdsFor(some, own ?? '', day)))
      return false;
  }
  return true;
}

/** A cross over the lamp's mark, and its name in words below the drawing. */
function inFigure(figure: HTMLElement, out: readonly OutOfOrder[]): void {
  if (!isOwn(figure)) return;
  const drawn = out.filter(({ lamp }) => {
    const marks = figure.querySelectorAll<SVGGElement>(`[data-unit="${CSS.escape(lamp)}"]`);
    for (const each of marks) {
      const cross = document.createElementNS(SVG, 'path');
      cross.setAttribute('class', 'out-cross');
      cross.setAttribute('d', 'M2 2L18 18M18 2L2 18');
      // The glyph's own corner and size.
      (each.querySelector('g') ?? each).append(cross);
    }
    return marks.length > 0;
  });
  if (drawn.length === 0) return;
  const note = made(
    'p',
    'out-note',
    `Crossed out, unserviceable today: ${drawn.map(({ title }) => title).join('; ')}.`,
  );
  if (figure.localName === 'figure') figure.append(note);
  else figure.after(note);
}
