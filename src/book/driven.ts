/** What a control drives: the behaviours that its page shows, and their tables there. */
import { type Behaviour, type Compiled, controlMeaning, type Fit, levelOf, positionsOf } from '../compile/index.ts';
import type { Control } from '../model/index.ts';
import { type AttributeViews, attributeView, groupAnchor, viewOf } from './attributes.ts';
import type { AttributeView } from './book.ts';
import { followsItsLight } from './lamps.ts';

/**
 * What a control, or one that it counts as, drives, in the order of the panel: messages apart, and lamps apart that in
 * normal cases do as their light does. Items that it can ask for beside other controls are among it.
 */
export function drivenBy(compiled: Compiled, control: Control): Behaviour[] {
  return compiled.behaviours.filter(
    (behaviour) =>
      behaviour.item.kind !== 'message' &&
      (isDriver(compiled, behaviour, control) || isStation(compiled, behaviour, control)) &&
      !followsItsLight(compiled, behaviour),
  );
}

/** The tables of what a control drives, on the aircraft that have it, with the control in the first column. */
export function drivenViews(
  compiled: Compiled,
  views: AttributeViews,
  control: Control,
  driven: readonly Behaviour[],
): AttributeView[] {
  return driven.map((behaviour) => {
    const view = isDriver(compiled, behaviour, control)
      ? viewOf(views, behaviour)
      : attributeView(compiled, behaviour, control.id, views.changes);
    const elsewhere = new Set(
      behaviour.groups
        .filter(({ fits }) => fits.every((fit) => hasCounterpart(compiled, control, fit)))
        .map((group) => groupAnchor(behaviour, group)),
    );
    return { ...view, groups: view.groups.filter(({ id }) => !elsewhere.has(id)) };
  });
}

/** Whether the control, or one that counts as it, drives the attribute. */
function isDriver({ space }: Compiled, { attribute }: Behaviour, control: Control): boolean {
  return attribute.control !== undefined && levelOf(space, attribute.control) === levelOf(space, control.id);
}

/** Whether the control is one of several that can ask for the item. What another control drives on it is left to that one. */
function isStation({ space }: Compiled, { item, attribute }: Behaviour, control: Control): boolean {
  if (attribute.lamp || !item.stations.includes(attribute.control ?? '')) return false;
  return item.stations.some((station) => levelOf(space, station) === levelOf(space, control.id));
}

/** Whether a fit has another control that counts as this one. */
function hasCounterpart(compiled: Compiled, control: Control, fit: Fit): boolean {
  const has = (each: Control): boolean => positionsOf(each, fit).length > 0;
  return !has(control) && controlMeaning(compiled.space, control).controls.some(has);
}
