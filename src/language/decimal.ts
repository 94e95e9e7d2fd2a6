/**
 * Exact arithmetic on decimals as they are written ("88.5", "-40", "10800"). Numbers of the content never become floating
 * point, so that a threshold cuts exactly where the author says.
 */
import type { Comparison } from './expression.ts';

/** A decimal number: `digits` / 10 ** `scale`. */
export interface Decimal {
  readonly digits: bigint;
  readonly scale: number;
}

/** The decimal that a text writes; undefined when it writes none. Thousands separators and exponents are not decimals. */
export function parseDecimal(text: string): Decimal | undefined {
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (!match) return undefined;
  const [, sign = '', whole = '', fraction = ''] = match;
  return { digits: BigInt(`${sign}${whole}${fraction}`), scale: fraction.length };
}

/** Negative, zero or positive as `a` is less than, equal to or greater than `b`. Both must be decimals. */
export function compareDecimals(a: string, b: string): number {
  const [x, y] = aligned(a, b);
  return x < y ? -1 : x > y ? 1 : 0;
}

export function addDecimals(a: string, b: string): string {
  const [x, y] = aligned(a, b);
  return written(x + y, Math.max(scaleOf(a), scaleOf(b)));
}

export function subtractDecimals(a: string, b: string): string {
  const [x, y] = aligned(a, b);
  return written(x - y, Math.max(scaleOf(a), scaleOf(b)));
}

/** The decimal times a whole number, without needless zeros. */
export function multiplyDecimal(text: string, factor: bigint): string {
  const [digits] = aligned(text, '0');
  return written(digits * factor, scaleOf(text));
}

function scaleOf(text: string): number {
  return decimalOf(text).scale;
}

/** The decimal without needless zeros. */
function written(digits: bigint, scale: number): string {
  const [sign, amount] = digits < 0n ? ['-', -digits] : ['', digits];
  const text = String(amount).padStart(scale + 1, '0');
  const whole = text.slice(0, text.length - scale);
  const fraction = text.slice(text.length - scale).replace(/0+$/, '');
  return `${sign}${whole}${fraction === '' ? '' : `.${fraction}`}`;
}

/** Whether `value` is `from` plus a whole number of steps. */
export function isOnStep(value: string, from: string, step: string): boolean {
  const [v, f, s] = aligned(value, from, step);
  return (v - f) % s === 0n;
}

/**
 * The interval of step numbers (0 stands for `from`) for which a comparison holds, both ends included; undefined when it
 * holds for none. Exact for thresholds that lie between steps or outside the range.
 */
export function thresholdCut(
  range: { readonly from: string; readonly to: string; readonly step: string },
  by: Comparison,
  value: string,
): readonly [first: bigint, last: bigint] | undefined {
  const [v, from, to, step] = aligned(value, range.from, range.to, range.step);
  const top = floorDivide(to - from, step);
  const below = floorDivide(v - from, step);
  const exact = (v - from) % step === 0n;
  if (by === '=' && !exact) return undefined;
  const interval = ((): [bigint, bigint] => {
    switch (by) {
      case '<':
        return [0n, exact ? below - 1n : below];
      case '<=':
        return [0n, below];
      case '>':
        return [below + 1n, top];
      case '>=':
        return [exact ? below : below + 1n, top];
      case '=':
        return [below, below];
    }
  })();
  const first = interval[0] < 0n ? 0n : interval[0];
  // biome-ignore lint/complexity/useMathMinMax: Math.min knows no bigint
  const last = interval[1] > top ? top : interval[1];
  return first <= last ? [first, last] : undefined;
}

function aligned(...texts: readonly [string, string]): [bigint, bigint];
function aligned(...texts: readonly [string, string, string]): [bigint, bigint, bigint];
function aligned(...texts: readonly [string, string, string, string]): [bigint, bigint, bigint, bigint];
function aligned(...texts: readonly string[]): bigint[] {
  const decimals = texts.map(decimalOf);
  const scale = Math.max(...decimals.map((decimal) => decimal.scale));
  return decimals.map((decimal) => decimal.digits * 10n ** BigInt(scale - decimal.scale));
}

function decimalOf(text: string): Decimal {
  const decimal = parseDecimal(text);
  if (!decimal) throw new Error(`${text} is not a decimal number`);
  return decimal;
}

/** The quotient rounded down; `b` is positive. */
function floorDivide(a: bigint, b: bigint): bigint {
  return a % b < 0n ? a / b - 1n : a / b;
}
