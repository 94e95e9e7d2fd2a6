/** Which positions a control has on a fit, and the words for them. */
import { type Fit, isFittedOn, legendOn, type On, positionsOf, type SettledFit } from '../compile/index.ts';
import type { Control, Item, Position } from '../model/index.ts';
import type { Inline } from './book.ts';
import { joined, legend, text, upperFirst } from './cells.ts';
import { numberWord } from './number-words.ts';

/**
 * "Three positions: OFF, AUTO, ON", with those that spring back or are abnormal: "Two positions: UP, DOWN (springs back to UP)", or "Not
 * fitted". On a fit with unknown options, what each that it may be has: "Two positions: OFF, ON; or not fitted".
 */
export function positionsText(control: Control, fit: Fit): Inline[] {
  const ways = new Map<string, Inline[]>();
  for (const settled of fit.settled) {
    const words = positionsOn(control, settled);
    ways.set(words.map((part) => part.text).join(''), words);
  }
  return [...ways.values()].flatMap((words, index) => (index === 0 ? words : [text('; or: '), ...words]));
}

export function positionsOn(control: Control, fit: SettledFit): Inline[] {
  const positions = positionsOf(control, fit).map((index) => control.positions[index] as Position);
  if (positions.length === 0) return [text('Not fitted')];
  const count = upperFirst(numberWord(positions.length));
  return [
    text(`${count} ${positions.length === 1 ? 'position' : 'positions'}: `),
    ...positions.flatMap((position, index): Inline[] => [
      ...(index === 0 ? [] : [text(', ')]),
      ...positionLegend(position, [fit]),
      ...marks(control, position, [fit]),
    ]),
  ];
}

/** " (springs back to UP)", " (abnormal)", " (springs back to UP; abnormal)". */
function marks(control: Control, { returns, abnormal }: Position, on: On): Inline[] {
  const rest = control.positions.find(({ id }) => id === returns);
  if (!rest) return abnormal ? [text(' (abnormal)')] : [];
  return [text(' (springs back to '), ...positionLegend(rest, on), text(abnormal ? '; abnormal)' : ')')];
}

/** What stands on the panel at a position; several legends where the fits differ. */
export function positionLegend(position: Position, on: On): Inline[] {
  return joined([...new Set(on.map((fit) => legendOn(position, fit)))].map(legend), ' / ');
}

/** What stands on an annunciator or a sign on a fit: a frame for each that it may be. */
export function itemLegend({ legend: usual, legends }: Item, { settled }: Fit): Inline[] {
  const words = settled.flatMap((fit) => legendOn({ legend: usual, legends }, fit) ?? []);
  return joined([...new Set(words)].map(legend), ' / ');
}

/** Whether a control is fitted on a fit, or may be. */
export function isControlOn(control: Control, fit: Fit): boolean {
  return positionsOf(control, fit).length > 0;
}

/** Whether an item is fitted on a fit, or may be. */
export function isItemOn(item: Item, fit: Fit): boolean {
  return fit.settled.some((settled) => isFittedOn(item, settled));
}
