/** Findings: what the rules contain that never matters. They are looked for in content without errors only. */
import type { Diagnostics } from '../diagnostics/index.ts';
import { type Expression, readsOf, referencesOf } from '../language/index.ts';
import { LimitError, type Node } from '../logic/index.ts';
import type { Attribute, Fleet, Item } from '../model/index.ts';
import type { Surroundings } from './behaviour.ts';
import { expressionsOfSequence } from './cells.ts';
import type { Compiled } from './compile.ts';
import type { Behaviour } from './groups.ts';
import { reportIdlePositions } from './idle-positions.ts';
import { IMPOSSIBLE, NOT_FITTED } from './outcomes.ts';
import { reportSequenceFindings } from './sequences.ts';
import { levelOf, optionLevels } from './space.ts';
import { limitText, STAGE } from './within-limit.ts';

export function reportFindings(compiled: Compiled, diagnostics: Diagnostics): void {
  try {
    compiled.diagrams.within(STAGE, () => report(compiled, diagnostics));
  } catch (error) {
    if (!(error instanceof LimitError)) throw error;
    diagnostics.report('SL408', { stage: 'findings', limit: limitText(error) }, compiled.fleet.book.place);
  }
}

function report(compiled: Compiled, diagnostics: Diagnostics): void {
  const around: Surroundings = { ...compiled, fits: compiled.settled, diagnostics };
  reportSequenceFindings(around, compiled.families);
  for (const behaviour of compiled.behaviours) {
    // Why the rules of what never changes decide nothing is no news.
    if (!reportConstant(behaviour, around)) reportIdleRules(behaviour.item, behaviour.attribute, around);
  }
  reportEqualItems(compiled, diagnostics);
  reportIdlePositions(compiled, diagnostics);
  reportIdleOptions(compiled, diagnostics);
  reportUnreadConditions(compiled.fleet, diagnostics);
}

/** Rules that hold in no case that can happen, or, under `first`, only where an earlier one does. */
function reportIdleRules(item: Item, attribute: Attribute, around: Surroundings): void {
  // A lamp's rules are made for it, and a supply's follow from its feeders.
  if (attribute.lamp || item.kind === 'supply') return;
  const { diagrams, expressions, diagnostics } = around;
  const fitted = expressions.itemFitted(item);
  let earlier = diagrams.no;
  for (const rule of attribute.rules) {
    if (!rule.when) continue;
    const when = expressions.compile(rule.when, item.kind === 'message');
    const happens = canHappen(diagrams.and(fitted, when), around);
    const decides =
      attribute.policy === 'first' ? canHappen(diagrams.and(fitted, when, diagrams.not(earlier)), around) : happens;
    earlier = diagrams.or(earlier, when);
    if (decides) continue;
    const facts = { item: item.title, attribute: word(item, attribute), state: rule.then, earlier: happens };
    diagnostics.report('SL453', facts, rule.when.place);
  }
}

function canHappen(node: Node, { diagrams, space, fits, possible }: Surroundings): boolean {
  return fits.some((fit) => {
    const here = diagrams.restrictAll(node, optionLevels(space, fit));
    return possible[fit.index]?.allows(here) ?? false;
  });
}

/** An attribute that could be dark, or a message that could be hidden, and never is anything else. Says whether it is one. */
function reportConstant({ item, attribute, forms }: Behaviour, around: Surroundings): boolean {
  const { diagrams, outcomes, diagnostics } = around;
  const seen = new Set([...new Set(forms)].flatMap((form) => diagrams.terminals(form)));
  seen.delete(IMPOSSIBLE);
  seen.delete(NOT_FITTED);
  const [only] = seen;
  const state = only === undefined || seen.size > 1 ? undefined : outcomes.state(only);
  if (state !== 'dark' && state !== 'not-shown') return false;
  const title = attribute.states.find(({ id }) => id === state)?.title ?? state;
  diagnostics.report('SL457', { item: item.title, attribute: word(item, attribute), state: title }, attribute.place);
  return true;
}

/** Items of one kind with the same attributes that behave the same everywhere. Lamps are alike by nature. */
function reportEqualItems({ fleet, behaviours }: Compiled, diagnostics: Diagnostics): void {
  const first = new Map<string, Item>();
  const byItem = Map.groupBy(behaviours, ({ item }) => item);
  for (const item of fleet.items) {
    if (item.kind === 'supply') continue;
    const own = (byItem.get(item) ?? []).filter(({ attribute }) => !attribute.lamp);
    const key = [item.kind, ...own.map(({ attribute, forms }) => `${attribute.id}: ${forms.join(' ')}`)].join('; ');
    const other = first.get(key);
    if (other === undefined) first.set(key, item);
    else {
      const related = [{ place: other.place, label: 'the other one' }];
      diagnostics.report('SL458', { item: item.title, other: other.title, kind: item.kind }, item.place, related);
    }
  }
}

/** Options that no behaviour, no control and nothing else that is fitted or not depends on. */
function reportIdleOptions({ fleet, space, diagrams, behaviours }: Compiled, diagnostics: Diagnostics): void {
  const expressions = [
    ...fleet.controls.flatMap(({ fitted, positions }) => [
      fitted,
      ...positions.flatMap((position) => [position.fitted, ...position.legends.map(({ when }) => when)]),
    ]),
    ...fleet.items.flatMap(({ fitted, legends }) => [fitted, ...legends.map(({ when }) => when)]),
    ...fleet.sounds.map(({ fitted }) => fitted),
    ...fleet.sequences.flatMap((sequence) => [sequence.fitted, ...expressionsOfSequence(sequence)]),
  ];
  const named = new Set(expressions.flatMap((each) => (each ? referencesOf(each).map(({ id }) => id) : [])));
  const read = new Set(behaviours.flatMap(({ node }) => diagrams.support(node)));
  for (const option of fleet.options) {
    if (named.has(option.id) || read.has(levelOf(space, option.id))) continue;
    diagnostics.report('SL455', { option: option.title }, option.place);
  }
}

/** Conditions that are named under "never" or in claims at most. */
function reportUnreadConditions(fleet: Fleet, diagnostics: Diagnostics): void {
  const expressions: readonly (Expression | undefined)[] = [
    ...fleet.signals.map(({ expression }) => expression),
    ...fleet.items.flatMap(({ attributes }) => attributes.flatMap(({ rules }) => rules.map(({ when }) => when))),
    ...fleet.overrides.map(({ when }) => when),
    ...fleet.sounds.flatMap(({ triggers }) => triggers.flatMap(({ becomes, while: during }) => [becomes, during])),
    ...fleet.sequences.flatMap((sequence) => [...expressionsOfSequence(sequence)]),
  ];
  const read = new Set(expressions.flatMap((each) => (each ? readsOf(each).map(({ id }) => id) : [])));
  for (const { number } of fleet.detectors) read.add(number);
  for (const { triggers } of fleet.sounds) for (const { moves } of triggers) if (moves) read.add(moves);
  for (const condition of fleet.conditions) {
    if (!read.has(condition.id)) diagnostics.report('SL456', { condition: condition.title }, condition.place);
  }
}

function word(item: Item, attribute: Attribute): string {
  return item.attributes.length > 1 ? attribute.title : '';
}
