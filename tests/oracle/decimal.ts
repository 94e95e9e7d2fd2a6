/** Decimals as the author wrote them, compared exactly: text in, whole numbers of the smallest digit out. */

/** How many digits stand after the point: "88.50" has 2. */
export function digitsOf(text: string): number {
  const point = text.indexOf('.');
  return point < 0 ? 0 : text.length - point - 1;
}

/** The decimal times 10 to the power of `digits`, which must be at least its own digits. */
export function scaled(text: string, digits: number): bigint {
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (!match) throw new Error(`not a decimal: ${text}`);
  const [, sign, whole = '', fraction = ''] = match;
  const size = BigInt(whole + fraction.padEnd(digits, '0'));
  return sign === '-' ? -size : size;
}

/** The inverse of `scaled`: (885n, 1) is "88.5". */
export function unscaled(value: bigint, digits: number): string {
  const size = (value < 0n ? -value : value).toString().padStart(digits + 1, '0');
  const sign = value < 0n ? '-' : '';
  return digits === 0 ? sign + size : `${sign}${size.slice(0, -digits)}.${size.slice(-digits)}`;
}

/** Negative, zero or positive as a is below, equal to or above b. */
export function order(a: string, b: string): number {
  const digits = Math.max(digitsOf(a), digitsOf(b));
  const difference = scaled(a, digits) - scaled(b, digits);
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** a + b, or a - b. */
export function sum(a: string, b: string, sign: 1 | -1 = 1): string {
  const digits = Math.max(digitsOf(a), digitsOf(b));
  return unscaled(scaled(a, digits) + BigInt(sign) * scaled(b, digits), digits);
}

/** Whether `a by b` holds. */
export function compares(a: string, by: string, b: string): boolean {
  const sign = order(a, b);
  switch (by) {
    case '<':
      return sign < 0;
    case '<=':
      return sign <= 0;
    case '>':
      return sign > 0;
    case '>=':
      return sign >= 0;
    case '=':
      return sign === 0;
    default:
      throw new Error(`not a comparison: ${by}`);
  }
}

/** A number's range with its step. */
export interface Steps {
  readonly from: string;
  readonly to: string;
  readonly step: string;
}

/** Whether the value is one of the range's steps. */
export function isStep({ from, to, step }: Steps, value: string): boolean {
  const digits = Math.max(...[from, to, step, value].map(digitsOf));
  const [first, last, size, at] = [from, to, step, value].map((text) => scaled(text, digits)) as [
    bigint,
    bigint,
    bigint,
    bigint,
  ];
  return at >= first && at <= last && (at - first) % size === 0n;
}

const FEW = 16;

/**
 * The values of a number that a test has to try: each step where there are few, else both ends and, around each
 * threshold, the steps next to it on either side. Between two thresholds nothing that the rules say can change.
 */
export function representatives(range: Steps, thresholds: readonly string[]): readonly string[] {
  const digits = Math.max(digitsOf(range.from), digitsOf(range.to), digitsOf(range.step));
  const from = scaled(range.from, digits);
  const step = scaled(range.step, digits);
  const last = (scaled(range.to, digits) - from) / step;
  const chosen = new Set<bigint>();
  if (last < BigInt(FEW)) for (let at = 0n; at <= last; at++) chosen.add(at);
  chosen.add(0n).add(last);
  for (const threshold of thresholds) {
    const fine = Math.max(digits, digitsOf(threshold));
    const wide = 10n ** BigInt(fine - digits);
    const above = scaled(threshold, fine) - from * wide;
    const below = above / (step * wide);
    for (const at of [below - 1n, below, below + 1n, below + 2n]) if (at >= 0n && at <= last) chosen.add(at);
  }
  return [...chosen].sort((a, b) => (a < b ? -1 : 1)).map((at) => unscaled(from + at * step, digits));
}
