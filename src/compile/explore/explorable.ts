/**
 * What following a case by hand asks of a compiled fleet, so that a reader's copy of no more than that can be followed too:
 * which inputs can stand together, which transitions are taken when, and what each item is in an extended case.
 */
import type { Node } from '../../logic/index.ts';
import type { Attribute, Item, Transition } from '../../model/index.ts';
import type { Facts } from '../because.ts';
import { inputConstraints } from '../care.ts';
import type { Worded } from '../comparable.ts';
import type { Compiled } from '../compile.ts';
import type { SettledFit } from '../fits.ts';
import { queryAt } from '../groups.ts';
import { type ModeStep, modeSteps } from '../mode-steps.ts';
import { levelOf, optionLevels } from '../space.ts';
import { startingCase } from './starting-case.ts';

/** A transition from one mode to another; where it is taken hangs on the fit. */
export type Leap = Pick<ModeStep, 'level' | 'from' | 'to'>;
/** Where it is taken at once, where in time, and what must have happened in the mode before. */
export type Guard = Pick<ModeStep, 'now' | 'later' | 'event'>;

/** A settled fit; no diagram reads an option. */
export interface ExplorableFit {
  readonly fit: SettledFit;
  /** What must hold of inputs and of the answers of detectors. */
  readonly constraints: readonly Node[];
  /** Parallel to the leaps. */
  readonly guards: readonly Guard[];
  /** Parallel to the attributes: from extended cases to outcomes. */
  readonly behaviours: readonly Node[];
  /** A normal case that can stand, without what is hidden from readers. */
  readonly start: Facts;
}

export interface Explorable extends Worded, Pick<Compiled, 'fits'> {
  readonly attributes: readonly { readonly item: Item; readonly attribute: Attribute }[];
  /** In their order of priority. */
  readonly leaps: readonly Leap[];
  /** The level of each detector and of its number, and whether it trips as the number rises. */
  readonly detectors: readonly { readonly level: number; readonly number: number; readonly rises: boolean }[];
  /** The levels of answers that nobody has given, with the query that asks for each. */
  readonly unstated: ReadonlyMap<number, string>;
  /** Parallel to the settled fits. */
  readonly on: readonly ExplorableFit[];
}

/** The transitions behind the leaps, each as often as there are modes that it leads from. */
export function transitionsOfLeaps({ fleet }: Pick<Compiled, 'fleet'>): Transition[] {
  return fleet.sequences.flatMap(({ transitions }) =>
    transitions.flatMap((transition) => transition.from.map(() => transition)),
  );
}

/** The fleet as its cases can be followed. */
export function explorable(compiled: Compiled): Explorable {
  const { fleet, space, diagrams, expressions, settled, behaviours } = compiled;
  const on = settled.map((fit) => {
    const options = optionLevels(space, fit);
    const here = (node: Node): Node => diagrams.restrictAll(node, options);
    const constraints = inputConstraints(fleet, space, diagrams, expressions, fit);
    const steps = modeSteps(compiled, here);
    return {
      steps,
      explorable: {
        fit,
        constraints: [...new Set(constraints)].filter((node) => node !== diagrams.yes),
        guards: steps.map(({ now, later, event }) => ({ now, later, event })),
        behaviours: behaviours.map(({ node }) => here(node)),
        start: startingCase(compiled, fit),
      },
    };
  });
  return {
    ...compiled,
    attributes: behaviours,
    leaps: (on[0]?.steps ?? []).map(({ level, from, to }) => ({ level, from, to })),
    detectors: fleet.detectors.map(({ id, number, by }) => ({
      level: levelOf(space, id),
      number: levelOf(space, number),
      rises: by.startsWith('>'),
    })),
    unstated: new Map(
      space.meanings.flatMap(({ kind }, level) => (kind === 'unstated' ? [[level, queryAt(space, level)]] : [])),
    ),
    on: on.map((each) => each.explorable),
  };
}
