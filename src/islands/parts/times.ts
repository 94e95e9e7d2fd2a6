/** Days and times by the reader's clock, as the book writes them. */

const DAY = 24 * 60 * 60 * 1000;
const two = (part: number): string => String(part).padStart(2, '0');

/** "2026-11-25". */
export function dayOf(date: Date): string {
  return [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())].join('-');
}

/** "21:04". */
export function clockOf(date: Date): string {
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** "2026-11-25 21:04". */
export function momentOf(date: Date): string {
  return `${dayOf(date)} ${clockOf(date)}`;
}

/** Less than 24 hours ago; a date that is still to come is none that the reader has set. */
export function isWithinDay(date: Date, now: Date): boolean {
  const age = now.getTime() - date.getTime();
  return age >= 0 && age < DAY;
}
