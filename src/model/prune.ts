/**
 * What is left of a Fleet when some definitions cannot be used: what reads them is left out too, so that the rest can be
 * judged in the same run without reporting the consequences of the first mistakes.
 */
import { type Expression, referencesOf } from '../language/index.ts';
import type { Control, Fleet } from './fleet.ts';

/**
 * The Fleet without whatever names, directly or through others, something that is not there. Undefined when that holds of
 * what never happens: without it, cases would be reported that cannot happen.
 */
export function prune(fleet: Fleet): Fleet | undefined {
  let left: Fleet = { ...fleet, controls: fleet.controls.map((control) => onItsOwn(control, fleet)) };
  for (;;) {
    const known = new Set(
      [left.options, left.conditions, left.signals, left.controls, left.items].flatMap((list) =>
        list.map(({ id }) => id),
      ),
    );
    const sound = (expression: Expression | undefined): boolean =>
      expression === undefined || referencesOf(expression).every(({ id }) => known.has(id));
    if (!left.never.every(({ expression }) => sound(expression))) return undefined;
    const next: Fleet = {
      ...left,
      signals: left.signals.filter(({ expression }) => sound(expression)),
      items: left.items.filter(({ attributes }) =>
        attributes.every(
          ({ control, rules }) =>
            (control === undefined || known.has(control)) && rules.every(({ when }) => sound(when)),
        ),
      ),
      claims: left.claims.filter(({ expression }) => sound(expression)),
      notes: left.notes.map((note) => ({ ...note, claims: note.claims.filter(({ expression }) => sound(expression)) })),
    };
    if (next.items.length === left.items.length && next.signals.length === left.signals.length) return next;
    left = next;
  }
}

/** The control without the counterpart, if that one is not there. */
function onItsOwn(control: Control, { controls }: Fleet): Control {
  const { counterpart, ...own } = control;
  if (counterpart === undefined || controls.some(({ id }) => id === counterpart)) return control;
  return { ...own, positions: own.positions.map(({ as: _, ...position }) => position) };
}
