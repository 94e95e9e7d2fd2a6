/** Claims: each must hold in every case that can happen, on every fit of the fleet. */
import type { Claim } from '../model/index.ts';
import { type Surroundings, witness } from './behaviour.ts';
import { reportUnguarded } from './guards.ts';

/** Reports each claim that fails, with a counterexample and the aircraft on which it fails. */
export function checkClaims(around: Surroundings): void {
  const { fleet, fits, diagrams, expressions, diagnostics } = around;
  const claims: readonly Claim[] = [...fleet.claims, ...fleet.notes.flatMap((note) => note.claims)];
  for (const claim of claims) {
    if (reportUnguarded(claim.expression, fits, around)) continue;
    const found = witness(diagrams.not(expressions.compile(claim.expression)), around);
    if (!found) continue;
    diagnostics.report('SL406', { sentence: claim.sentence, case: found.words, aircraft: found.aircraft }, claim.place);
  }
}
