/**
 * The rules of one attribute of one item become its behaviour: a diagram from cases to outcomes over all fits. Gaps and
 * overlaps are judged fit by fit, on the cases that can happen there, and reported with a witness.
 */
import type { Diagnostics } from '../diagnostics/index.ts';
import { referencesOf } from '../language/index.ts';
import { type Diagrams, type Node, NodeLimitError } from '../logic/index.ts';
import type { Attribute, Fleet, Item, Rule } from '../model/index.ts';
import { effectivityText } from './effectivity.ts';
import type { Expressions } from './expressions.ts';
import type { Fit } from './fits.ts';
import { NOT_FITTED, type Outcomes } from './outcomes.ts';
import { optionLevels, type Space } from './space.ts';
import { caseTitle } from './words.ts';

/** What the judging of one rule list needs to know of its surroundings. */
export interface Surroundings {
  readonly fleet: Fleet;
  readonly space: Space;
  readonly diagrams: Diagrams;
  readonly outcomes: Outcomes;
  readonly expressions: Expressions;
  readonly fits: readonly Fit[];
  /** Parallel to `fits`: the cases that can happen. */
  readonly care: readonly Node[];
  readonly diagnostics: Diagnostics;
}

interface CompiledRule {
  readonly rule: Rule;
  readonly when: Node;
}

/**
 * Compiles one rule list. Under `any` and `unique` the rules are judged for overlaps, under every policy for gaps.
 * Where nothing holds the diagram says "not fitted"; that is only ever seen together with a reported gap.
 */
export function compileAttribute(item: Item, attribute: Attribute, around: Surroundings): Node {
  const { diagrams, outcomes, expressions } = around;
  const fitted = expressions.itemFitted(item);
  const rules = attribute.rules.flatMap((rule): CompiledRule[] =>
    rule.when ? [{ rule, when: expressions.compile(rule.when) }] : [],
  );
  const otherwise = attribute.rules.find((rule) => !rule.when);
  const covered = otherwise ? diagrams.yes : diagrams.or(...rules.map(({ when }) => when));
  reportGap(item, attribute, diagrams.and(fitted, diagrams.not(covered)), around);
  if (attribute.policy !== 'first') reportOverlaps(item, attribute, fitted, rules, around);

  const last = otherwise ? outcomes.ofState(otherwise.then) : NOT_FITTED;
  const own = rules.reduceRight(
    (rest, { rule, when }) => diagrams.ite(when, diagrams.terminal(outcomes.ofState(rule.then)), rest),
    diagrams.terminal(last),
  );
  return diagrams.ite(fitted, own, diagrams.terminal(NOT_FITTED));
}

/** As `compileAttribute`, but a table that grows beyond the limit becomes a diagnostic that names it. */
export function compileWithinLimit(item: Item, attribute: Attribute, around: Surroundings): Node {
  try {
    return compileAttribute(item, attribute, around);
  } catch (error) {
    if (!(error instanceof NodeLimitError)) throw error;
    const named = attribute.rules.flatMap(({ when }) => (when ? referencesOf(when) : []));
    const facts = {
      item: item.title,
      attribute: attributeWord(item, attribute),
      limit: error.limit,
      variables: [...new Set(named.map(({ id }) => id))].join(', '),
    };
    around.diagnostics.report('SL405', facts, attribute.place);
    return around.diagrams.terminal(NOT_FITTED);
  }
}

function reportGap(item: Item, attribute: Attribute, uncovered: Node, around: Surroundings): void {
  const found = witness(uncovered, around);
  if (!found) return;
  const facts = {
    item: item.title,
    attribute: attributeWord(item, attribute),
    case: found.words,
    aircraft: found.aircraft,
  };
  around.diagnostics.report('SL401', facts, attribute.place);
}

function reportOverlaps(
  item: Item,
  attribute: Attribute,
  fitted: Node,
  rules: readonly CompiledRule[],
  around: Surroundings,
): void {
  const { diagrams, diagnostics } = around;
  rules.forEach((second, index) => {
    for (const first of rules.slice(0, index)) {
      if (attribute.policy === 'any' && first.rule.then === second.rule.then) continue;
      const found = witness(diagrams.and(fitted, first.when, second.when), around);
      if (!found) continue;
      const facts = {
        item: item.title,
        attribute: attributeWord(item, attribute),
        case: found.words,
        aircraft: found.aircraft,
        first: stateTitle(attribute, first.rule.then),
        second: stateTitle(attribute, second.rule.then),
      };
      const related = [{ place: first.rule.place, label: 'the other rule' }];
      diagnostics.report(attribute.policy === 'any' ? 'SL402' : 'SL403', facts, second.rule.place, related);
    }
  });
}

/** The least case of a Boolean diagram that can happen on some fit, and all aircraft on which one can. */
export function witness(bad: Node, around: Surroundings): { words: string; aircraft: string } | undefined {
  const { diagrams, space, fits, care } = around;
  const support = new Set(diagrams.support(bad));
  let words: string | undefined;
  const aircraft = fits.flatMap((fit) => {
    const here = diagrams.and(diagrams.restrictAll(bad, optionLevels(space, fit)), care[fit.index] as Node);
    if (here === diagrams.no) return [];
    if (words === undefined) {
      const irrelevant = diagrams.support(here).filter((level) => !support.has(level));
      const least = diagrams.pick(diagrams.exists(here, irrelevant));
      words = caseTitle(space, least ?? new Map());
    }
    return fit.aircraft;
  });
  return words === undefined ? undefined : { words, aircraft: effectivityText(around.fleet, aircraft) };
}

function attributeWord(item: Item, attribute: Attribute): string {
  return item.attributes.length > 1 ? attribute.title : '';
}

function stateTitle(attribute: Attribute, state: string): string {
  return attribute.states.find((each) => each.id === state)?.title ?? state;
}
