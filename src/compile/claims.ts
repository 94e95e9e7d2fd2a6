/** Claims: each must hold in every case that can happen, on every fit of the fleet, and say something there. */
import type { Expression } from '../language/index.ts';
import { LimitError } from '../logic/index.ts';
import { type Claim, standingClaims } from '../model/index.ts';
import { type Surroundings, witness } from './behaviour.ts';
import { reportUnguarded } from './guards.ts';
import { optionLevels } from './space.ts';
import { limitText, PIECE, variablesOf } from './within-limit.ts';

/**
 * Reports each claim that fails, with its plainest counterexample and the aircraft on which it fails, and each that holds
 * only because its premise never happens.
 */
export function checkClaims(around: Surroundings): void {
  for (const claim of standingClaims(around.fleet)) {
    try {
      around.diagrams.within(PIECE, () => checkClaim(claim, around));
    } catch (error) {
      if (!(error instanceof LimitError) || error.whole) throw error;
      const facts = { sentence: claim.sentence, limit: limitText(error), variables: variablesOf([claim.expression]) };
      around.diagnostics.report('SL415', facts, claim.place);
    }
  }
}

function checkClaim(claim: Claim, around: Surroundings): void {
  const { fits, diagrams, expressions, diagnostics } = around;
  if (reportUnguarded(claim.expression, fits, around)) return;
  const found = witness(diagrams.not(expressions.compile(claim.expression)), around);
  if (found) {
    const facts = { sentence: claim.sentence, case: found.words, aircraft: found.aircraft };
    diagnostics.report('SL406', facts, claim.place);
  } else if (isVacuous(claim, around)) {
    diagnostics.report('SL412', { sentence: claim.sentence }, premiseOf(claim)?.place ?? claim.place);
  }
}

function premiseOf({ expression }: Claim): Expression | undefined {
  return expression.op === 'implies' ? expression.premise : undefined;
}

/** Whether the premise never happens, on any fit. */
function isVacuous(claim: Claim, { fits, possible, space, diagrams, expressions }: Surroundings): boolean {
  const premise = premiseOf(claim);
  if (!premise) return false;
  const node = expressions.compile(premise);
  return fits.every((fit) => {
    const here = diagrams.restrictAll(node, optionLevels(space, fit));
    return !possible[fit.index]?.allows(here);
  });
}
