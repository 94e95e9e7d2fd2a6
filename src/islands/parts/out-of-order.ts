/** The lamps that a reader has marked as unserviceable, as this device keeps them: for a day, then they are gone. */

export interface OutOfOrder {
  /** The aircraft, for good. */
  readonly serial: string;
  /** The anchor of the lamp's tables. */
  readonly lamp: string;
  /** "Position lights, left lamp". */
  readonly title: string;
  /** Where it is told, from the book's root. */
  readonly to: string;
  readonly marked: Date;
}

const KEY = 'switchleaf-unserviceable';
const DAY = 24 * 60 * 60 * 1000;

/** What is marked and not older than a day; the rest is thrown away. */
export function marksOf(serial: string, now: Date): OutOfOrder[] {
  const all = read();
  const fresh = all.filter(({ marked }) => {
    const age = now.getTime() - marked.getTime();
    return age >= 0 && age < DAY;
  });
  if (fresh.length < all.length) write(fresh);
  return fresh.filter((one) => one.serial === serial);
}

export function mark(one: OutOfOrder): void {
  write([...read().filter((other) => !isSame(one, other)), one]);
}

/** Without a lamp: all of the aircraft. */
export function clear(serial: string, lamp?: string): void {
  write(read().filter((one) => one.serial !== serial || (lamp !== undefined && one.lamp !== lamp)));
}

function isSame(one: OutOfOrder, other: OutOfOrder): boolean {
  return one.serial === other.serial && one.lamp === other.lamp;
}

/** Storage may be closed to pages, or hold what another release wrote. */
function read(): OutOfOrder[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    if (!Array.isArray(found)) return [];
    return found.flatMap((each: Record<string, unknown> | null) => {
      const { serial, lamp, title, to } = each ?? {};
      const marked = new Date(String(each?.['marked']));
      if (![serial, lamp, title, to].every((part) => typeof part === 'string') || Number.isNaN(marked.getTime()))
        return [];
      return [{ serial, lamp, title, to, marked } as OutOfOrder];
    });
  } catch {
    return [];
  }
}

function write(all: readonly OutOfOrder[]): void {
  try {
    if (all.length === 0) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(all.map((one) => ({ ...one, marked: one.marked.toISOString() }))));
  } catch {
    // Then nothing is kept.
  }
}
