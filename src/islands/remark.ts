/**
 * A remark of a reader, with what its receiver needs to find the place: address, revision, aircraft and what was chosen. It is
 * copied, or handed to the mail program where the operator names an address; the book itself sends nothing.
 */
import { freshChoice, onAircraft, registrationOf } from './parts/choice.ts';
import { marksOf } from './parts/out-of-order.ts';
import { momentOf } from './parts/times.ts';

/** Mail programs cut longer links; the rest can still be copied. */
const MAIL_LIMIT = 1800;

let shownFor: string | undefined;
onAircraft((serial) => {
  shownFor = serial;
});

/** What the address names, or else the last part of the page that begins above the middle of the window. */
function anchorInView(): string {
  if (location.hash.length > 1) return location.hash;
  const parts = [...document.querySelectorAll<HTMLElement>('main :is(section, article, .group, table)[id]')];
  const above = parts.filter((part) => part.checkVisibility() && part.getBoundingClientRect().top < innerHeight / 2);
  const id = scrollY === 0 ? undefined : above.at(-1)?.id;
  return id === undefined ? '' : `#${id}`;
}

function nameOf(serial: string): string {
  const name = registrationOf(serial);
  return name === undefined ? serial : `${name} (serial ${serial})`;
}

function aircraftLine(now: Date): string {
  const own = freshChoice(now);
  if (shownFor === undefined) return 'none chosen, every aircraft shown';
  if (own?.serial === shownFor) return `${nameOf(shownFor)}, chosen ${momentOf(own.chosen)}`;
  return `${nameOf(shownFor)}, named by the link`;
}

/** The lines that go with a remark; a folder on somebody's disk is nothing to pass on. */
function facts({ dataset }: HTMLDialogElement, anchor: string, now: Date): string[] {
  const { page = '', revision, date, book, address } = dataset;
  const web = location.protocol.startsWith('http') ? location.href.replace(/[?#].*$/, '') : address && address + page;
  const out = shownFor === undefined ? [] : marksOf(shownFor, now);
  return [
    `Book: ${book}, revision ${revision}, as of ${date}`,
    `Page: ${document.querySelector('h1')?.textContent?.trim()}`,
    `Address: ${page}${location.search}${anchor}`,
    ...(web === undefined ? [] : [`On the web: ${web}${location.search}${anchor}`]),
    `Aircraft: ${aircraftLine(now)}`,
    ...(out.length === 0 ? [] : [`Marked unserviceable: ${out.map(({ title }) => title).join('; ')}`]),
    `Read: ${momentOf(now)}`,
  ];
}

function start(dialog: HTMLDialogElement, line: HTMLElement): void {
  const words = dialog.querySelector('textarea') as HTMLTextAreaElement;
  const shown = dialog.querySelector('.goes-with') as HTMLTextAreaElement;
  const status = dialog.querySelector('[role="status"]') as HTMLElement;
  const mail = dialog.querySelector<HTMLAnchorElement>('.send-remark');
  const whole = (): string => [words.value.trim(), shown.value].filter((part) => part !== '').join('\n\n');
  const address = (): void => {
    const { book, mail: to } = dialog.dataset;
    if (!mail || !to) return;
    const subject = encodeURIComponent(`Remark on ${book}`);
    mail.href = `mailto:${to}?subject=${subject}&body=${encodeURIComponent(whole().slice(0, MAIL_LIMIT))}`;
  };
  line.hidden = false;
  line.querySelector('button')?.addEventListener('click', () => {
    shown.value = facts(dialog, anchorInView(), new Date()).join('\n');
    status.textContent = '';
    address();
    dialog.showModal();
  });
  words.addEventListener('input', address);
  dialog.querySelector('.copy-remark')?.addEventListener('click', () => {
    const said = (text: string): void => {
      status.textContent = text;
    };
    const byHand = (): void => {
      shown.select();
      said('This browser does not let pages copy. The lines are selected: copy them with your remark.');
    };
    if (!navigator.clipboard) byHand();
    else navigator.clipboard.writeText(whole()).then(() => said('Copied. Paste it into a message.'), byHand);
  });
  dialog.querySelector('.close')?.addEventListener('click', () => dialog.close());
  dialog.addEventListener('click', (event) => {
    if (event.target === dialog) dialog.close();
  });
}

document.addEventListener('DOMContentLoaded', () => {
  const dialog = document.querySelector<HTMLDialogElement>('dialog.remark');
  const line = document.querySelector<HTMLElement>('.to-remark');
  if (dialog && line) start(dialog, line);
});
