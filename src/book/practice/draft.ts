/** A question before it has a number and letters. */
import type { Behaviour, Compiled } from '../../compile/index.ts';
import type { PracticeKind } from '../../model/index.ts';
import type { Inline } from '../book.ts';
import type { Asked, AskedState } from '../book-practice.ts';
import type { Random } from './random.ts';
import type { Facts, Scene, Subject } from './scene.ts';
import { askedFact } from './words.ts';

export interface Draft {
  readonly kind: PracticeKind;
  /** No two questions of a sheet have the same. */
  readonly key: string;
  /** Absent where nothing but what is fitted matters. */
  readonly scene?: Scene;
  /** The aircraft that it is about; several are compared. */
  readonly subjects: readonly Subject[];
  readonly facts: Facts;
  readonly words: readonly Inline[];
  readonly options: readonly DraftOption[];
  /** The right one. */
  readonly right: DraftOption;
  readonly because: readonly Inline[];
  readonly proof: readonly Inline[];
  /** The options keep their order: positions of a control. */
  readonly ordered?: boolean;
}

export interface DraftOption {
  readonly words: readonly Inline[];
  readonly asked: Asked['options'][number];
}

/** What questions are drawn from. */
export interface Pool {
  readonly compiled: Compiled;
  readonly random: Random;
  readonly subjects: readonly Subject[];
  /** Of the set's panels, in the fleet's order; lamps and supplies left out. */
  readonly behaviours: readonly Behaviour[];
}

export function askedFacts(compiled: Compiled, subjects: readonly Subject[], facts: Facts): Asked['facts'] {
  return subjects.map(({ aircraft, settled }) => ({
    serial: aircraft.serial,
    facts: [...facts].map(([level, value]) => askedFact(compiled, settled, level, value)),
  }));
}

export function askedState({ item, attribute }: Behaviour, ...states: string[]): AskedState {
  return { item: item.id, attribute: attribute.id, states };
}
