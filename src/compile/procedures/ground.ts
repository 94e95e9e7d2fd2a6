/** What the stages of procedures are worked out of, and where everything stands before the first one. */
import type { Node } from '../../logic/index.ts';
import type { Control } from '../../model/index.ts';
import type { Compiled } from '../compile.ts';
import type { SettledFit } from '../fits.ts';
import { positionsOf } from '../positions.ts';
import { absentValue, controlMeaning, levelOf, normalValue, valueOfPosition } from '../space.ts';

/** What is needed of the compiled fleet. */
export type Ground = Omit<Compiled, 'procedures'>;

/** By level, what an input may be. Levels that are not in it are free: the answers of detectors. */
export type Values = ReadonlyMap<number, readonly number[]>;

/** The positions that each control has on a fit, by index, in the order of the fleet; without controls that it lacks. */
export type Fitted = ReadonlyMap<Control, readonly number[]>;

export function fittedOn({ fleet }: Ground, fit: SettledFit): Fitted {
  return new Map(
    fleet.controls.flatMap((control): [Control, number[]][] => {
      const positions = positionsOf(control, fit);
      return positions.length > 0 ? [[control, positions]] : [];
    }),
  );
}

/** The first position that a control has and that it does not spring back from. */
export function restPosition(control: Control, fitted: readonly number[]): number {
  const kept = fitted.find((index) => control.positions[index]?.returns === undefined);
  return kept ?? (fitted[0] as number);
}

/**
 * What stands before the first stage, as in timelines: conditions at their normal value, or else the first; numbers at the
 * lowest; controls at rest; lamps serviceable.
 */
export function startValues({ space }: Ground, fitted: Fitted): Values {
  const values = new Map<number, readonly number[]>();
  for (const [level, meaning] of space.meanings.entries()) {
    if (meaning.kind === 'control') values.set(level, [absentValue(meaning)]);
    if (meaning.kind === 'condition' || meaning.kind === 'lamp') values.set(level, [normalValue(meaning) ?? 0]);
    if (meaning.kind === 'number') values.set(level, [0]);
  }
  for (const [control, positions] of fitted) {
    const value = valueOfPosition(controlMeaning(space, control), control, restPosition(control, positions));
    values.set(levelOf(space, control.id), [value]);
  }
  return values;
}

/** Every sequence in its first mode; one that is not fitted is absent. */
export function startModes({ fleet, families, space, diagrams }: Ground, fit: SettledFit): Node {
  const fitted = new Set((families[fit.index] ?? []).flatMap(({ sequences }) => sequences));
  const modes = fleet.sequences.map((sequence) => {
    const first = sequence.modes.findIndex(({ id }) => id === sequence.initial);
    return diagrams.literal(levelOf(space, sequence.id), [fitted.has(sequence) ? first : sequence.modes.length]);
  });
  return diagrams.and(...modes);
}

/** The levels of all modes. */
export function modeLevels({ fleet, space }: Ground): number[] {
  return fleet.sequences.map(({ id }) => levelOf(space, id));
}
