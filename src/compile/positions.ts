/** What is fitted where, as the options of a fit decide: controls, their positions, and what else may be there or not. */
import { type Control, holdsOnFit, type Item } from '../model/index.ts';
import type { Fit, SettledFit } from './fits.ts';
import { absentValue, type Space, valueOfPosition } from './space.ts';

/** Whether a control, a position or an item is fitted on a fit whose options are all settled. */
export function isFittedOn({ fitted }: Pick<Item, 'fitted'>, { options }: Pick<SettledFit, 'options'>): boolean {
  return fitted === undefined || holdsOnFit(fitted, options) === true;
}

/** The positions that a control has on a fit, or may have, by index in the author's order; none where it is not fitted. */
export function positionsOf(control: Control, fit: Fit | SettledFit): number[] {
  const settled = 'settled' in fit ? fit.settled : [fit];
  const having = settled.filter((each) => isFittedOn(control, each));
  return control.positions.flatMap((position, index) =>
    having.some((each) => isFittedOn(position, each)) ? [index] : [],
  );
}

/** The values that a control's or a sequence's variable can have on a fit: positions or modes of what is fitted, or that there is none. */
export function settingsOn(space: Space, level: number, fit: SettledFit): number[] {
  const meaning = space.meanings[level];
  if (meaning?.kind === 'sequence') {
    const { sequence } = meaning;
    return isFittedOn(sequence, fit) ? [...sequence.modes.keys()] : [absentValue(meaning)];
  }
  if (meaning?.kind !== 'control') throw new Error(`neither a control nor a sequence stands at level ${level}`);
  const fitted = meaning.controls.filter((control) => isFittedOn(control, fit));
  if (fitted.length === 0) return [absentValue(meaning)];
  const values = fitted.flatMap((control) =>
    positionsOf(control, fit).map((position) => valueOfPosition(meaning, control, position)),
  );
  return [...new Set(values)].sort((a, b) => a - b);
}
