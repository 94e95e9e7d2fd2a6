/**
 * The one place where rules become logic.
 *
 *   Fleet -> variables and cells -> care set of each settled fit -> behaviours (rules, judged) -> normal forms -> fit groups
 *                                                                -> claims (judged)
 */
import type { Diagnostics } from '../diagnostics/index.ts';
import { Diagrams, LimitError, type Limits, type Node } from '../logic/index.ts';
import { claimsOf, type Fleet, type Item } from '../model/index.ts';
import { compileWithinLimit, judgeRules, type Surroundings } from './behaviour.ts';
import { inputConstraints } from './care.ts';
import { expressionsOfSequence } from './cells.ts';
import { checkClaims } from './claims.ts';
import { effectivityText } from './effectivity.ts';
import { type BehaviourOf, Expressions } from './expressions.ts';
import { type Fit, fitsOf, SETTLED_LIMIT, type SettledFit, tooUnknown } from './fits.ts';
import { type Behaviour, behaviourOn, formOfFit, groupFits, normalForm, ownLevels, type Settings } from './groups.ts';
import { reportUnguarded } from './guards.ts';
import { type Family, TooManyModesError } from './mode-search.ts';
import { NOT_FITTED, Outcomes } from './outcomes.ts';
import { settingsOn } from './positions.ts';
import { Possible } from './possible.ts';
import { judgeProcedures, type ProcedureCourse } from './procedures/index.ts';
import { absentModes, familiesOn } from './reach.ts';
import { judgeSequences } from './sequences.ts';
import { makeSpace, optionLevels, type Space } from './space.ts';
import { checkTimelines } from './time/index.ts';
import { variableOrder } from './variable-order.ts';
import { limitText, STAGE, type Stage, withinLimit } from './within-limit.ts';

export interface Compiled {
  readonly fleet: Fleet;
  readonly space: Space;
  readonly diagrams: Diagrams;
  readonly outcomes: Outcomes;
  readonly expressions: Expressions;
  readonly fits: readonly Fit[];
  /** Every way to settle the fits. */
  readonly settled: readonly SettledFit[];
  /** Parallel to `settled`: the extended cases that can happen. */
  readonly possible: readonly Possible[];
  /** Parallel to `settled`: what can happen as far as inputs decide, whatever the modes. */
  readonly inputs: readonly Possible[];
  /** Parallel to `settled`: how the sequences run there. */
  readonly families: readonly (readonly Family[])[];
  /** In the order of the items, then of their attributes. */
  readonly behaviours: readonly Behaviour[];
  readonly procedures: readonly ProcedureCourse[];
}

/** With the limits of the diagrams. */
export interface CompileOptions extends Limits {
  /** All levels, from the root of the diagrams down; found from the rules unless given. It changes no result, only the work. */
  readonly order?: readonly number[];
}

/**
 * Compiles a Fleet and judges it. Errors are reported; the result is whole unless there were any, and undefined when no
 * case can happen on some fit, too little is known of one, or the work meets a limit outside of any item or altogether.
 */
export function compileFleet(
  fleet: Fleet,
  diagnostics: Diagnostics,
  options: CompileOptions = {},
): Compiled | undefined {
  const space = makeSpace(fleet);
  const diagrams = new Diagrams(space.variables, { order: variableOrder(fleet, space), ...options });
  const outcomes = new Outcomes();
  const vague = tooUnknown(fleet);
  for (const { registration, place } of vague) {
    diagnostics.report('SL414', { aircraft: registration, limit: SETTLED_LIMIT }, place);
  }
  if (vague.length > 0) return undefined;
  const { fits, settled } = fitsOf(fleet);
  const memo = new Map<string, Node>();
  const items = new Map(fleet.items.map((item) => [item.id, item]));
  const hasQuiet = fleet.overrides.some(({ quiet }) => quiet);
  // Composed on demand, since an item may read another one that stands further down, and a sequence any of them.
  const behaviourOf = (itemId: string, attributeId: string, quietly: boolean): Node => {
    const key = `${itemId} ${attributeId}${quietly ? ' quietly' : ''}`;
    const known = memo.get(key);
    if (known !== undefined) return known;
    const item = items.get(itemId);
    const attribute = item?.attributes.find(({ id }) => id === attributeId);
    if (!item || !attribute) throw new Error(`no attribute is called ${key}`);
    const node = compileWithinLimit(item, attribute, quietly && hasQuiet, around);
    memo.set(key, node);
    return node;
  };
  const expressions = new Expressions(fleet, space, diagrams, outcomes, behaviourOf);
  const possible: Possible[] = [];
  const inputs: Possible[] = [];
  let stage: Stage = 'inputs';
  const around: Surroundings = {
    ...{ fleet, space, diagrams, outcomes, expressions },
    ...{ fits: settled, possible, inputs, diagnostics },
  };
  try {
    const constraints = diagrams.within(STAGE, () =>
      settled.map((fit) => inputConstraints(fleet, space, diagrams, expressions, fit)),
    );
    inputs.push(...diagrams.within(STAGE, () => constraints.map((each) => new Possible(diagrams, each))));
    if (reportEmpty(around, inputs)) return undefined;
    reportUnguardedReads(around, fits);
    stage = 'modes';
    const readers = modeReaders(fleet, diagrams, expressions, behaviourOf);
    const known = new Map<string, Family>();
    const families = settled.map((fit) =>
      diagrams.within(STAGE, () =>
        familiesOn(fleet, space, diagrams, expressions, fit, inputs[fit.index] as Possible, readers, known),
      ),
    );
    possible.push(
      ...settled.map(({ index }) => {
        const here = families[index] as readonly Family[];
        const standing = here.map((family) => family.standing);
        const absent = absentModes(fleet, space, diagrams, here);
        return new Possible(diagrams, [...(constraints[index] ?? []), ...absent, ...standing]);
      }),
    );
    if (judgeSequences(around, families)) return undefined;
    const settings = settled.map(
      (fit): Settings =>
        new Map(
          space.meanings.flatMap(({ kind }, level) =>
            kind === 'control' || kind === 'sequence' ? [[level, settingsOn(space, level, fit)]] : [],
          ),
        ),
    );
    const behaviours = fleet.items.flatMap((item) =>
      item.attributes.map((attribute): Behaviour => {
        const node = behaviourOf(item.id, attribute.id, false);
        withinLimit(item, attribute, around, () => judgeRules(item, attribute, around));
        const seen = withinLimit(item, attribute, around, () => {
          const onFits = settled.map((fit) => behaviourOn(diagrams, space, node, fit, settings[fit.index] as Settings));
          const own = ownLevels(diagrams, space, node, onFits);
          const settledForms = onFits.map((here, index) =>
            normalForm(diagrams, outcomes, space, here, own, possible[index] as Possible),
          );
          const forms = fits.map((fit) =>
            formOfFit(
              diagrams,
              outcomes,
              fit,
              fit.settled.map(({ index }) => settledForms[index] as Node),
            ),
          );
          return { own, forms, settledForms };
        });
        const nothing = diagrams.terminal(NOT_FITTED);
        const { own, forms, settledForms } = seen ?? {
          own: [],
          forms: fits.map(() => nothing),
          settledForms: settled.map(() => nothing),
        };
        return { item, attribute, node, own, forms, settledForms, groups: groupFits(fits, forms, fleet.aircraft) };
      }),
    );
    stage = 'claims';
    checkClaims(around);
    const judged = { fleet, space, diagrams, outcomes, expressions, fits, settled };
    const compiled = { ...judged, possible, inputs, families, behaviours };
    checkTimelines(compiled, diagnostics);
    stage = 'procedures';
    return { ...compiled, procedures: judgeProcedures(compiled, around) };
  } catch (error) {
    if (error instanceof TooManyModesError) {
      const [first] = error.sequences;
      diagnostics.report('SL411', { sequences: error.sequences.map(({ title }) => title) }, first?.place);
      return undefined;
    }
    if (!(error instanceof LimitError)) throw error;
    // What an item used up has been reported with the item.
    if (!diagnostics.all.some(({ code }) => code === 'SL405')) {
      diagnostics.report('SL408', { stage, limit: limitText(error) }, fleet.book.place);
    }
    return undefined;
  }
}

/** Everything that may read modes: items, claims and what sets sounds off. */
export function modeReaders(
  fleet: Fleet,
  diagrams: Diagrams,
  expressions: Expressions,
  behaviourOf: BehaviourOf,
): Node[] {
  if (fleet.sequences.length < 2) return [];
  return [
    ...fleet.items.flatMap((item) => item.attributes.map(({ id }) => behaviourOf(item.id, id, false))),
    ...claimsOf(fleet).map(({ expression }) => expressions.compile(expression)),
    ...fleet.sounds.flatMap(({ triggers }) =>
      triggers.map(({ becomes, while: during }) =>
        diagrams.and(...[becomes, during].flatMap((each) => (each ? [expressions.compile(each, true)] : []))),
      ),
    ),
  ];
}

/** Whether a control or an item exists on a fit, by the diagram over options that says where it does. */
export function holdsOn(diagrams: Diagrams, space: Space, overOptions: Node, fit: SettledFit): boolean {
  return diagrams.restrictAll(overOptions, optionLevels(space, fit)) === diagrams.yes;
}

/** Reports the fits on which no case can happen. Says whether there was one. */
export function reportEmpty(
  { fleet, space, diagrams, expressions, fits, diagnostics }: Surroundings,
  inputs: readonly Possible[],
): boolean {
  let empty = false;
  for (const control of fleet.controls) {
    const without = fits.filter((fit) => {
      const at = (position?: string): boolean =>
        holdsOn(diagrams, space, expressions.controlFitted(control, position), fit);
      return at() && !control.positions.some(({ id }) => at(id));
    });
    if (without.length === 0) continue;
    empty = true;
    const aircraft = effectivityText(
      fleet,
      without.flatMap((fit) => fit.aircraft),
    );
    diagnostics.report('SL409', { control: control.title, aircraft }, control.place);
  }
  if (empty) return true;
  const lost = fits.filter((fit) => inputs[fit.index]?.isEmpty);
  if (lost.length === 0) return false;
  const aircraft = effectivityText(
    fleet,
    lost.flatMap((fit) => fit.aircraft),
  );
  diagnostics.report('SL404', { aircraft }, fleet.never[0]?.place ?? fleet.book.place);
  return true;
}

export function reportUnguardedReads(around: Surroundings, all: readonly Fit[]): void {
  const { fleet, space, diagrams, expressions, fits } = around;
  const having = (thing: Pick<Item, 'fitted'>): SettledFit[] => {
    const fitted = expressions.itemFitted(thing);
    return fits.filter((fit) => holdsOn(diagrams, space, fitted, fit));
  };
  for (const item of fleet.items) {
    const itemFits = having(item);
    for (const attribute of item.attributes) {
      for (const rule of attribute.rules) if (rule.when) reportUnguarded(rule.when, itemFits, around);
    }
  }
  for (const sequence of fleet.sequences) {
    const sequenceFits = having(sequence);
    for (const expression of expressionsOfSequence(sequence)) reportUnguarded(expression, sequenceFits, around);
  }
  for (const override of fleet.overrides) reportUnguarded(override.when, fits, around);
  for (const { on, expects } of fleet.timelines) {
    const shown = all.filter(({ aircraft }) => aircraft.some(({ serial }) => serial === on));
    for (const { holds } of expects) {
      reportUnguarded(
        holds,
        shown.flatMap(({ settled }) => settled),
        around,
      );
    }
  }
  for (const sound of fleet.sounds) {
    const soundFits = having(sound);
    for (const { becomes, while: during } of sound.triggers) {
      for (const expression of [becomes, during]) if (expression) reportUnguarded(expression, soundFits, around);
    }
  }
}
