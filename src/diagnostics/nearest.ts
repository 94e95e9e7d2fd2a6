/**
 * The number of slips that turn `a` into `b`: a character too many, too few, another one, or two neighbours swapped, no
 * stretch edited twice (the optimal string alignment form of the Damerau-Levenshtein distance; F. J. Damerau, "A technique
 * for computer detection and correction of spelling errors", Communications of the ACM 7(3), 1964).
 */
export function slips(a: string, b: string): number {
  const from = [...a];
  const to = [...b];
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1];
      let best = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1]) {
        best = Math.min(best, beforeLast[j - 2]! + 1);
      }
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length]!;
}

/**
 * The name that was probably meant, or undefined when none is near: at most one slip for every three characters of the
 * word (at least one, for words of two characters or more), upper and lower case alike. Ties go to the name that stands
 * first. With case alone different, that name wins.
 */
export function nearestName(word: string, names: Iterable<string>): string | undefined {
  const written = word.toLowerCase();
  const length = [...written].length;
  const bound = length < 2 ? 0 : Math.max(1, Math.floor(length / 3));
  let best: string | undefined;
  let bestSlips = bound + 1;
  for (const name of names) {
    if (Math.abs([...name].length - length) > bound) continue;
    const count = slips(written, name.toLowerCase());
    if (count < bestSlips) {
      best = name;
      bestSlips = count;
    }
  }
  return best;
}

/** The sentence of a hint about a bad name: `Did you mean "logo"? `, or nothing. */
export function didYouMean(near: string | undefined): string {
  return near === undefined ? '' : `Did you mean "${near}"? `;
}
