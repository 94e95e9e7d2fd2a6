/** Exact numbers for times and levels: a fraction with a positive denominator, in lowest terms. */
import { digitsOf, scaled } from './decimal.ts';

export interface Ratio {
  readonly over: bigint;
  readonly under: bigint;
}

export function ratio(over: bigint, under = 1n): Ratio {
  let [a, b] = [over < 0n ? -over : over, under < 0n ? -under : under];
  while (b !== 0n) [a, b] = [b, a % b];
  const sign = under < 0n ? -1n : 1n;
  return a === 0n ? { over: 0n, under: 1n } : { over: (sign * over) / a, under: (sign * under) / a };
}

/** "0.25" is 1/4. */
export const decimal = (text: string): Ratio => ratio(scaled(text, digitsOf(text)), 10n ** BigInt(digitsOf(text)));
export const plus = (a: Ratio, b: Ratio): Ratio => ratio(a.over * b.under + b.over * a.under, a.under * b.under);
export const minus = (a: Ratio, b: Ratio): Ratio => plus(a, ratio(-b.over, b.under));
export const times = (a: Ratio, b: Ratio): Ratio => ratio(a.over * b.over, a.under * b.under);
export const divided = (a: Ratio, b: Ratio): Ratio => ratio(a.over * b.under, a.under * b.over);

/** Negative, zero or positive as a is below, equal to or above b. */
export function against(a: Ratio, b: Ratio): number {
  const difference = minus(a, b).over;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** As a decimal where it ends within nine digits, else as a fraction: "2.5", "1/3". */
export function textOf({ over, under }: Ratio): string {
  if (10n ** 9n % under !== 0n) return `${over}/${under}`;
  return String(Number(over) / Number(under));
}
