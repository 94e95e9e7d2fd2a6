/**
 * Packed comparisons as a fleet that can be compared. Definitions have only what a comparison asks of them; the rest of them
 * is empty.
 */
import {
  type Fit,
  groupFits,
  IMPOSSIBLE,
  NOT_FITTED,
  type OutcomeMeaning,
  Outcomes,
  type Space,
} from '../../compile/index.ts';
import { Diagrams, loadPacked, type Node } from '../../logic/index.ts';
import type { ComparedFleet } from './comparison.ts';
import type { PackedComparison, PackedDefinitions } from './packed-comparison.ts';
import { type ReadDefinitions, readDefinitions } from './read-definitions.ts';

/** Throws a `PackedError` where the diagrams are damaged. */
export function readComparison(packed: PackedComparison): ComparedFleet {
  const read = readDefinitions(packed);
  const outcomes = new Outcomes();
  const { diagrams, forms } = readForms(packed, read.space, outcomes);
  return comparedOf(packed, read, { diagrams, outcomes, forms }, read.fits);
}

/** The normal forms by attribute and fit, in a manager of their own. Throws a `PackedError` where they are damaged. */
export function readForms(
  packed: Pick<PackedComparison, 'meanings' | 'diagrams' | 'outcomes' | 'forms'>,
  space: Space,
  outcomes: Outcomes,
): { readonly diagrams: Diagrams; readonly forms: readonly (readonly Node[])[] } {
  const levels = new Map(packed.meanings.map(({ level }, at) => [level, at]));
  const levelOf = (level: number): number => levels.get(level) ?? -1;
  const tested = packed.diagrams.levels.map(levelOf);
  const diagrams = new Diagrams(space.variables, {
    order: [...tested, ...space.meanings.keys()].filter((level, at, all) => all.indexOf(level) === at),
  });
  const terminals = new Map<number, number>();
  for (const [terminal, meaning] of packed.outcomes) terminals.set(terminal, outcomeOf(outcomes, meaning, terminals));
  const roots = loadPacked(diagrams, packed.diagrams, levelOf).map((root) =>
    diagrams.map('read', root, (terminal) => terminals.get(terminal) ?? -1),
  );
  return { diagrams, forms: packed.forms.map((byFit) => byFit.map((root) => roots[root] as Node)) };
}

/** `grouped`: the fits that attributes have groups of. */
export function comparedOf(
  packed: PackedDefinitions,
  { items, controls, aircraft, fits, options, panels, space }: ReadDefinitions,
  { diagrams, outcomes, forms }: Pick<ComparedFleet, 'diagrams' | 'outcomes'> & { forms: readonly (readonly Node[])[] },
  grouped: readonly Fit[],
): ComparedFleet {
  const attributes = items.flatMap((item) => item.attributes.map((attribute) => ({ item, attribute })));
  const levels = new Map(packed.meanings.map(({ level }, at) => [level, at]));
  const occurring = new Map(packed.occurring.map(([level, byFit]) => [levels.get(level), byFit]));
  return {
    ...{ asOf: packed.asOf, aircraft, fits, space, diagrams, outcomes },
    fleet: { items, controls, options, panels },
    behaviours: attributes.map((each, at) => {
      const byFit = forms[at] as readonly Node[];
      return { ...each, forms: byFit, groups: groupFits(grouped, byFit, aircraft) };
    }),
    occurring: (level, fit) => occurring.get(level)?.[fit.index] ?? [],
  };
}

/** The same outcome among those of this fleet; `terminals` has those that it is made of. */
export function outcomeOf(outcomes: Outcomes, meaning: OutcomeMeaning, terminals: ReadonlyMap<number, number>): number {
  const members = (of: readonly number[]): number[] => of.map((each) => terminals.get(each) ?? -1);
  switch (meaning.kind) {
    case 'impossible':
      return IMPOSSIBLE;
    case 'not fitted':
      return NOT_FITTED;
    case 'state':
      return outcomes.ofState(meaning.state);
    case 'not stated':
      return outcomes.ofQuery(meaning.query);
    case 'either':
      return members(meaning.of).reduce((a, b) => outcomes.either(a, b));
    case 'depends':
      return outcomes.ofDepends(meaning.options, members(meaning.of));
    default:
      throw new Error(`a normal form is ${meaning.kind}`);
  }
}
