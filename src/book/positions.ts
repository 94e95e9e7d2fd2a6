/** Which positions a control has on a fit, and the words for them. */
import type { Control } from '../model/index.ts';
import type { Inline } from './book.ts';
import { text } from './cells.ts';

/** "Three positions: OFF, AUTO, ON", or "Not fitted". */
export function positionsText(control: Control, positions: readonly number[]): Inline[] {
  if (positions.length === 0) return [text('Not fitted')];
  const count = COUNT[positions.length] ?? String(positions.length);
  return [
    text(`${count} ${positions.length === 1 ? 'position' : 'positions'}: `),
    ...positions.flatMap((position, index): Inline[] => [
      ...(index === 0 ? [] : [text(', ')]),
      { kind: 'legend', text: control.positions[position]?.legend ?? '' },
    ]),
  ];
}

const COUNT = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine', 'Ten', 'Eleven', 'Twelve'];
