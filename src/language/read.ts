/** From text to a checked expression. */
import type { Diagnostics, Facts, Place, SourceFile } from '../diagnostics/index.ts';
import { type Allowed, Checker } from './check.ts';
import type { ReportFault, SyntaxFault } from './cursor.ts';
import { checkDuration } from './duration.ts';
import type { Duration, Expression, Guard, Scope } from './expression.ts';
import { parse, parseGuard } from './parse.ts';
import { parseCell } from './parse-cell.ts';
import { parseWholeDuration } from './parse-duration.ts';
import type { Span } from './syntax.ts';

/** An expression's text and where each of its characters stands in the file. */
export interface ExpressionSource {
  readonly text: string;
  readonly file: SourceFile;
  /** The offset in the file of the i-th character of `text`; also valid for i = text.length. */
  readonly offset: (index: number) => number;
}

/**
 * Parses and checks an expression. Every mistake in it is reported; the result is undefined if there was one.
 *
 * @param allow which kinds of names may be read, where not all may.
 */
export function readExpression(
  source: ExpressionSource,
  scope: Scope,
  diagnostics: Diagnostics,
  allow?: Allowed,
): Expression | undefined {
  const reading = new Reading(source, diagnostics);
  const syntax = parse(source.text, reading.report, isNumberIn(scope));
  const expression = new Checker(scope, diagnostics, reading.place, allow, 'expression').check(syntax);
  return reading.faulty ? undefined : expression;
}

/**
 * As `readExpression`, of what a transition waits for: the expression may read stores, and "for" with a time may follow it,
 * which is then about the whole expression.
 */
export function readGuard(
  source: ExpressionSource,
  scope: Scope,
  diagnostics: Diagnostics,
  allow?: Allowed,
): Guard | undefined {
  const reading = new Reading(source, diagnostics);
  const syntax = parseGuard(source.text, reading.report, isNumberIn(scope));
  const when = new Checker(scope, diagnostics, reading.place, allow, 'guard').check(syntax.when);
  const holds = syntax.holds && checkDuration(syntax.holds, diagnostics, reading.place);
  if (reading.faulty || !when || (syntax.holds && !holds)) return undefined;
  return { when, ...(holds ? { holds } : {}) };
}

/** Reads a time in `s`, `min` or `h`, with a tolerance or without. Mistakes are reported; the result is then undefined. */
export function readDuration(source: ExpressionSource, diagnostics: Diagnostics): Duration | undefined {
  const reading = new Reading(source, diagnostics, 'time');
  const syntax = parseWholeDuration(source.text, reading.report);
  return syntax && checkDuration(syntax, diagnostics, reading.place);
}

/**
 * Reads a cell of a decision table: `ON`, `not ON`, `ON, AUTO`, `not ON, AUTO`, `> 240 kt`, and of signals and detectors `yes`
 * or `no`. All places lie in the cell. Mistakes are reported; the result is then undefined.
 *
 * @param name what the column reads: a name in the scope, or one with an attribute behind a dot.
 */
export function readCell(
  name: string,
  source: ExpressionSource,
  scope: Scope,
  diagnostics: Diagnostics,
  allow?: Allowed,
): Expression | undefined {
  const reading = new Reading(source, diagnostics, 'cell');
  const dot = name.indexOf('.');
  const column = dot < 0 ? ([name] as const) : ([name.slice(0, dot), name.slice(dot + 1)] as const);
  const syntax = parseCell(column, source.text, reading.report);
  const checker = new Checker(scope, diagnostics, reading.place, allow, 'cell');
  const kind = scope.get(column[0])?.kind;
  const bare = kind === 'signal' || kind === 'detector';
  const expression = bare && syntax.op === 'is' ? checker.checkAnswer(syntax) : checker.check(syntax);
  return reading.faulty ? undefined : expression;
}

function isNumberIn(scope: Scope): (name: string) => boolean {
  return (name) => {
    const kind = scope.get(name)?.kind;
    return kind === 'number' || kind === 'store';
  };
}

type Form = Facts<'SL202'>['form'];

/** Where the parts of one text stand, and whether it is wrong as it is written. */
class Reading {
  faulty = false;
  readonly place: (span: Span) => Place;
  readonly report: ReportFault;

  constructor({ text, file, offset }: ExpressionSource, diagnostics: Diagnostics, form: Form = 'expression') {
    // The end is taken from the last character, since the next one may stand on another line of the file.
    this.place = ({ start, end }) => ({
      file,
      start: offset(start),
      end: end > start ? offset(end - 1) + 1 : offset(start),
    });
    this.report = (fault, span) => {
      this.faulty = true;
      const whole = fault.fault === 'empty' ? { start: 0, end: text.length } : span;
      reportFault(diagnostics, fault, form, this.place(whole));
    };
  }
}

function reportFault(diagnostics: Diagnostics, fault: SyntaxFault, form: Form, place: Place): void {
  switch (fault.fault) {
    case 'empty':
      diagnostics.report('SL201', {}, place);
      break;
    case 'stray':
      diagnostics.report('SL202', { form, found: fault.text, wanted: undefined }, place);
      break;
    case 'expected':
      diagnostics.report('SL202', { form, found: fault.found, wanted: fault.wanted }, place);
      break;
    case 'bracket':
      diagnostics.report('SL203', {}, place);
      break;
    case 'mixed':
      diagnostics.report('SL219', {}, place);
      break;
    case 'implies twice':
      diagnostics.report('SL220', {}, place);
      break;
    case 'for':
      diagnostics.report('SL221', { guard: fault.guard }, place);
      break;
    case 'blank':
      diagnostics.report('SL229', { meant: fault.meant }, place);
      break;
    case 'deep':
      diagnostics.report('SL231', { most: fault.most }, place);
      break;
  }
}
