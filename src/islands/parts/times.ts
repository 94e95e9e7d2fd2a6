/** Days and times by the reader's clock, as the book writes them. */

const two = (part: number): string => String(part).padStart(2, '0');

/** "2026-11-25". */
export function dayOf(date: Date): string {
  return [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())].join('-');
}

/** "21:04". */
export function clockOf(date: Date): string {
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}
