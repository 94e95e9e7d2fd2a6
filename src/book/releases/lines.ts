/** What is said of things that are not compared case by case, line by line, so that a later revision can tell which lines changed. */
import { formatNumber } from '../../compile/index.ts';
import type { Detector, Fleet, Procedure, Sequence, Signal, Sound } from '../../model/index.ts';
import { plain } from '../cells.ts';
import { trips } from '../detectors.ts';
import { expressionWords } from '../expression-words.ts';
import { delayWords } from '../pages/sequence.ts';

/** "Counting to expired: after 40 min ± 2 min in the mode", and what fills and drains stores. */
export function sequenceLines(fleet: Fleet, { modes, transitions, stores }: Sequence): string[] {
  const titleOf = (id: string): string => modes.find((mode) => mode.id === id)?.title ?? id;
  return [
    ...transitions.map((transition) => {
      const { from, to, guard } = transition;
      const told = [guard ? plain(expressionWords(fleet, guard.when)) : '', plain(delayWords(fleet, transition))];
      const words = told.filter((each) => each !== '').join(', ');
      return `${from.map(titleOf).join(' or ')} to ${titleOf(to)}${words === '' ? '' : `: ${words}`}`;
    }),
    ...stores.flatMap(({ title, unit, capacity, start, flows }) => [
      `${title}: holds ${formatNumber(capacity)} ${unit}, ${formatNumber(start)} ${unit} at first`,
      ...flows.map(
        ({ kind, when, perMinute }) =>
          `${title}: ${kind} by ${formatNumber(perMinute)} ${unit} a minute ${plain(expressionWords(fleet, when))}`,
      ),
    ]),
  ];
}

/** "Lamp switch from OFF to ON; as it becomes so: in the air; while: at night". */
export function soundLines(fleet: Fleet, { triggers }: Sound): string[] {
  const movable = [...fleet.controls, ...fleet.conditions, ...fleet.sequences];
  return triggers.map(({ moves, from, to, becomes, while: during }) => {
    const parts = [
      moves === undefined ? '' : `moved: ${movable.find(({ id }) => id === moves)?.title ?? moves}`,
      from === undefined ? '' : `from ${from.join(' or ')}`,
      to === undefined ? '' : `to ${to.join(' or ')}`,
      becomes === undefined ? '' : `as it becomes so: ${plain(expressionWords(fleet, becomes))}`,
      during === undefined ? '' : `while it is so: ${plain(expressionWords(fleet, during))}`,
    ];
    return parts.filter((part) => part !== '').join('; ');
  });
}

/** "Taxi: Logo switch at ON, at night". */
export function procedureLines(fleet: Fleet, { stages }: Procedure): string[] {
  return stages.flatMap(({ title, facts, positions }) => [
    ...facts.map(({ id, values, range }) => {
      const of = [...fleet.conditions, ...fleet.sequences].find((each) => each.id === id)?.title ?? id;
      return `${title}: ${of} ${values ? values.join(' or ') : `${range?.from} to ${range?.to}`}`;
    }),
    ...positions.flatMap(({ control, wanted }) => {
      const found = fleet.controls.find(({ id }) => id === control);
      return wanted.map(({ when, position, says }) => {
        const at = found?.positions.find(({ id }) => id === position)?.legend ?? position;
        const where = when ? `, ${plain(expressionWords(fleet, when))}` : '';
        return `${title}: ${found?.title ?? control} at ${at}${says === undefined ? '' : ` ${says}`}${where}`;
      });
    }),
  ]);
}

export function signalLines(fleet: Fleet, { expression }: Signal): string[] {
  return [plain(expressionWords(fleet, expression))];
}

export function detectorLines(fleet: Fleet, detector: Detector): string[] {
  const unit = fleet.conditions.find(({ id }) => id === detector.number)?.number?.unit ?? '';
  // What follows the colon says the same at length.
  return [trips(detector, unit).replace(/:.*/, '.')];
}
