/**
 * The rules of one attribute of one item become its behaviour: a diagram from cases to outcomes over all fits. Gaps and
 * overlaps are judged fit by fit, on the cases that can happen there, and reported with a witness.
 */
import type { Diagnostics } from '../diagnostics/index.ts';
import type { Diagrams, Node } from '../logic/index.ts';
import { type Attribute, type Fleet, type Item, overridesOf, type Rule } from '../model/index.ts';
import { effectivityText } from './effectivity.ts';
import type { Expressions } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import { NOT_FITTED, type Outcomes } from './outcomes.ts';
import { underOverrides } from './overrides.ts';
import { plainest } from './plainest.ts';
import type { Possible } from './possible.ts';
import { optionLevels, type Space } from './space.ts';
import { withinLimit } from './within-limit.ts';
import { caseTitle } from './words.ts';

/** What the judging of one rule list needs to know of its surroundings. */
export interface Surroundings {
  readonly fleet: Fleet;
  readonly space: Space;
  readonly diagrams: Diagrams;
  readonly outcomes: Outcomes;
  readonly expressions: Expressions;
  /** Every way to settle the fits of the fleet: what holds for an aircraft must hold for each that it may be. */
  readonly fits: readonly SettledFit[];
  /** Parallel to `fits`: the cases that can happen. */
  readonly possible: readonly Possible[];
  /** The same without what is known of modes. */
  readonly inputs: readonly Possible[];
  readonly diagnostics: Diagnostics;
}

interface CompiledRule {
  readonly rule: Rule;
  readonly when: Node;
  readonly outcome: number;
}

/**
 * Compiles one rule list with the overrides above it; `quietly` without the quiet ones. Where nothing holds the diagram says
 * "not fitted"; that is only ever seen together with a gap, which `judgeRules` reports.
 */
export function compileAttribute(item: Item, attribute: Attribute, quietly: boolean, around: Surroundings): Node {
  const { diagrams, expressions } = around;
  const own = ownRules(item, attribute, quietly, around);
  const whole = underOverrides(own.node, item, attribute, quietly, around);
  return diagrams.ite(expressions.itemFitted(item), whole, diagrams.terminal(NOT_FITTED));
}

/** Under `any` and `unique` the rules are judged for overlaps, under every policy for gaps; and those that hold in every case. */
export function judgeRules(item: Item, attribute: Attribute, around: Surroundings): void {
  const { diagrams, expressions } = around;
  const fitted = expressions.itemFitted(item);
  const { rules, covered } = ownRules(item, attribute, item.kind === 'message', around);
  reportGap(item, attribute, diagrams.and(fitted, diagrams.not(covered)), around);
  if (attribute.policy !== 'first') reportOverlaps(item, attribute, fitted, rules, around);
  reportBroken(item, attribute, fitted, rules, around);
}

function ownRules(
  item: Item,
  attribute: Attribute,
  quietly: boolean,
  { diagrams, outcomes, expressions }: Surroundings,
): { readonly rules: readonly CompiledRule[]; readonly covered: Node; readonly node: Node } {
  const outcomeOf = ({ then, query }: Rule): number =>
    query === undefined ? outcomes.ofState(then) : outcomes.ofQuery(query);
  const reads = quietly || item.kind === 'message';
  const rules = attribute.rules.flatMap((rule): CompiledRule[] =>
    rule.when ? [{ rule, when: expressions.compile(rule.when, reads), outcome: outcomeOf(rule) }] : [],
  );
  const otherwise = attribute.rules.find((rule) => !rule.when);
  const node = rules.reduceRight(
    (rest, { when, outcome }) => diagrams.ite(when, diagrams.terminal(outcome), rest),
    diagrams.terminal(otherwise ? outcomeOf(otherwise) : NOT_FITTED),
  );
  const covered = otherwise ? diagrams.yes : diagrams.or(...rules.map(({ when }) => when));
  return { rules, covered, node };
}

/** As `compileAttribute`, but rules that grow beyond their limit become a diagnostic that names them. */
export function compileWithinLimit(item: Item, attribute: Attribute, quietly: boolean, around: Surroundings): Node {
  const compiled = withinLimit(item, attribute, around, () => compileAttribute(item, attribute, quietly, around));
  return compiled ?? around.diagrams.terminal(NOT_FITTED);
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
      if (attribute.policy === 'any' && first.outcome === second.outcome) continue;
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

/** A rule that holds in every case, and the override that breaks it: a finding, unless a query asks about it. */
function reportBroken(
  item: Item,
  attribute: Attribute,
  fitted: Node,
  rules: readonly CompiledRule[],
  around: Surroundings,
): void {
  const { diagrams, outcomes, expressions, diagnostics } = around;
  let above = diagrams.no;
  for (const override of overridesOf(around.fleet.overrides, item, attribute)) {
    const when = diagrams.and(expressions.compile(override.when), diagrams.not(above));
    above = diagrams.or(above, when);
    for (const { rule, when: premise, outcome } of rules) {
      if (!rule.inEveryCase || outcome === outcomes.ofState(override.then) || override.query !== undefined) continue;
      const found = witness(diagrams.and(fitted, premise, when), around);
      if (!found) continue;
      const facts = {
        item: item.title,
        attribute: attributeWord(item, attribute),
        override: override.title,
        ruled: stateTitle(attribute, rule.then),
        overridden: stateTitle(attribute, override.then),
        case: found.words,
        aircraft: found.aircraft,
      };
      diagnostics.report('SL410', facts, rule.place, [{ place: override.place, label: 'the override' }]);
    }
  }
}

/** The plainest case of a Boolean diagram that can happen on some fit, and all aircraft on which one can. */
export function witness(bad: Node, around: Surroundings): { words: string; aircraft: string } | undefined {
  const { diagrams, space, fits } = around;
  let words: string | undefined;
  const aircraft = fits.flatMap((fit) => {
    const here = diagrams.restrictAll(bad, optionLevels(space, fit));
    const possible = (around.possible[fit.index] as Possible).about(diagrams.support(here));
    if (diagrams.and(here, possible) === diagrams.no) return [];
    words ??= caseTitle(space, plainest(diagrams, space, here, possible), [fit]);
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
