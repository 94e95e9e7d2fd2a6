/** What comparing two fits asks of a compiled fleet, so that a reader's copy of no more than that can be compared too. */
import type { Fleet } from '../model/index.ts';
import type { Compiled } from './compile.ts';
import type { Fit } from './fits.ts';
import type { Behaviour } from './groups.ts';
import type { Possible } from './possible.ts';

/** What cases and outcomes are said with. */
export interface Worded extends Pick<Compiled, 'space' | 'diagrams' | 'outcomes'> {
  readonly fleet: Pick<Fleet, 'options' | 'items'>;
}

/** One attribute of one item with its normal forms. */
export type Formed = Pick<Behaviour, 'item' | 'attribute' | 'forms' | 'groups'>;

export interface Comparable extends Worded, Pick<Compiled, 'fits'> {
  readonly fleet: Pick<Fleet, 'options' | 'panels' | 'controls' | 'items'>;
  readonly behaviours: readonly Formed[];
  /** The values of a control, a sequence or a condition with values that occur in some case of a fit, ascending. */
  occurring(level: number, fit: Fit): readonly number[];
  /** Cases that only one of two can be in are no difference, except as `occurring` tells of them. */
  readonly ignoresPossibility?: boolean;
}

/** The fleet as it can be compared. */
export function comparable(compiled: Compiled): Comparable {
  const { diagrams, space, possible } = compiled;
  return {
    ...compiled,
    occurring(level, fit) {
      const cases = diagrams.or(...fit.settled.map(({ index }) => (possible[index] as Possible).only([level])));
      const size = space.variables[level]?.size ?? 0;
      return Array.from({ length: size }, (_, value) => value).filter(
        (value) => diagrams.restrict(cases, level, value) !== diagrams.no,
      );
    },
  };
}
