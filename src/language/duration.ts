/** Judges times: their units, that they are above zero, and that no tolerance is greater than its time. */
import type { Diagnostics, Place } from '../diagnostics/index.ts';
import { compareDecimals, multiplyDecimal } from './decimal.ts';
import type { Duration } from './expression.ts';
import type { AmountSyntax, DurationSyntax, Span } from './syntax.ts';

/** Seconds in a unit of time. */
const UNITS: ReadonlyMap<string, bigint> = new Map([
  ['s', 1n],
  ['min', 60n],
  ['h', 3600n],
]);

/** What others write for these units, in lower case. */
const SLIPS: ReadonlyMap<string, string> = new Map([
  ...['sec', 'secs', 'second', 'seconds'].map((word) => [word, 's'] as const),
  ...['m', 'mins', 'minute', 'minutes'].map((word) => [word, 'min'] as const),
  ...['hr', 'hrs', 'hour', 'hours'].map((word) => [word, 'h'] as const),
]);

/** The time in seconds; undefined when something is wrong with it, which is reported. */
export function checkDuration(
  syntax: DurationSyntax,
  diagnostics: Diagnostics,
  place: (span: Span) => Place,
): Duration | undefined {
  const { time, tolerance } = syntax;
  const seconds = inSeconds(time, diagnostics, place);
  const spread = tolerance && inSeconds(tolerance, diagnostics, place);
  if (seconds !== undefined && compareDecimals(seconds, '0') <= 0) {
    diagnostics.report('SL227', { time: written(time) }, place(time));
    return undefined;
  }
  if (seconds === undefined) return undefined;
  if (!tolerance) return { seconds, place: place(syntax) };
  if (spread === undefined) return undefined;
  if (compareDecimals(spread, '0') < 0 || compareDecimals(spread, seconds) > 0) {
    diagnostics.report('SL228', { time: written(time), tolerance: written(tolerance) }, place(tolerance));
    return undefined;
  }
  return { seconds, tolerance: spread, place: place(syntax) };
}

function inSeconds(amount: AmountSyntax, diagnostics: Diagnostics, place: (span: Span) => Place): string | undefined {
  const { number, unit } = amount;
  const factor = unit && UNITS.get(unit.text);
  if (factor !== undefined) return multiplyDecimal(number.text, factor);
  const meant =
    unit && (SLIPS.get(unit.text.toLowerCase()) ?? [...UNITS.keys()].find((each) => each === unit.text.toLowerCase()));
  diagnostics.report('SL226', { number: number.text, unit: unit?.text, meant }, place(unit ?? number));
  return undefined;
}

function written({ number, unit }: AmountSyntax): string {
  return `${number.text} ${unit?.text}`;
}
