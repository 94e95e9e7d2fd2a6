/** Small numbers as sentences say them. */

const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** "no", "one", ... "twelve", then digits. */
export function numberWord(count: number): string {
  return WORDS[count] ?? String(count);
}
