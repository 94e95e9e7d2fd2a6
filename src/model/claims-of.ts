/** The statements that the author has checked. */
import type { Claim, Fleet } from './fleet.ts';

/** What must hold in every case: claims.yaml, then the text of notes, tours and notices. */
export function standingClaims({ claims, notes, tours, notices }: Fleet): readonly Claim[] {
  return [...claims, ...[...notes, ...tours, ...notices].flatMap((text) => text.claims)];
}

/** Every claim: those that must hold in every case, then those of the stages of procedures. */
export function claimsOf(fleet: Fleet): readonly Claim[] {
  const stages = fleet.procedures.flatMap((procedure) => procedure.stages);
  return [...standingClaims(fleet), ...stages.flatMap((stage) => stage.claims)];
}
