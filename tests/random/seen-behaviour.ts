/** What the oracle says of an attribute on a fit, case by case, over the variables that the program says it depends on. */
import type { Behaviour, Compiled } from '../../src/compile/index.ts';
import { type Case, decidingOptions, type Fit, type Oracle } from '../oracle/index.ts';
import { dependsText, type Levels, levelsOf, textOfOutcome } from './both.ts';

export interface SeenCase {
  readonly at: Levels;
  /** One of the oracle's cases that look like this. */
  readonly given: Case;
  /** As `said` writes it. */
  readonly expected: string;
}

/** By the values in the order of the levels. Only cases that can happen. */
export type SeenCases = ReadonlyMap<string, SeenCase>;

export const keyOf = (at: Levels): string => [...at.values()].join(' ');

/** The levels of an attribute that readers see on a fit, without options and the lamps of what isn't fitted. */
export function shownLevels({ space }: Compiled, { own }: Behaviour, oracle: Oracle, fit: Fit): number[] {
  return own.filter((level) => {
    const meaning = space.meanings[level];
    if (meaning?.kind === 'lamp') return oracle.isFitted(fit, meaning.item.id);
    return meaning?.kind !== 'option';
  });
}

export function seenBehaviour(
  compiled: Compiled,
  oracle: Oracle,
  { item, attribute }: Behaviour,
  levels: readonly number[],
  fit: Fit,
): SeenCases {
  // Counterparts share a variable: a case says where each of them stands.
  const shared = levels.flatMap((level) => {
    const meaning = compiled.space.meanings[level];
    return meaning?.kind === 'control' ? meaning.controls.map(({ id }) => id) : [];
  });
  const variables = [...new Set([...oracle.variables(item.id, attribute.id), ...shared])];
  const found = new Map<string, { at: Levels; given: Case; candidates: Set<string>[] }>();
  const lamps = variables.filter((name) => name.includes('.') && oracle.valuesOn(fit, name).length > 0);
  for (const given of [...oracle.cases(fit, variables)].flatMap((each) => withLamps(each, lamps))) {
    const at = levelsOf(compiled, levels, given);
    const candidates = oracle.byCandidate(fit, item.id, attribute.id, given);
    const entry = found.get(keyOf(at)) ?? { at, given, candidates: candidates.map(() => new Set<string>()) };
    found.set(keyOf(at), entry);
    for (const [index, { outcomes }] of candidates.entries())
      for (const outcome of outcomes) entry.candidates[index]?.add(textOfOutcome(outcome));
  }
  return new Map(
    [...found].map(([key, { at, given, candidates }]) => {
      const texts = candidates.map((each) => (each.size === 0 ? 'impossible' : [...each].sort().join('/')));
      if (!oracle.isFitted(fit, item.id)) return [key, { at, given, expected: 'not fitted' }];
      const fits = oracle.candidates(fit);
      const deciding = decidingOptions(texts.map((seen, index) => ({ options: fits[index]?.options ?? {}, seen })));
      const expected = deciding.length === 0 ? (texts[0] ?? '') : dependsText(deciding, texts);
      return [key, { at, given, expected }];
    }),
  );
}

/** Where it isn't known whether a light is fitted, its lamps are seen as if it were, in either state. */
function withLamps(given: Case, lamps: readonly string[]): Case[] {
  const missing = lamps.filter((lamp) => given[lamp] === undefined);
  return missing.reduce<Case[]>(
    (all, lamp) => all.flatMap((each) => ['serviceable', 'failed'].map((value) => ({ ...each, [lamp]: value }))),
    [given],
  );
}
