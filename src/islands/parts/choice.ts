/** The reader's own aircraft, as this device keeps it. */
import { keep, kept } from './kept.ts';
import { nameIn } from './registrations.ts';
import { isWithinDay } from './times.ts';

/** What was chosen, and when; `serial` is for good, a registration may change. */
export interface Choice {
  readonly serial: string;
  readonly chosen: Date;
  /** Another aircraft that the reader flies too, to be compared with. */
  readonly other?: string;
}

const KEY = 'switchleaf-aircraft';

export function storedChoice(): Choice | undefined {
  const { serial, chosen, other } = (kept(KEY) ?? {}) as Record<string, unknown>;
  const date = new Date(String(chosen));
  if (typeof serial !== 'string' || Number.isNaN(date.getTime())) return undefined;
  return { serial, chosen: date, ...(typeof other === 'string' ? { other } : {}) };
}

export function store(choice: Choice | undefined): void {
  keep(KEY, choice);
}

const SHOWN = 'switchleaf:aircraft';

/** Says to the other scripts of the page for which aircraft it is shown; undefined for all. */
export function announce(serial: string | undefined): void {
  document.dispatchEvent(new CustomEvent(SHOWN, { detail: serial }));
}

/** Hears that, first when the page is ready; to be called before that. */
export function onAircraft(hear: (serial: string | undefined) => void): void {
  document.addEventListener(SHOWN, (event) => hear((event as CustomEvent<string | undefined>).detail));
}

/** A crew flies another aircraft tomorrow: after a day a choice is asked for again, and not used until it is confirmed. */
export function isFresh({ chosen }: Choice, now: Date): boolean {
  return isWithinDay(chosen, now);
}

export function freshChoice(now: Date): Choice | undefined {
  const choice = storedChoice();
  return choice && isFresh(choice, now) ? choice : undefined;
}

/** As the list on every page has it; undefined where the book has no such aircraft. */
export function registrationOf(serial: string): string | undefined {
  const button = listed(serial);
  return button ? nameIn(button) : undefined;
}

/** What the pages call it, where it has another registration today. */
export function formerRegistrationOf(serial: string): string | undefined {
  return listed(serial)?.dataset['inBook'];
}

function listed(serial: string): HTMLElement | null {
  return document.querySelector(`dialog.fleet button[value="${CSS.escape(serial)}"]`);
}
