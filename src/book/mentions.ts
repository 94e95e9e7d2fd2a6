/** Who is named by expressions. */
import { type Expression, type Mention, referencesOf } from '../language/index.ts';
import type { Fleet, Signal } from '../model/index.ts';

/** The signals that an expression names, and those that they name, each once, in order of first mention. */
export function signalsIn(fleet: Fleet, expressions: readonly Expression[]): Signal[] {
  const found = new Set<Signal>();
  const visit = (expression: Expression): void => {
    for (const { kind, id } of referencesOf(expression)) {
      const signal = kind === 'signal' ? fleet.signals.find((each) => each.id === id) : undefined;
      if (!signal || found.has(signal)) continue;
      found.add(signal);
      visit(signal.expression);
    }
  };
  expressions.forEach(visit);
  return [...found];
}

/** Everything that expressions name, through signals too, each once. */
export function namedIn(fleet: Fleet, expressions: readonly Expression[]): Mention[] {
  const signals = signalsIn(fleet, expressions).map(({ expression }) => expression);
  const mentions = [...expressions, ...signals].flatMap(referencesOf);
  return [...new Map(mentions.map((each) => [`${each.kind} ${each.id}`, each])).values()];
}
