/**
 * What is left of a Fleet when some definitions cannot be used: what reads them is left out too, so that the rest can be
 * judged in the same run without reporting the consequences of the first mistakes.
 */
import { type Expression, referencesOf } from '../language/index.ts';
import type { Control, Fleet, Sequence } from './fleet.ts';

/**
 * The Fleet without whatever names, directly or through others, something that is not there. Undefined when that holds of
 * what never happens: without it, cases would be reported that cannot happen; and when it holds of an override: without it,
 * items would be judged as they never are.
 */
export function prune(fleet: Fleet): Fleet | undefined {
  let left: Fleet = { ...fleet, controls: fleet.controls.map((control) => onItsOwn(control, fleet)) };
  for (;;) {
    const known = new Set(idsOf(left));
    const sound = (expression: Expression | undefined): boolean =>
      expression === undefined || referencesOf(expression).every(({ id }) => known.has(id));
    if (!left.never.every(({ expression }) => sound(expression))) return undefined;
    if (!left.overrides.every(({ when }) => sound(when))) return undefined;
    const next: Fleet = {
      ...left,
      signals: left.signals.filter(({ expression }) => sound(expression)),
      detectors: left.detectors.filter(({ number }) => known.has(number)),
      detectorOrders: left.detectorOrders.map((order) => ({
        ...order,
        detectors: order.detectors.filter((id) => known.has(id)),
      })),
      items: left.items.filter(({ attributes }) =>
        attributes.every(
          ({ control, rules }) =>
            (control === undefined || known.has(control)) && rules.every(({ when }) => sound(when)),
        ),
      ),
      sequences: left.sequences.filter((sequence) => partsOfSequence(sequence).every(sound)),
      sounds: left.sounds.filter(({ triggers }) =>
        triggers.every(
          ({ moves, becomes, while: during }) =>
            (moves === undefined || known.has(moves)) && sound(becomes) && sound(during),
        ),
      ),
      timelines: left.timelines.filter(
        ({ shows, steps, expects }) =>
          [...shows, ...steps.flatMap(({ sets }) => sets)].every(({ id }) => known.has(id.split('.')[0] ?? '')) &&
          expects.every(({ holds }) => sound(holds)),
      ),
      procedures: left.procedures.filter(({ stages }) =>
        stages.every(
          ({ facts, positions, claims }) =>
            [...facts.map(({ id }) => id), ...positions.map(({ control }) => control)].every((id) => known.has(id)) &&
            claims.every(({ expression }) => sound(expression)),
        ),
      ),
      claims: left.claims.filter(({ expression }) => sound(expression)),
      notes: left.notes.map((note) => ({ ...note, claims: note.claims.filter(({ expression }) => sound(expression)) })),
      tours: left.tours.map((tour) => ({ ...tour, claims: tour.claims.filter(({ expression }) => sound(expression)) })),
      notices: left.notices.map((notice) => ({
        ...notice,
        claims: notice.claims.filter(({ expression }) => sound(expression)),
      })),
    };
    if (idsOf(next).length === idsOf(left).length) return next;
    left = next;
  }
}

/** Everything that expressions can name. */
function idsOf({ options, conditions, detectors, signals, controls, items, sequences }: Fleet): string[] {
  const stores = sequences.flatMap((sequence) => sequence.stores);
  return [options, conditions, detectors, signals, controls, items, sequences, stores].flatMap((list) =>
    list.map(({ id }) => id),
  );
}

/** Every expression of a sequence. */
function partsOfSequence({ transitions, stores }: Sequence): Expression[] {
  return [
    ...transitions.flatMap(({ guard, since }) => [guard?.when, since?.event].filter((each) => each !== undefined)),
    ...stores.flatMap(({ flows }) => flows.map(({ when }) => when)),
  ];
}

/** The control without the counterpart, if that one is not there. */
function onItsOwn(control: Control, { controls }: Fleet): Control {
  const { counterpart, ...own } = control;
  if (counterpart === undefined || controls.some(({ id }) => id === counterpart)) return control;
  return { ...own, positions: own.positions.map(({ as: _, ...position }) => position) };
}
