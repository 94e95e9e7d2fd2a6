/** Items that several controls can each ask for, and the positions in which one of them asks for nothing. */
import {
  type Behaviour,
  type Compiled,
  controlMeaning,
  type Fit,
  IMPOSSIBLE,
  levelOf,
  positionsOf,
  valueOfPosition,
} from '../compile/index.ts';
import type { Node } from '../logic/index.ts';
import type { Attribute, Control, State } from '../model/index.ts';
import { groupOf } from './fits.ts';

/** The state of an item that nobody asks for: `dark` where it has it, or else its first. */
export function restState({ states }: Attribute): State {
  const rest = states.find(({ id }) => id === 'dark') ?? states[0];
  if (!rest) throw new Error('an attribute has no states');
  return rest;
}

/**
 * Whether a control, by itself, asks for nothing in a position: the item is never more active with it than with any other
 * position, and yet is active in some case, since another control asks for it. Only of items that name their stations.
 */
export function asksForNothing(
  compiled: Compiled,
  behaviour: Behaviour,
  fit: Fit,
  control: Control,
  position: number,
): boolean {
  const { item, attribute } = behaviour;
  if (attribute.lamp !== undefined || !item.stations.includes(control.id)) return false;
  const { diagrams, space, outcomes } = compiled;
  const { form } = groupOf(behaviour, fit);
  const rest = outcomes.ofState(restState(attribute).id);
  const meaning = controlMeaning(space, control);
  const at = (index: number): Node =>
    diagrams.restrict(form, levelOf(space, control.id), valueOfPosition(meaning, control, index));
  const active = (node: Node, orImpossible: boolean): Node =>
    diagrams.map(`active ${rest} ${orImpossible}`, node, (outcome) => {
      if (outcome === IMPOSSIBLE) return orImpossible ? 1 : 0;
      return outcome === rest ? 0 : 1;
    });
  const here = active(at(position), false);
  if (here === diagrams.no) return false;
  return positionsOf(control, fit).every((other) => diagrams.implies(here, active(at(other), true)) === diagrams.yes);
}
