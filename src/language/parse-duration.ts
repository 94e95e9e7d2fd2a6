/** Reads times as they are written: `5 s`, `60 s +/- 5 s`. */
import { Cursor, type ReportFault } from './cursor.ts';
import type { AmountSyntax, DurationSyntax } from './syntax.ts';
import { isReservedWord } from './words.ts';

/** A text that is a time and nothing else; undefined when it cannot be read, which has been reported. */
export function parseWholeDuration(text: string, report: ReportFault): DurationSyntax | undefined {
  const cursor = new Cursor(text, report, true);
  const duration = parseDuration(cursor);
  if (!duration || cursor.token.kind === 'end') return duration;
  cursor.unexpected(duration.tolerance ? 'the end' : '"+/-" or the end');
  return undefined;
}

/** The time that begins at the token; undefined when it cannot be read, which has been reported. */
export function parseDuration(cursor: Cursor): DurationSyntax | undefined {
  const time = parseAmount(cursor, 'a time, such as 5 s,');
  if (!time) return undefined;
  if (!cursor.take('+/-')) return { time, start: time.start, end: time.end };
  const tolerance = parseAmount(cursor, 'a time after "+/-"');
  return tolerance && { time, tolerance, start: time.start, end: tolerance.end };
}

function parseAmount(cursor: Cursor, wanted: string): AmountSyntax | undefined {
  const number = cursor.token;
  if (number.kind !== 'number') {
    cursor.unexpected(wanted);
    return undefined;
  }
  cursor.next();
  const unit = cursor.token;
  if (unit.kind !== 'word' || isReservedWord(unit.text)) return { number, start: number.start, end: number.end };
  cursor.next();
  return { number, unit, start: number.start, end: unit.end };
}
