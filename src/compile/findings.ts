/** Findings: what the rules contain that never matters. They are looked for in content without errors only. */
import type { Diagnostics } from '../diagnostics/index.ts';
import { type Expression, readsOf, referencesOf } from '../language/index.ts';
import type { Node } from '../logic/index.ts';
import type { Attribute, Control, Fleet, Item } from '../model/index.ts';
import type { Surroundings } from './behaviour.ts';
import { expressionsOfSequence } from './cells.ts';
import type { Compiled } from './compile.ts';
import { effectivityText } from './effectivity.ts';
import { positionsOn } from './expressions.ts';
import type { SettledFit } from './fits.ts';
import type { Behaviour } from './groups.ts';
import { IMPOSSIBLE, NOT_FITTED } from './outcomes.ts';
import { reportSequenceFindings } from './sequences.ts';
import { controlMeaning, levelOf, optionLevels, valueOfPosition } from './space.ts';

export function reportFindings(compiled: Compiled, diagnostics: Diagnostics): void {
  const around: Surroundings = { ...compiled, fits: compiled.settled, diagnostics };
  reportSequenceFindings(around, compiled.families);
  for (const behaviour of compiled.behaviours) {
    // Why the rules of what never changes decide nothing is no news.
    if (!reportConstant(behaviour, around)) reportIdleRules(behaviour.item, behaviour.attribute, around);
  }
  reportEqualItems(compiled, diagnostics);
  const readers = compiled.settled.map((fit) => readersOf(compiled, fit));
  for (const control of compiled.fleet.controls) reportIdlePositions(control, compiled, readers, diagnostics);
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
  const seen = new Set(forms.flatMap((form) => diagrams.terminals(form)));
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
  for (const item of fleet.items) {
    if (item.kind === 'supply') continue;
    const own = behaviours.filter((behaviour) => behaviour.item === item && !behaviour.attribute.lamp);
    const key = [item.kind, ...own.map(({ attribute, forms }) => `${attribute.id}: ${forms.join(' ')}`)].join('; ');
    const other = first.get(key);
    if (other === undefined) first.set(key, item);
    else {
      const related = [{ place: other.place, label: 'the other one' }];
      diagnostics.report('SL458', { item: item.title, other: other.title }, item.place, related);
    }
  }
}

/** Positions between which nothing changes on any aircraft that has both. */
function reportIdlePositions(
  control: Control,
  compiled: Compiled,
  readers: readonly (readonly Node[])[],
  diagnostics: Diagnostics,
): void {
  const { space, diagrams, expressions, settled, fleet } = compiled;
  const meaning = controlMeaning(space, control);
  const level = levelOf(space, control.id);
  const alike = (a: number, b: number, fit: SettledFit): boolean =>
    (readers[fit.index] ?? []).every((node) => {
      const at = (value: number): Node => diagrams.restrict(node, level, valueOfPosition(meaning, control, value));
      return diagrams.merge(at(a), at(b), IMPOSSIBLE) !== undefined;
    });
  const having = settled
    .map((fit) => ({ fit, positions: positionsOn(expressions, diagrams, space, control, fit) }))
    .filter(({ positions }) => positions.length > 1);
  const pairs = control.positions.flatMap((_, a) =>
    control.positions.flatMap((__, b) => {
      const both = having.filter(({ positions }) => a < b && positions.includes(a) && positions.includes(b));
      return both.length > 0 ? [{ a, b, fits: both.map(({ fit }) => fit) }] : [];
    }),
  );
  const same = pairs.filter(({ a, b, fits }) => fits.every((fit) => alike(a, b, fit)));
  if (same.length === 0) return;
  const aircraft = (fits: readonly SettledFit[]): string =>
    effectivityText(
      fleet,
      fits.flatMap((fit) => fit.aircraft),
    );
  const legend = (position: number): string => control.positions[position]?.legend ?? '';
  if (same.length === pairs.length) {
    const facts = { control: control.title, positions: [], aircraft: aircraft(having.map(({ fit }) => fit)) };
    diagnostics.report('SL454', facts, control.place);
    return;
  }
  for (const { a, b, fits } of same) {
    const facts = { control: control.title, positions: [legend(a), legend(b)], aircraft: aircraft(fits) };
    diagnostics.report('SL454', facts, control.positions[b]?.place);
  }
}

/** Everything that a position could change on a fit: behaviours, guards of sequences, what sounds wait for. */
function readersOf(compiled: Compiled, fit: SettledFit): readonly Node[] {
  const { fleet, space, diagrams, expressions, behaviours, care } = compiled;
  const options = optionLevels(space, fit);
  // Positions lead to different modes: what they change is then in the guards, with inputs that have both positions in common.
  const modes = space.meanings.flatMap(({ kind }, level) => (kind === 'sequence' ? [level] : []));
  const possible = diagrams.exists(care[fit.index] as Node, modes);
  const where = (node: Node): Node =>
    diagrams.ite(possible, diagrams.restrictAll(node, options), diagrams.terminal(IMPOSSIBLE));
  // Truth values become outcomes of their own, since 0 is what cannot happen.
  const truth = (expression: Expression): Node =>
    where(diagrams.map('truth', expressions.compile(expression, true), (value) => value + 1));
  return [
    ...behaviours.map(({ node }) => where(node)),
    ...fleet.sequences.flatMap((sequence) => [...expressionsOfSequence(sequence)].map(truth)),
    ...fleet.sounds.flatMap(({ triggers }) =>
      triggers.flatMap(({ becomes, while: during }) =>
        [becomes, during].flatMap((each) => (each ? [truth(each)] : [])),
      ),
    ),
    // A sound that follows each movement of a control tells its positions apart.
    ...fleet.sounds.flatMap(({ triggers }) =>
      triggers.flatMap(({ moves }) => {
        const level = moves === undefined ? undefined : space.levelOf.get(moves);
        if (level === undefined) return [];
        const size = space.variables[level]?.size ?? 0;
        return Array.from({ length: size }, (_, value) =>
          where(diagrams.map('truth', diagrams.literal(level, [value]), (each) => each + 1)),
        );
      }),
    ),
  ];
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
