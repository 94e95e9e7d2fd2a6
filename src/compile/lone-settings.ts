/**
 * What one of two fits can be and the other never is: a position, a mode or a value of a condition that occurs in no case of
 * the other. Of such cases there is nothing to compare.
 */
import type { Comparable } from './comparable.ts';
import type { Fit } from './fits.ts';
import { absentValue } from './space.ts';

export interface LoneSetting {
  readonly level: number;
  readonly value: number;
  readonly on: 'here' | 'there';
}

/**
 * In declared order. A control or sequence that one of the two lacks altogether has none: that it is not fitted says more.
 * Numbers have none either.
 */
export function loneSettings(compared: Comparable, here: Fit, there: Fit): LoneSetting[] {
  return compared.space.meanings.flatMap((meaning, level): LoneSetting[] => {
    if (meaning.kind !== 'control' && meaning.kind !== 'sequence' && meaning.kind !== 'condition') return [];
    const absent = meaning.kind === 'condition' ? undefined : absentValue(meaning);
    const [ours, theirs] = [here, there].map((fit) =>
      compared.occurring(level, fit).filter((value) => value !== absent),
    ) as [number[], number[]];
    if (ours.length === 0 || theirs.length === 0) return [];
    return [
      ...ours.filter((value) => !theirs.includes(value)).map((value) => ({ level, value, on: 'here' as const })),
      ...theirs.filter((value) => !ours.includes(value)).map((value) => ({ level, value, on: 'there' as const })),
    ];
  });
}
