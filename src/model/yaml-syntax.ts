/** Turns the YAML parser's complaints into the catalogue's words, with the place where an author would look. */

import type { Document, YAMLParseError } from 'yaml';
import { isScalar, visit } from 'yaml';
import type { Diagnostics, Place } from '../diagnostics/index.ts';

type MakePlace = (from: number, to: number) => Place;

/** Reports the first mistake of a document, since the later ones mostly follow from it. True if there was one. */
export function reportSyntax(document: Document, text: string, place: MakePlace, diagnostics: Diagnostics): boolean {
  const tab = document.errors.find((error) => error.code === 'TAB_AS_INDENT');
  const error = tab ?? document.errors[0];
  if (error === undefined) return false;
  const [from, to] = error.pos;
  switch (error.code) {
    case 'TAB_AS_INDENT': {
      const lineStart = text.lastIndexOf('\n', from) + 1;
      const at = text.indexOf('\t', from === text.length || text[from] === '\t' ? from : lineStart);
      const end = at + (/^\t+/.exec(text.slice(at))?.[0].length ?? 1);
      diagnostics.report('SL106', {}, place(at, end));
      break;
    }
    case 'MISSING_CHAR':
      reportMissing(error, document, text, place, diagnostics);
      break;
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
    case 'BLOCK_IN_FLOW':
      reportKeyInValue(from, text, place, diagnostics);
      break;
    case 'BAD_SCALAR_START':
      diagnostics.report('SL112', { character: text.slice(from, from + 1) }, place(from, endOfWord(text, from)));
      break;
    case 'BAD_DQ_ESCAPE':
      diagnostics.report('SL114', { escape: text.slice(from, from + 2) }, place(from, from + 2));
      break;
    case 'BAD_INDENT':
      if (error.message.startsWith('Flow')) reportOpenBracket(error.message, from, text, place, diagnostics);
      else diagnostics.report('SL108', {}, lineFrom(text, from, place));
      break;
    default:
      diagnostics.report('SL115', {}, place(from, Math.max(to, endOfWord(text, from))));
  }
  return true;
}

function endOfWord(text: string, from: number): number {
  return from + Math.max(1, /^\S*/.exec(text.slice(from))?.[0].length ?? 1);
}

/** The words of the line that holds, or follows, an offset. */
function lineFrom(text: string, from: number, place: MakePlace): Place {
  const start =
    text[from] === '\n' || text[from] === '\r' ? from + (/^[\r\n]+/.exec(text.slice(from))?.[0].length ?? 1) : from;
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  const line = /^[^\r\n]*/.exec(text.slice(lineStart))?.[0] ?? '';
  return place(lineStart + line.length - line.trimStart().length, lineStart + line.trimEnd().length);
}

function reportMissing(
  error: YAMLParseError,
  document: Document,
  text: string,
  place: MakePlace,
  diagnostics: Diagnostics,
): void {
  const [from] = error.pos;
  if (error.message.includes('quote')) {
    let opening = from;
    visit(document, {
      Scalar(_key, node) {
        if (isScalar(node) && node.range && node.range[1] === from && /^["']/.test(text[node.range[0]] ?? ''))
          opening = node.range[0];
      },
    });
    const quote = text[opening] === "'" ? 'single' : 'double';
    const end = /^[^\r\n]*/.exec(text.slice(opening))?.[0].trimEnd().length ?? 1;
    diagnostics.report('SL107', { quote }, place(opening, opening + end));
  } else if (error.message.includes('map values')) {
    diagnostics.report('SL117', {}, lineFrom(text, Math.max(from - 1, 0), place));
  } else {
    diagnostics.report('SL115', {}, place(from, endOfWord(text, from)));
  }
}

/** `title: one: two`, or a line indented under a value that was complete. */
function reportKeyInValue(from: number, text: string, place: MakePlace, diagnostics: Diagnostics): void {
  const rest = /^[^\r\n]*/.exec(text.slice(from))?.[0] ?? '';
  const colon = /:(?=\s|$)/.exec(rest);
  if (colon !== null) {
    diagnostics.report('SL109', {}, place(from, from + rest.trimEnd().length));
    return;
  }
  const next = text.indexOf('\n', from);
  diagnostics.report('SL108', {}, lineFrom(text, next < 0 ? from : next, place));
}

function reportOpenBracket(
  message: string,
  from: number,
  text: string,
  place: MakePlace,
  diagnostics: Diagnostics,
): void {
  const [open, close] = message.includes(']') ? ['[', ']'] : ['{', '}'];
  const at = lastOpen(text.slice(0, from), open as string, close as string);
  diagnostics.report('SL113', { open: open as string, close: close as string }, place(at, at + 1));
}

/** The last opening bracket before the end of `text` that no closing one answers. */
function lastOpen(text: string, open: string, close: string): number {
  let depth = 0;
  for (let at = text.length - 1; at >= 0; at--) {
    if (text[at] === close) depth++;
    else if (text[at] === open && depth-- === 0) return at;
  }
  return Math.max(text.indexOf(open), 0);
}
