/**
 * Where each character of a YAML scalar's value stands in the file. An expression is parsed as the value that YAML
 * yields (escapes resolved, lines folded); its mistakes are underlined in the text that the author wrote.
 * Rules: YAML 1.2.2, 7.3 (flow scalar styles), 8.1 (block scalar styles).
 */

export type ScalarStyle = 'plain' | 'single' | 'double' | 'literal' | 'folded';

/** A scalar in a file: `text.slice(start, end)` is all of it, with quotes or block header. */
export interface ScalarSource {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly style: ScalarStyle;
  /** Columns of the collection that holds a block scalar: what an explicit indentation indicator counts from. */
  readonly parentIndent: number;
}

/** The value as resolved here, and the file offset of each of its UTF-16 units, plus one for its end. */
export interface MappedScalar {
  readonly value: string;
  readonly offsets: readonly number[];
}

/** Maps a scalar that the YAML parser accepted; `value` equals the parser's. */
export function mapScalar(source: ScalarSource): MappedScalar {
  const { text, start, end, style } = source;
  if (style === 'literal' || style === 'folded') return mapBlock(source);
  return style === 'plain' ? mapFlow(text, start, end, style) : mapFlow(text, start + 1, end - 1, style);
}

class Output {
  value = '';
  readonly offsets: number[] = [];

  /** Appends units that all stand for the one place in the source. */
  put(units: string, at: number): void {
    this.value += units;
    for (let i = 0; i < units.length; i++) this.offsets.push(at);
  }

  /** Appends units that stand in the source one by one. */
  copy(units: string, at: number): void {
    this.value += units;
    for (let i = 0; i < units.length; i++) this.offsets.push(at + i);
  }

  finish(end: number): MappedScalar {
    return { value: this.value, offsets: [...this.offsets, Math.max(end, this.offsets.at(-1) ?? end)] };
  }
}

const BLANKS = /(?:[ \t]|\r?\n)+/y;
const ESCAPED_BREAK = /\\\r?\n[ \t]*/y;
const ESCAPES: Readonly<Record<string, string>> = {
  0: '\0',
  a: '\x07',
  b: '\b',
  e: '\x1b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
  v: '\v',
  N: '\u0085',
  _: '\u00a0',
  L: '\u2028',
  P: '\u2029',
  ' ': ' ',
  '"': '"',
  '/': '/',
  '\\': '\\',
  '\t': '\t',
};
const HEX_DIGITS: Readonly<Record<string, number>> = { x: 2, u: 4, U: 8 };

function mapFlow(text: string, start: number, end: number, style: ScalarStyle): MappedScalar {
  const out = new Output();
  let at = start;
  while (at < end) {
    const blanks = matchAt(BLANKS, text, at, end);
    const escapedBreak = style === 'double' ? matchAt(ESCAPED_BREAK, text, at, end) : '';
    if (blanks !== '') {
      putBlanks(out, blanks, at);
      at += blanks.length;
    } else if (escapedBreak !== '') {
      at += escapedBreak.length;
    } else if (style === 'double' && text[at] === '\\') {
      at += putEscape(out, text, at);
    } else {
      out.put(text[at] ?? '', at);
      at += style === 'single' && text[at] === "'" ? 2 : 1;
    }
  }
  return out.finish(end);
}

function matchAt(pattern: RegExp, text: string, at: number, end: number): string {
  pattern.lastIndex = at;
  return (pattern.exec(text)?.[0] ?? '').slice(0, end - at);
}

/** One line break folds into a space, n into n - 1 breaks; the blanks around them go. */
function putBlanks(out: Output, blanks: string, at: number): void {
  const breaks = [...blanks.matchAll(/\r?\n/g)].map((found) => at + found.index);
  const [first, ...others] = breaks;
  if (first === undefined) out.copy(blanks, at);
  else if (others.length === 0) out.put(' ', first);
  else for (const one of others) out.put('\n', one);
}

/** Returns the number of units that the escape takes in the source. */
function putEscape(out: Output, text: string, at: number): number {
  const letter = text[at + 1] ?? '';
  const digits = HEX_DIGITS[letter] ?? 0;
  if (digits === 0) out.put(ESCAPES[letter] ?? `\\${letter}`, at);
  else out.put(String.fromCodePoint(Number.parseInt(text.slice(at + 2, at + 2 + digits), 16)), at);
  return 2 + digits;
}

interface Line {
  readonly at: number;
  /** Without its line break. */
  readonly text: string;
  readonly indent: number;
  readonly empty: boolean;
  /** Where its line break stands. */
  readonly end: number;
}

function mapBlock(source: ScalarSource): MappedScalar {
  const { text, start, end, style } = source;
  const headerEnd = text.indexOf('\n', start);
  if (headerEnd < 0 || headerEnd >= end) return new Output().finish(end);
  const header = /^[|>]([-+0-9]*)/.exec(text.slice(start, headerEnd))?.[1] ?? '';
  const keep = header.includes('+');
  const strip = header.includes('-');
  const explicit = /\d/.exec(header)?.[0];
  const lines = splitLines(text, headerEnd + 1, end);
  const filled = lines.findIndex((line) => !line.empty);

  const out = new Output();
  if (filled < 0) {
    if (keep) for (const line of lines.slice(0, Math.max(1, lines.length - 1))) out.put('\n', line.end);
    return out.finish(end);
  }
  const trim = explicit === undefined ? (lines[filled]?.indent ?? 0) : source.parentIndent + Number(explicit);
  const isKept = (line: Line): boolean => !line.empty || line.indent > trim;
  const last = lines.findLastIndex(isKept);
  for (const line of lines.slice(0, filled)) {
    out.copy(line.text.slice(trim), line.at + trim);
    out.put('\n', line.end);
  }
  const body = lines.slice(filled, last + 1);
  if (style === 'literal') putLiteral(out, body, trim);
  else putFolded(out, body, trim);

  const lastLine = lines[last] as Line;
  if (keep) {
    for (let i = last + 1; i < lines.length; i++) {
      out.put('\n', (lines[i - 1] as Line).end);
      out.copy((lines[i] as Line).text.slice(trim), (lines[i] as Line).at + trim);
    }
    if (!out.value.endsWith('\n')) out.put('\n', lastLine.end);
  } else if (!strip) {
    out.put('\n', lastLine.end);
  }
  return out.finish(lastLine.end);
}

function splitLines(text: string, start: number, end: number): Line[] {
  const lines: Line[] = [];
  let at = start;
  for (const raw of text.slice(start, end).split('\n')) {
    const content = raw.endsWith('\r') ? raw.slice(0, -1) : raw;
    const indent = /^ */.exec(content)?.[0].length ?? 0;
    lines.push({ at, text: content, indent, empty: indent === content.length, end: at + content.length });
    at += raw.length + 1;
  }
  return lines;
}

function putLiteral(out: Output, lines: readonly Line[], trim: number): void {
  lines.forEach((line, index) => {
    if (index > 0) out.put('\n', (lines[index - 1] as Line).end);
    out.copy(line.text.slice(trim), line.at + trim);
  });
}

/** Lines of text join with a space; empty lines stand for breaks; more-indented lines keep theirs. */
function putFolded(out: Output, lines: readonly Line[], trim: number): void {
  let separator = '';
  let afterIndented = false;
  lines.forEach((line, index) => {
    const before = index === 0 ? line.at : (lines[index - 1] as Line).end;
    const indented = line.indent > trim || (line.indent <= trim && line.text[line.indent] === '\t');
    if (indented) {
      if (separator === ' ') separator = '\n';
      else if (!afterIndented && separator === '\n') separator = '\n\n';
      out.put(separator, before);
      out.copy(line.text.slice(trim), line.at + trim);
      separator = '\n';
      afterIndented = true;
    } else if (line.empty) {
      if (separator === '\n') out.put('\n', before);
      else separator = '\n';
    } else {
      out.put(separator, before);
      out.copy(line.text.slice(trim), line.at + trim);
      separator = ' ';
      afterIndented = false;
    }
  });
}
