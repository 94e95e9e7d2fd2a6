/** Which values of a variable lead to the same child, as numbers: the form is described in `packed.ts`. */

/** Values that share one number. */
const TOGETHER = 3;

/** The numbers for a list that has for each value which distinct child it leads to; these are numbered as they come. */
export function splitNumbers(split: readonly number[]): readonly number[] {
  const numbers: number[] = [];
  let distinct = 1;
  for (let from = 1; from < split.length; from += TOGETHER) {
    let number = 0;
    let weight = 1;
    for (const digit of split.slice(from, from + TOGETHER)) {
      number += weight * digit;
      weight *= distinct + 1;
      distinct = Math.max(distinct, digit + 1);
    }
    numbers.push(number);
  }
  return numbers;
}

/** The list for a variable of `size` values, undefined where a number is too large; `next` gives one number after the other. */
export function readSplit(size: number, next: () => number): readonly number[] | undefined {
  const split = [0];
  let distinct = 1;
  while (split.length < size) {
    let number = next();
    for (let digits = 0; digits < TOGETHER && split.length < size; digits += 1) {
      const digit = number % (distinct + 1);
      number = (number - digit) / (distinct + 1);
      split.push(digit);
      distinct = Math.max(distinct, digit + 1);
    }
    if (number > 0) return undefined;
  }
  return split;
}
