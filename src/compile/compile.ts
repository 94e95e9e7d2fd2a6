/**
 * The one place where rules become logic.
 *
 *   Fleet -> variables and cells -> care set of each fit -> behaviours (rules, judged) -> normal forms -> fit groups
 *                                                        -> claims (judged)
 */
import type { Diagnostics } from '../diagnostics/index.ts';
import { Diagrams, type Node, NodeLimitError } from '../logic/index.ts';
import type { Fleet } from '../model/index.ts';
import { compileWithinLimit, type Surroundings } from './behaviour.ts';
import { checkClaims } from './claims.ts';
import { effectivityText } from './effectivity.ts';
import { careSet, Expressions, settingsOn } from './expressions.ts';
import { type Fit, fitsOf } from './fits.ts';
import { type Behaviour, behaviourOn, groupFits, normalForm, ownLevels, type Settings } from './groups.ts';
import { reportUnguarded } from './guards.ts';
import { Outcomes } from './outcomes.ts';
import { levelOf, makeSpace, optionLevels, type Space } from './space.ts';

export interface Compiled {
  readonly fleet: Fleet;
  readonly space: Space;
  readonly diagrams: Diagrams;
  readonly outcomes: Outcomes;
  readonly expressions: Expressions;
  readonly fits: readonly Fit[];
  /** Parallel to `fits`: the cases that can happen. */
  readonly care: readonly Node[];
  /** In the order of the items, then of their attributes. */
  readonly behaviours: readonly Behaviour[];
}

export interface CompileOptions {
  /** Most nodes that the diagrams may have. */
  readonly nodeLimit?: number;
}

/**
 * Compiles a Fleet and judges it. Errors are reported; the result is whole unless there were any, and undefined when no
 * case can happen on some fit or the limit is met outside of any item.
 */
export function compileFleet(
  fleet: Fleet,
  diagnostics: Diagnostics,
  options: CompileOptions = {},
): Compiled | undefined {
  const space = makeSpace(fleet);
  const diagrams = new Diagrams(space.variables, options);
  const outcomes = new Outcomes();
  const fits = fitsOf(fleet);
  const memo = new Map<string, Node>();
  // Composed on demand, since an item may read another one that stands further down. The care sets come first and read
  // variables only, so that `around` is whole before any behaviour is asked for.
  const behaviourOf = (itemId: string, attributeId: string): Node => {
    const key = `${itemId} ${attributeId}`;
    const known = memo.get(key);
    if (known !== undefined) return known;
    const item = fleet.items.find(({ id }) => id === itemId);
    const attribute = item?.attributes.find(({ id }) => id === attributeId);
    if (!item || !attribute) throw new Error(`no attribute is called ${key}`);
    const node = compileWithinLimit(item, attribute, around);
    memo.set(key, node);
    return node;
  };
  const expressions = new Expressions(fleet, space, diagrams, outcomes, behaviourOf);
  const care: Node[] = [];
  const around: Surroundings = { fleet, space, diagrams, outcomes, expressions, fits, care, diagnostics };
  try {
    care.push(...fits.map((fit) => careSet(fleet, space, diagrams, expressions, fit)));
    if (reportEmpty(around)) return undefined;
    reportUnguardedRules(around);
    const settings = fits.map(
      (fit): Settings =>
        new Map(
          fleet.controls.map((control) => [
            levelOf(space, control.id),
            settingsOn(expressions, diagrams, space, control, fit),
          ]),
        ),
    );
    const behaviours = fleet.items.flatMap((item) =>
      item.attributes.map((attribute): Behaviour => {
        const node = behaviourOf(item.id, attribute.id);
        const onFits = fits.map((fit) => behaviourOn(diagrams, space, node, fit, settings[fit.index] as Settings));
        const own = ownLevels(diagrams, space, node, onFits);
        const forms = onFits.map((here, index) => normalForm(diagrams, here, own, care[index] as Node));
        return { item, attribute, node, own, forms, groups: groupFits(fits, forms, fleet.aircraft) };
      }),
    );
    checkClaims(around);
    return { fleet, space, diagrams, outcomes, expressions, fits, care, behaviours };
  } catch (error) {
    if (!(error instanceof NodeLimitError)) throw error;
    diagnostics.report('SL408', { limit: error.limit }, fleet.book.place);
    return undefined;
  }
}

/** Whether a control or an item exists on a fit, by the diagram over options that says where it does. */
export function holdsOn(diagrams: Diagrams, space: Space, overOptions: Node, fit: Fit): boolean {
  return diagrams.restrictAll(overOptions, optionLevels(space, fit)) === diagrams.yes;
}

/** Reports the fits on which no case can happen. Says whether there was one. */
function reportEmpty({ fleet, space, diagrams, expressions, fits, care, diagnostics }: Surroundings): boolean {
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
  const lost = fits.filter((fit) => care[fit.index] === diagrams.no);
  if (lost.length === 0) return false;
  const aircraft = effectivityText(
    fleet,
    lost.flatMap((fit) => fit.aircraft),
  );
  diagnostics.report('SL404', { aircraft }, fleet.never[0]?.place ?? fleet.book.place);
  return true;
}

function reportUnguardedRules(around: Surroundings): void {
  const { fleet, space, diagrams, expressions, fits } = around;
  for (const item of fleet.items) {
    const fitted = expressions.itemFitted(item);
    const itemFits = fits.filter((fit) => holdsOn(diagrams, space, fitted, fit));
    for (const attribute of item.attributes) {
      for (const rule of attribute.rules) if (rule.when) reportUnguarded(rule.when, itemFits, around);
    }
  }
}
