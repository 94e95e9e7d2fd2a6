/**
 * "My aircraft": chosen once, shown on every page with the time of the choice, asked for again after a day. A link may name an
 * aircraft too; then the page is shown for that one, and says so, and the reader's own choice stays as it was.
 */
import { arrange, openTarget, restore } from './parts/blocks.ts';
import {
  announce,
  type Choice,
  formerRegistrationOf,
  isFresh,
  registrationOf,
  store,
  storedChoice,
} from './parts/choice.ts';
import { button as buttonFor, made } from './parts/elements.ts';
import { nameByDay } from './parts/registrations.ts';
import { clockOf, dayOf, momentOf } from './parts/times.ts';

const PARAMETER = 'aircraft';

function timeOf(date: Date, now: Date): string {
  return dayOf(date) === dayOf(now) ? clockOf(date) : momentOf(date);
}

interface Parts {
  readonly button: HTMLButtonElement;
  readonly dialog: HTMLDialogElement;
  readonly notice: HTMLElement;
  readonly changed: HTMLElement;
}

function start({ button, dialog, notice, changed }: Parts): void {
  const now = new Date();
  const order = new Map([...document.querySelectorAll('[data-fits]')].map((block, at) => [block, at] as const));
  const asOf = document.querySelector('.caution time')?.getAttribute('datetime') ?? '';
  const linked = new URLSearchParams(location.search).get(PARAMETER) ?? undefined;

  const isKnown = (serial: string): boolean => registrationOf(serial) !== undefined;
  const nameOf = (serial: string): string => registrationOf(serial) ?? serial;
  const say = (words: string, actions: readonly (readonly [string, () => void])[]): void => {
    notice.replaceChildren(made('p', '', words), ...actions.map(([label, act]) => buttonFor(label, act)));
    notice.hidden = false;
  };
  /** What was answered goes, and with it the button that had the focus. */
  const unsay = (): void => {
    if (notice.contains(document.activeElement)) button.focus();
    notice.hidden = true;
  };
  /** What has become of the aircraft since the book's date. */
  const changesOf = (serial: string, since: string): string[] => {
    const former = formerRegistrationOf(serial);
    return [
      ...(since > asOf ? [`${nameOf(serial)} is shown as it is since ${since}.`] : []),
      ...(former === undefined ? [] : [`${nameOf(serial)} stands in this book as ${former}.`]),
    ];
  };
  const show = (serial: string | undefined, other?: string): void => {
    restore(document, order);
    const beside = other === undefined ? undefined : { serial: other, name: nameOf(other) };
    const since = serial === undefined ? '' : arrange(document, serial, dayOf(now), beside);
    const sayings = serial === undefined ? [] : changesOf(serial, since);
    changed.hidden = sayings.length === 0;
    changed.textContent = [...sayings, `This book is as of ${asOf}.`].join(' ');
    carry(serial);
    // Other scripts of the page follow.
    announce(serial);
  };
  const label = (choice: Choice | undefined): void => {
    other.label(choice);
    button.classList.toggle('chosen', choice !== undefined);
    button.replaceChildren(choice ? nameOf(choice.serial) : 'My aircraft');
    if (!choice) return;
    button.append(made('span', 'when', made('span', '', ' chosen'), ` ${timeOf(choice.chosen, now)}`));
  };
  const choose = (serial: string | undefined): void => {
    const beside = storedChoice()?.other;
    const kept = beside === undefined || beside === serial ? {} : { other: beside };
    const choice = serial === undefined ? undefined : { serial, chosen: new Date(), ...kept };
    store(choice);
    unsay();
    label(choice);
    show(serial, choice?.other);
  };
  const other = otherChoice(dialog, (choice) => {
    store(choice);
    label(choice);
    show(choice.serial, choice.other);
  });

  button.hidden = false;
  button.addEventListener('click', () => dialog.showModal());
  dialog.addEventListener('click', (event) => {
    const picked = (event.target as Element).closest<HTMLButtonElement>('button[value]');
    if (picked) choose(picked.value);
    else if ((event.target as Element).closest('.none')) choose(undefined);
    else if (event.target !== dialog && !(event.target as Element).closest('.close')) return;
    dialog.close();
  });
  addEventListener('hashchange', openTarget);

  const stored = storedChoice();
  const known = stored && isKnown(stored.serial) ? stored : undefined;
  const fresh = known && isFresh(known, now) ? known : undefined;
  label(fresh);
  if (linked !== undefined && isKnown(linked) && linked !== fresh?.serial) {
    show(linked);
    say(`Shown for ${nameOf(linked)}, as the link says.`, [
      [`${nameOf(linked)} is my aircraft`, () => choose(linked)],
      [
        fresh ? `Back to ${nameOf(fresh.serial)}` : 'Show every aircraft',
        () => {
          unsay();
          show(fresh?.serial, fresh?.other);
        },
      ],
    ]);
  } else if (fresh) show(fresh.serial, fresh.other);
  else if (known) {
    say(
      `You chose ${nameOf(known.serial)} on ${timeOf(known.chosen, now)}. Every aircraft is shown until you say which one it is today.`,
      [
        [`Still ${nameOf(known.serial)}`, () => choose(known.serial)],
        ['Another one', () => dialog.showModal()],
        ['None', () => choose(undefined)],
      ],
    );
  }
}

/** The list of the dialog from which the other aircraft is taken, once the reader's own is known. */
function otherChoice(
  dialog: HTMLDialogElement,
  changed: (choice: Choice) => void,
): { label: (choice: Choice | undefined) => void } {
  const part = dialog.querySelector<HTMLElement>('.other');
  const select = part?.querySelector('select');
  const link = part?.querySelector('a');
  if (!part || !select || !link) return { label: () => undefined };
  let own: Choice | undefined;
  select.addEventListener('change', () => {
    if (!own) return;
    const { serial, chosen } = own;
    changed({ serial, chosen, ...(select.value === '' ? {} : { other: select.value }) });
  });
  return {
    label: (choice) => {
      own = choice;
      part.hidden = choice === undefined;
      select.value = choice?.other ?? '';
      for (const option of select.options) option.disabled = option.value !== '' && option.value === choice?.serial;
      link.hidden = choice?.other === undefined;
      link.hash = choice ? `${choice.serial}/${choice.other ?? ''}` : '';
    },
  };
}

/** The address names the aircraft that the page is shown for, so that it can be passed on. */
function carry(serial: string | undefined): void {
  const url = new URL(location.href);
  if (serial === undefined) url.searchParams.delete(PARAMETER);
  else url.searchParams.set(PARAMETER, serial);
  try {
    if (url.href !== location.href) history.replaceState(history.state, '', url);
  } catch {
    // A folder opened without a server: browsers do not let its addresses change.
  }
}

document.addEventListener('DOMContentLoaded', () => {
  const button = document.querySelector<HTMLButtonElement>('button.own');
  const dialog = document.querySelector<HTMLDialogElement>('dialog.fleet');
  const notice = document.querySelector<HTMLElement>('.about-aircraft');
  const changed = document.querySelector<HTMLElement>('.changed-since');
  nameByDay(document);
  if (button && dialog && notice && changed) start({ button, dialog, notice, changed });
});
