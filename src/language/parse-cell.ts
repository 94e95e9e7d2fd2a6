/** Reads cells of decision tables: what follows a name, without "is" and "in". */
import { Cursor, type ReportFault } from './cursor.ts';
import type { Name, Syntax, Word } from './syntax.ts';
import { isReservedWord, isValue } from './words.ts';

/**
 * What a cell says of the name that its column has: `ON`, `not ON`, `ON, AUTO`, `> 240 kt`. The name is taken to stand where
 * the cell stands, so that what is wrong between the two is reported there.
 */
export function parseCell(name: readonly [text: string, part?: string], text: string, report: ReportFault): Syntax {
  const cursor = new Cursor(text, report);
  const start = text.length - text.trimStart().length;
  const span = { start, end: Math.max(start, text.trimEnd().length) };
  const [id, part] = name;
  const column: Name = { text: id, ...span, ...(part === undefined ? {} : { part: { text: part, ...span } }) };
  const first = cursor.token;
  if (first.kind === 'end') return cursor.fail({ fault: 'empty' }, first);
  const syntax = first.kind === 'operator' ? comparison(cursor, column) : list(cursor, column);
  if (syntax.op === 'unreadable' || cursor.token.kind === 'end') return { ...syntax, ...span };
  return cursor.unexpected(syntax.op === 'is' ? '"," or the end' : 'the end');
}

function comparison(cursor: Cursor, name: Name): Syntax {
  const by = cursor.next();
  const number = cursor.token;
  if (!isValue(number)) return cursor.unexpected(`a number after "${by.text}"`);
  cursor.next();
  const hasUnit = number.kind === 'number' && cursor.token.kind === 'word' && !isReservedWord(cursor.token.text);
  const unit = hasUnit ? cursor.next() : undefined;
  return { op: 'compare', name, by, number, ...(unit ? { unit } : {}), start: name.start, end: name.end };
}

function list(cursor: Cursor, name: Name): Syntax {
  const negated = cursor.take('not') !== undefined;
  const values: Word[] = [];
  do {
    if (!isValue(cursor.token)) return cursor.unexpected('a value');
    values.push(cursor.next());
  } while (cursor.take(','));
  return { op: 'is', name, values, negated, start: name.start, end: name.end };
}
