/** The lamps that a reader has marked as unserviceable, as this device keeps them: for a day, then they are gone. */
import { keep, kept } from './kept.ts';
import { isWithinDay } from './times.ts';

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

/** What is marked and not older than a day; the rest is thrown away. */
export function marksOf(serial: string, now: Date): OutOfOrder[] {
  const all = read();
  const fresh = all.filter(({ marked }) => isWithinDay(marked, now));
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

function read(): OutOfOrder[] {
  const found = kept(KEY);
  if (!Array.isArray(found)) return [];
  return found.flatMap((each: Record<string, unknown> | null) => {
    const { serial, lamp, title, to } = each ?? {};
    const marked = new Date(String(each?.['marked']));
    if (![serial, lamp, title, to].every((part) => typeof part === 'string') || Number.isNaN(marked.getTime()))
      return [];
    return [{ serial, lamp, title, to, marked } as OutOfOrder];
  });
}

function write(all: readonly OutOfOrder[]): void {
  keep(KEY, all.length === 0 ? undefined : all);
}

const WRITTEN = 'switchleaf:written';
const CHANGED = 'switchleaf:marks';

/** Has what a script has just put into the page marked too; it is when this returns. */
export function sayWritten(): void {
  document.dispatchEvent(new CustomEvent(WRITTEN));
}
export function onWritten(hear: () => void): void {
  document.addEventListener(WRITTEN, hear);
}

/** Says that the reader has marked or cleared a lamp. */
export function sayChanged(): void {
  document.dispatchEvent(new CustomEvent(CHANGED));
}
export function onChanged(hear: () => void): void {
  document.addEventListener(CHANGED, hear);
}
