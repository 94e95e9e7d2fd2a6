/** Alphabetical order, the same on every machine. */

const COLLATOR = new Intl.Collator('en', { numeric: true });

/** Letters by the English alphabet, numbers by their size; capital and small letters only where nothing else differs. */
export function inAlphabet(a: string, b: string): number {
  return COLLATOR.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);
}

/** The letter that a word stands under; what begins with none stands under "0". */
export function initialOf(words: string): string {
  const first = words.charAt(0).toUpperCase();
  return /[A-Z]/.test(first) ? first : '0';
}
