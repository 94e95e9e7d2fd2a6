/** Which reads of a control, item or sequence would be asked on an aircraft that lacks it. */
import type { Place } from '../diagnostics/index.ts';
import type { Expression, Reference } from './expression.ts';

/** What is known of one fit. */
export interface FitFacts {
  /** The value of an option. */
  option(id: string): string;
  fitted(reference: Reference, position?: string): boolean;
  signal(id: string): Expression | undefined;
}

export interface UnguardedRead {
  readonly reference: Reference;
  readonly place: Place;
}

/** What is left of an expression on the fit: decided, or open with the unguarded reads that its value hangs on. */
type Left = boolean | readonly UnguardedRead[];

/**
 * The reads of unfitted controls, items, lamps and sequences that no `fitted(...)` or option makes irrelevant on this
 * fit. Options and `fitted` are decided, everything else is open; a joint that is decided by one operand drops the others.
 * A problem inside a signal is reported where the signal is used.
 */
export function unguardedReads(expression: Expression, fit: FitFacts): readonly UnguardedRead[] {
  const left = reduce(expression, fit);
  return typeof left === 'boolean' ? [] : left;
}

function reduce(expression: Expression, fit: FitFacts): Left {
  switch (expression.op) {
    case 'constant':
      return expression.value;
    case 'fitted':
      return fit.fitted(expression.of, expression.position);
    case 'compare':
    case 'level':
    case 'detector':
      return [];
    case 'lamps': {
      // All lamps are fitted together with their light, so that one of them tells of all.
      const [first] = expression.args;
      return first ? reduce(first, fit) : [];
    }
    case 'among': {
      const { of, values, place } = expression;
      if (of.kind === 'option') return values.includes(fit.option(of.id));
      if (of.kind === 'condition' || fit.fitted(of)) return [];
      return [{ reference: of, place }];
    }
    case 'signal': {
      const named = fit.signal(expression.id);
      const left = named ? reduce(named, fit) : [];
      return typeof left === 'boolean' ? left : left.map(({ reference }) => ({ reference, place: expression.place }));
    }
    case 'not': {
      const left = reduce(expression.arg, fit);
      return typeof left === 'boolean' ? !left : left;
    }
    case 'and':
      return join(
        expression.args.map((arg) => reduce(arg, fit)),
        false,
      );
    case 'or':
      return join(
        expression.args.map((arg) => reduce(arg, fit)),
        true,
      );
    case 'implies': {
      const premise = reduce(expression.premise, fit);
      return join([typeof premise === 'boolean' ? !premise : premise, reduce(expression.conclusion, fit)], true);
    }
  }
}

/** `decides` is the value that settles the joint by itself: false for `and`, true for `or`. */
function join(parts: readonly Left[], decides: boolean): Left {
  if (parts.includes(decides)) return decides;
  const open = parts.filter((part) => typeof part !== 'boolean');
  return open.length === 0 ? !decides : open.flat();
}
