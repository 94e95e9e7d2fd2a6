/** What an expression names. */
import type { Expression, Reference } from './expression.ts';

export interface Mention {
  readonly kind: Reference['kind'] | 'signal' | 'detector' | 'store';
  readonly id: string;
  readonly attribute?: string;
}

/** Everything that the expression names, in order of first mention, each once; signals are not followed. */
export function referencesOf(expression: Expression): Mention[] {
  return collect(expression, true);
}

/** As `referencesOf`, without what is only asked to be fitted. */
export function readsOf(expression: Expression): Mention[] {
  return collect(expression, false);
}

function collect(expression: Expression, withFitted: boolean): Mention[] {
  const found = new Map<string, Mention>();
  const add = (mention: Mention): void => {
    found.set(`${mention.kind} ${mention.id} ${mention.attribute}`, mention);
  };
  const visit = (each: Expression): void => {
    switch (each.op) {
      case 'constant':
        break;
      case 'and':
      case 'or':
        each.args.forEach(visit);
        break;
      case 'not':
        visit(each.arg);
        break;
      case 'implies':
        visit(each.premise);
        visit(each.conclusion);
        break;
      case 'among':
        add(each.of);
        break;
      case 'fitted':
        if (withFitted) add(each.of);
        break;
      case 'compare':
        add({ kind: 'condition', id: each.condition });
        break;
      case 'signal':
        add({ kind: 'signal', id: each.id });
        break;
      case 'detector':
        add({ kind: 'detector', id: each.id });
        break;
      case 'lamps':
        each.args.forEach(visit);
        break;
      case 'level':
        add({ kind: 'store', id: each.store });
        break;
    }
  };
  visit(expression);
  return [...found.values()];
}
