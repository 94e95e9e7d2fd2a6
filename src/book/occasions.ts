/**
 * When something is in a state, in the fewest words that say it exactly: "with an APU fire", "in the air with the slats
 * out". What would take too many words is said of normal cases alone, or as the author's rules say it.
 */
import { type Compiled, type Fit, type Group, IMPOSSIBLE, isHidden, NOT_FITTED, partForm } from '../compile/index.ts';
import type { Expression } from '../language/index.ts';
import { minimalCover, type Node } from '../logic/index.ts';
import type { Attribute, Item } from '../model/index.ts';
import type { Inline } from './book.ts';
import type { OccasionView } from './book-reference.ts';
import { stateView } from './cells.ts';
import { expressionWords } from './expression-words.ts';
import { settledOf } from './fits.ts';
import { cubeWords } from './phrases.ts';
import { coversOf, type OutcomeCover } from './sentences.ts';
import { meaningAt } from './tables.ts';

/** More alternatives than these are looked up in a table. */
export const MOST_ALTERNATIVES = 5;
/** Nor is an alternative read at a glance that has more facts than these. */
const MOST_FACTS = 5;

/** An occasion with the ids of the states that it may be; none where nobody knows. */
export interface Occasion extends OccasionView {
  readonly states: readonly string[];
}

/**
 * The occasions of each outcome that some case has, states in the author's order and what is no single state after them;
 * `except` is left out. `rules` are the author's own, for outcomes that would take too many words.
 */
export function occasionsOf(
  compiled: Compiled,
  attribute: Attribute,
  { form, fits }: Pick<Group, 'form' | 'fits'>,
  except?: string,
): Occasion[] {
  const { outcomes, diagrams, space, fleet } = compiled;
  const on = settledOf(fits);
  const say = ({ columns, cubes }: OutcomeCover): Inline[][] =>
    cubes.map((cube) => cubeWords(compiled, columns, cube, on));
  const normal = partForm(diagrams, space, form, 'normal');
  const inNormal = normal === undefined ? [] : coversOf(compiled, normal);
  const rank = (outcome: number): number => {
    const at = attribute.states.findIndex(({ id }) => id === outcomes.state(outcome));
    return at === -1 ? attribute.states.length : at;
  };
  return coversOf(compiled, form)
    .filter(({ outcome }) => ![NOT_FITTED, IMPOSSIBLE].includes(outcome))
    .filter(({ outcome }) => except === undefined || outcomes.state(outcome) !== except)
    .toSorted((a, b) => rank(a.outcome) - rank(b.outcome))
    .map((whole): Occasion => {
      const state = stateView(compiled, attribute, whole.outcome);
      const states = outcomes.statesIn(whole.outcome);
      if (isShort(whole)) return { state, states, alternatives: say(whole), of: 'all cases', more: false };
      const usual = inNormal.find(({ outcome }) => outcome === whole.outcome);
      if (usual && isShort(usual)) return { state, states, alternatives: say(usual), of: 'normal cases', more: true };
      const rules = rulesFor(attribute, outcomes.state(whole.outcome));
      if (rules.length > 0) {
        const alternatives = rules.map((when) => expressionWords(fleet, when));
        return { state, states, alternatives, of: 'rules', more: false };
      }
      const some = usual ?? whole;
      const first = { ...some, cubes: some.cubes.slice(0, MOST_ALTERNATIVES) };
      return { state, states, alternatives: say(first), of: usual ? 'normal cases' : 'all cases', more: true };
    });
}

/** When an expression holds, on any of some fits. */
export function occasionOf(
  compiled: Compiled,
  expression: Expression,
  fits: readonly Fit[],
): Omit<OccasionView, 'state'> {
  const { diagrams, fleet, expressions } = compiled;
  const node = expressions.compile(expression);
  const columns = diagrams.support(node);
  const asWritten = { alternatives: [expressionWords(fleet, expression)], of: 'rules', more: false } as const;
  // Answers of detectors and of what is not stated have no words of their own.
  if (columns.some((level) => isHidden(meaningAt(compiled, level)))) return asWritten;
  const { cubes } = minimalCover(diagrams, columns, node, diagrams.not(node));
  if (cubes.length > MOST_ALTERNATIVES) return asWritten;
  const alternatives = cubes.map((cube) => cubeWords(compiled, columns, cube, settledOf(fits)));
  return { alternatives, of: 'all cases', more: false };
}

/** An attribute as messages, sounds and sequences see it: without the quiet overrides, such as a lamp check. */
export function quietNode({ diagrams, outcomes, expressions }: Compiled, item: Item, attribute: Attribute): Node {
  const { place } = attribute;
  const within = (state: string): Node => {
    const of = { kind: 'item', id: item.id, attribute: attribute.id } as const;
    return expressions.compile({ op: 'among', of, values: [state], place }, true);
  };
  const node = attribute.states.reduceRight(
    (rest, { id }) => diagrams.ite(within(id), diagrams.terminal(outcomes.ofState(id)), rest),
    diagrams.terminal(NOT_FITTED),
  );
  return diagrams.ite(expressions.itemFitted(item), node, diagrams.terminal(NOT_FITTED));
}

/** The premises of the rules that lead to a state, where each of them is enough by itself; none where it may not be. */
function rulesFor({ rules, policy }: Attribute, state: string | undefined): Expression[] {
  const leading = rules.filter(({ then, query }) => then === state && query === undefined);
  const premises = leading.flatMap(({ when }) => when ?? []);
  return policy !== 'first' && premises.length === leading.length ? premises : [];
}

function isShort({ cubes }: OutcomeCover): boolean {
  const facts = cubes.map((cube) => cube.filter((values) => values !== undefined).length);
  return cubes.length <= MOST_ALTERNATIVES && facts.every((count) => count <= MOST_FACTS);
}
