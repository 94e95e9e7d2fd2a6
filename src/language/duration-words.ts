/** Times as the book says them. */

const MINUTE = 60n;
const HOUR = 3600n;

/**
 * A time in seconds, written as a decimal, in words: "90 s", from two minutes on "2 min" or "30 min 30 s", from an hour on
 * "1 h 5 min".
 */
export function durationWords(seconds: string): string {
  const [whole = '0', part] = seconds.split('.');
  const all = BigInt(whole);
  if (all < 2n * MINUTE) return `${seconds} s`;
  const rest = `${all % MINUTE}${part === undefined ? '' : `.${part}`}`;
  const parts: (readonly [string, string])[] = [
    [String(all / HOUR), 'h'],
    [String((all % HOUR) / MINUTE), 'min'],
    [rest, 's'],
  ];
  return parts
    .filter(([amount]) => amount !== '0')
    .map((words) => words.join(' '))
    .join(' ');
}
