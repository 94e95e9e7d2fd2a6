/**
 * Normal forms and fit groups. The normal form of an item on a fit is its behaviour where the case can happen, projected on
 * the item's own variables, and impossible elsewhere. Two fits are alike on the item when the normal forms are the same
 * node; that is the only equality.
 */
import type { Diagrams, Node } from '../logic/index.ts';
import type { Aircraft, Attribute, Item } from '../model/index.ts';
import type { Fit } from './fits.ts';
import { IMPOSSIBLE } from './outcomes.ts';
import { optionLevels, type Space } from './space.ts';

/** Aircraft on which an attribute behaves the same. */
export interface Group {
  readonly fits: readonly Fit[];
  readonly aircraft: readonly Aircraft[];
  /** The normal form; its support holds no option. */
  readonly form: Node;
}

/** One attribute of one item, over the whole fleet. */
export interface Behaviour {
  readonly item: Item;
  readonly attribute: Attribute;
  /** From cases to outcomes, over all fits. */
  readonly node: Node;
  /** The levels that it depends on on some fit, and the options that decide between fits, ascending. */
  readonly own: readonly number[];
  /** Parallel to the fits. */
  readonly forms: readonly Node[];
  /** In the order of the fleet's first aircraft of each. */
  readonly groups: readonly Group[];
}

/** What a control's variable can be on a fit, by level. */
export type Settings = ReadonlyMap<number, readonly number[]>;

/**
 * A behaviour on one fit: without options, and the same for settings that a control cannot have there as for one that it
 * can, so that it depends on nothing that no aircraft of the fit could show.
 */
export function behaviourOn(
  diagrams: Diagrams,
  space: Space,
  node: Node,
  fit: Pick<Fit, 'options'>,
  settings: Settings,
): Node {
  const here = diagrams.restrictAll(node, optionLevels(space, fit));
  return [...settings].reduce((rest, [level, values]) => {
    const [some] = values;
    if (some === undefined || !diagrams.support(rest).includes(level)) return rest;
    return diagrams.ite(diagrams.literal(level, values), rest, diagrams.restrict(rest, level, some));
  }, here);
}

/** The levels that a behaviour depends on on one of the fits at least, and the options that it reads, ascending. */
export function ownLevels(diagrams: Diagrams, space: Space, node: Node, onFits: readonly Node[]): number[] {
  const options = diagrams.support(node).filter((level) => space.meanings[level]?.kind === 'option');
  return [...new Set([...options, ...onFits.flatMap((each) => diagrams.support(each))])].sort((a, b) => a - b);
}

/** The normal form of a behaviour on one fit, `here`, projected on `own`, the levels that matter on some fit. */
export function normalForm(diagrams: Diagrams, here: Node, own: readonly number[], care: Node): Node {
  const keep = new Set(own);
  const others = diagrams.support(care).filter((level) => !keep.has(level));
  const possible = diagrams.exists(care, others);
  return diagrams.ite(possible, here, diagrams.terminal(IMPOSSIBLE));
}

/** Classes of fits with the same form. */
export function groupFits(fits: readonly Fit[], forms: readonly Node[], order: readonly Aircraft[]): Group[] {
  const byForm = new Map<Node, Fit[]>();
  for (const fit of fits) {
    const form = forms[fit.index] as Node;
    byForm.set(form, [...(byForm.get(form) ?? []), fit]);
  }
  return [...byForm].map(([form, members]) => {
    const serials = new Set(members.flatMap(({ aircraft }) => aircraft.map(({ serial }) => serial)));
    return { form, fits: members, aircraft: order.filter(({ serial }) => serials.has(serial)) };
  });
}
