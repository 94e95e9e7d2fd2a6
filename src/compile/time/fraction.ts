/** Exact rational numbers, for times and levels: a store that drains by a third a minute is empty at an exact time. */
import { durationWords, parseDecimal } from '../../language/index.ts';

/** `over` / `under` in lowest terms, `under` above zero. */
export interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

export function fraction(over: bigint, under = 1n): Fraction {
  if (under === 0n) throw new RangeError('a fraction over zero');
  const divisor = greatestDivisor(over < 0n ? -over : over, under < 0n ? -under : under) * (under < 0n ? -1n : 1n);
  return { over: over / divisor, under: under / divisor };
}

export const ZERO: Fraction = { over: 0n, under: 1n };

/** The value of a decimal as it is written. */
export function ofDecimal(text: string): Fraction {
  const decimal = parseDecimal(text);
  if (!decimal) throw new Error(`${text} is not a decimal number`);
  return fraction(decimal.digits, 10n ** BigInt(decimal.scale));
}

export function add(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.under + b.over * a.under, a.under * b.under);
}

export function subtract(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.under - b.over * a.under, a.under * b.under);
}

export function multiply(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.over, a.under * b.under);
}

export function divide(a: Fraction, b: Fraction): Fraction {
  return fraction(a.over * b.under, a.under * b.over);
}

/** Negative, zero or positive as `a` is less than, equal to or greater than `b`. */
export function compare(a: Fraction, b: Fraction): number {
  const difference = a.over * b.under - b.over * a.under;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export function latest(first: Fraction, ...others: readonly Fraction[]): Fraction {
  return others.reduce((a, b) => (compare(a, b) < 0 ? b : a), first);
}

/** Most places that a time is written with. */
const PLACES = 3;

/** As a decimal: "32", "2.5"; rounded to three places where it has more, and then `exact` is false. */
export function decimalText(value: Fraction): { readonly text: string; readonly exact: boolean } {
  const scale = 10n ** BigInt(PLACES);
  const size = value.over < 0n ? -value.over : value.over;
  const rounded = (2n * size * scale + value.under) / (2n * value.under);
  const places = String(rounded % scale)
    .padStart(PLACES, '0')
    .replace(/0+$/, '');
  const sign = value.over < 0n && rounded > 0n ? '-' : '';
  const text = `${sign}${rounded / scale}${places === '' ? '' : `.${places}`}`;
  return { text, exact: rounded * value.under === size * scale };
}

/** "32 s", "about 66.667 s", "30 min 30 s"; nothing happens before a course begins. */
export function secondsText(value: Fraction): string {
  const { text, exact } = decimalText(value);
  return `${exact ? '' : 'about '}${durationWords(text)}`;
}

function greatestDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : greatestDivisor(b, a % b);
}
