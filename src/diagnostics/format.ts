/** Diagnostics as text for a terminal, and as JSON for programs. */
import { type Catalogue, type Code, catalogue } from './catalogue.ts';
import type { Entry } from './define.ts';
import type { Diagnostic, Place, Severity } from './diagnostic.ts';
import { frame, printable } from './frame.ts';
import { LineIndex } from './line-index.ts';
import { list } from './list.ts';

export interface FormatOptions {
  /** Terminal colours. Every word and mark is there without them. */
  readonly colour?: boolean;
}

/** A diagnostic with everything said, as programs read it. Lines and columns are 1-based, columns in code points. */
export interface JsonDiagnostic {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  readonly message: string;
  readonly hint: string;
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  readonly endLine?: number;
  readonly endColumn?: number;
  readonly related: readonly {
    readonly label: string;
    readonly file: string;
    readonly line: number;
    readonly column: number;
  }[];
}

export function severityOf(diagnostic: Diagnostic): Severity {
  return entryOf(diagnostic.code).severity;
}

/**
 * One diagnostic: headline, place, source line with the words underlined, what is wrong, what to do. `also` are further
 * places of the very same mistake.
 */
export function formatText(
  diagnostic: Diagnostic,
  { colour = false }: FormatOptions = {},
  also: readonly Place[] = [],
): string {
  const { title, severity, message, hint } = entryOf(diagnostic.code);
  const { place, related = [] } = diagnostic;
  const paint = (words: string, sequence: string): string => (colour ? `\u001b[${sequence}m${words}\u001b[0m` : words);
  const headline = `${diagnostic.code} ${severity}: ${title}`;
  const indent = (lines: readonly string[]): string[] => lines.map((line) => `  ${line}`.trimEnd());
  return [
    paint(headline, severity === 'error' ? '1;31' : '1;33'),
    ...(place ? indent([where(place), ...frame(place)]) : []),
    ...indent([printable(message(diagnostic.facts))]),
    ...related.flatMap((each) => indent([`${each.label}: ${where(each.place)}`, ...frame(each.place)])),
    ...(also.length > 0 ? indent([`The same at ${list(also.map(where), 'and')}.`]) : []),
    ...indent([paint(`What to do: ${printable(hint(diagnostic.facts))}`, '2')]),
  ].join('\n');
}

/**
 * All diagnostics of a run in order of place, with a blank line between them and a count at the end. A mistake that stands
 * in several places, as after a value was renamed, is told once, with all of its places.
 */
export function formatAll(diagnostics: readonly Diagnostic[], options: FormatOptions = {}): string {
  const ordered = inOrder(diagnostics);
  const told = Map.groupBy(ordered, (each) =>
    JSON.stringify([
      each.code,
      entryOf(each.code).message(each.facts),
      relatedTo(each),
      each.place ? each.place.file.path : ordered.indexOf(each),
    ]),
  );
  const texts = [...told.values()].map(([first, ...others]) => {
    if (!first) throw new Error('an empty group');
    return formatText(
      first,
      options,
      others.flatMap(({ place }) => place ?? []),
    );
  });
  return [...texts, summary(ordered)].join('\n\n');
}

/** "2 errors, 1 warning". */
export function summary(diagnostics: readonly Diagnostic[]): string {
  const count = (severity: Severity): number => diagnostics.filter((each) => severityOf(each) === severity).length;
  const say = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;
  return `${say(count('error'), 'error')}, ${say(count('warning'), 'warning')}`;
}

/** By file, then place, then code, then message, whatever order they were reported in; those without a file come first. Repeated ones are given once. */
export function inOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const seen = new Set<string>();
  return diagnostics
    .map((diagnostic) => ({ diagnostic, key: keyOf(diagnostic) }))
    .sort((a, b) => compareKeys(a.key, b.key))
    .filter(({ key }) => {
      const said = JSON.stringify(key.slice(0, -1));
      return !seen.has(said) && seen.add(said);
    })
    .map(({ diagnostic }) => diagnostic);
}

export function toJson(diagnostics: readonly Diagnostic[]): JsonDiagnostic[] {
  return inOrder(diagnostics).map((diagnostic) => {
    const { title, severity, message, hint } = entryOf(diagnostic.code);
    const { facts, place, related = [] } = diagnostic;
    return {
      code: diagnostic.code,
      severity,
      title,
      message: message(facts),
      hint: hint(facts),
      ...(place ? positions(place) : {}),
      related: related.map(({ label, place: other }) => {
        const { line, column } = new LineIndex(other.file.text).position(other.start);
        return { label, file: other.file.path, line, column };
      }),
    };
  });
}

/** The long text on a code; undefined when there is no such code. */
export function explain(code: string): string | undefined {
  if (!Object.hasOwn(catalogue, code)) return undefined;
  const { severity, title, explanation, retired } = entryOf(code as Code);
  return [`${code} ${severity}: ${title}`, ...(retired ? ['No longer reported.'] : []), explanation].join('\n\n');
}

/** The facts of a diagnostic fit the entry of its code; that is checked where it is reported. */
function entryOf(code: Code): Entry<unknown> {
  return catalogue[code] as Entry<unknown> & Catalogue[Code];
}

function where(place: Place): string {
  const { line, column } = new LineIndex(place.file.text).position(place.start);
  return `${place.file.path}:${line}:${column}`;
}

function positions({
  file,
  start,
  end,
}: Place): Pick<JsonDiagnostic, 'file' | 'line' | 'column' | 'endLine' | 'endColumn'> {
  const index = new LineIndex(file.text);
  const from = index.position(start);
  const to = index.position(end);
  return { file: file.path, line: from.line, column: from.column, endLine: to.line, endColumn: to.column };
}

type Key = readonly (string | number)[];

/** Where it is and what it says. Where it ends comes last, since it makes no other mistake of it. */
function keyOf(diagnostic: Diagnostic): Key {
  const { code, facts, place } = diagnostic;
  const said = [code, entryOf(code).message(facts), entryOf(code).hint(facts), relatedTo(diagnostic)];
  return [place?.file.path ?? '', place?.start ?? 0, ...said, place?.end ?? 0];
}

function relatedTo({ related = [] }: Diagnostic): string {
  return related.map(({ label, place }) => `${label}: ${place.file.path} ${place.start}`).join('\n');
}

/** The keys are alike in shape: the same part is a number in both, or a text. */
function compareKeys(a: Key, b: Key): number {
  const at = a.findIndex((part, index) => part !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) < (b[at] ?? 0) ? -1 : 1;
}
