/** The reader's own aircraft, as this device keeps it. */

/** What was chosen, and when; `serial` is for good, a registration may change. */
export interface Choice {
  readonly serial: string;
  readonly chosen: Date;
  /** Another aircraft that the reader flies too, to be compared with. */
  readonly other?: string;
}

const KEY = 'switchleaf-aircraft';
const DAY = 24 * 60 * 60 * 1000;

/** Storage may be closed to pages: then a choice holds for one page only. */
export function storedChoice(): Choice | undefined {
  try {
    const { serial, chosen, other } = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Record<string, unknown>;
    const date = new Date(String(chosen));
    if (typeof serial !== 'string' || Number.isNaN(date.getTime())) return undefined;
    return { serial, chosen: date, ...(typeof other === 'string' ? { other } : {}) };
  } catch {
    return undefined;
  }
}

export function store(choice: Choice | undefined): void {
  try {
    if (choice) localStorage.setItem(KEY, JSON.stringify({ ...choice, chosen: choice.chosen.toISOString() }));
    else localStorage.removeItem(KEY);
  } catch {
    // See above.
  }
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
  const age = now.getTime() - chosen.getTime();
  return age >= 0 && age < DAY;
}
