/** Which positions a control has on a fit. */
import type { Control } from '../model/index.ts';
import type { Compiled } from './compile.ts';
import { positionsOn } from './expressions.ts';
import type { Fit, SettledFit } from './fits.ts';

/** The positions by index, in the author's order; none when the control is not fitted. */
export function positionsOf(
  { expressions, diagrams, space }: Compiled,
  control: Control,
  fit: Fit | SettledFit,
): number[] {
  return positionsOn(expressions, diagrams, space, control, fit);
}
