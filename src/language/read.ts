/** From text to a checked expression. */
import type { Diagnostics, Place, SourceFile } from '../diagnostics/index.ts';
import { type Allowed, Checker } from './check.ts';
import type { Expression, Scope } from './expression.ts';
import { parse, type SyntaxFault } from './parse.ts';
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
  const { text, file, offset } = source;
  // The end is taken from the last character, since the next one may stand on another line of the file.
  const place = ({ start, end }: Span): Place => ({
    file,
    start: offset(start),
    end: end > start ? offset(end - 1) + 1 : offset(start),
  });
  let readable = true;
  const report = (fault: SyntaxFault, span: Span): void => {
    readable = false;
    reportFault(diagnostics, fault, fault.fault === 'empty' ? place({ start: 0, end: text.length }) : place(span));
  };
  const syntax = parse(text, report, (name) => scope.get(name)?.kind === 'number');
  const expression = new Checker(scope, diagnostics, place, allow).check(syntax);
  return readable ? expression : undefined;
}

function reportFault(diagnostics: Diagnostics, fault: SyntaxFault, place: Place): void {
  switch (fault.fault) {
    case 'empty':
      diagnostics.report('SL201', {}, place);
      break;
    case 'stray':
      diagnostics.report('SL202', { found: fault.text, wanted: undefined }, place);
      break;
    case 'expected':
      diagnostics.report('SL202', { found: fault.found, wanted: fault.wanted }, place);
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
  }
}
