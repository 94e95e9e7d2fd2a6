/**
 * What an aircraft can be in while a reader moves its inputs one after another. Readers set controls, conditions, numbers and
 * lamps; everything that is open beside these stands as a world of its own: how a detector within its tolerance answers, what
 * is not stated, what an unknown option is, and the modes that come of each.
 */
import type { Facts } from '../because.ts';

export interface World {
  /** Place in the list of settled fits. */
  readonly fit: number;
  /** Of detectors and of what is not stated, as far as transitions read it. */
  readonly answers: Facts;
  readonly modes: Facts;
  /** The leaps whose event has come in the present mode. */
  readonly happened: ReadonlySet<number>;
}

export interface Situation {
  /** By level, what the reader has set; on a fit that lacks a control it says nothing. */
  readonly inputs: Facts;
  /** One at least. */
  readonly worlds: readonly World[];
}

/** What a reader does. */
export type Act =
  /** Inputs are set, at the same time. */
  | { readonly kind: 'set'; readonly values: Facts }
  /** Time passes until a sequence goes on from one mode to another. */
  | { readonly kind: 'wait'; readonly level: number; readonly from: number; readonly to: number }
  /** Of what is open, one answer is supposed: of a detector or of a mode. */
  | { readonly kind: 'suppose'; readonly level: number; readonly value: number };

/** What `explore` knows each world by. */
export function keyOfWorld({ fit, answers, modes, happened }: World): string {
  const facts = (all: Facts): string => [...all].sort(([a], [b]) => a - b).join(' ');
  return [fit, facts(answers), facts(modes), [...happened].sort((a, b) => a - b).join(' ')].join(' | ');
}
