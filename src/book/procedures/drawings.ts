/** What is lit in a stage of a procedure, marked on the aircraft: one drawing for all aircraft on which it is the same. */
import type { Compiled, Fit } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Item } from '../../model/index.ts';
import { unitsOf } from '../aircraft-figures.ts';
import type { AircraftUnit } from '../book-figures.ts';
import type { StageDrawing } from '../book-procedures.ts';
import { effectivityOf } from '../effectivity.ts';
import { statesOn, type Thing } from './lit.ts';

/** The numbers of the lights that have spots and are lit in some stage, the same ones in all stages. */
export function lightNumbers(things: readonly Thing[]): ReadonlyMap<Item, string> {
  const lit = things
    .filter(({ kind, states }) => kind === 'light' && states.flat(2).length > 0)
    .map(({ behaviour }) => behaviour.item);
  const drawn = [...new Set(lit)].filter((item) => unitsOf(item, '').length > 0);
  return new Map(drawn.map((item, index) => [item, String(index + 1)]));
}

/** The drawings of the stage at an index; none of aircraft on which no lamp with a spot is lit. */
export function drawingsIn(
  compiled: Compiled,
  things: readonly Thing[],
  numbers: ReadonlyMap<Item, string>,
  at: number,
): StageDrawing[] {
  const unitsOn = (fit: Fit): AircraftUnit[] =>
    [...numbers].flatMap(([item, tag]) =>
      unitsOf(item, tag, (_, attribute) => stateOn(things, item, attribute, at, fit)).filter(({ state }) => state),
    );
  return [...Map.groupBy(compiled.fits, (fit) => JSON.stringify(unitsOn(fit))).values()].flatMap((fits, index) => {
    const units = unitsOn(fits[0] as Fit);
    return units.length === 0
      ? []
      : [{ id: `lit-${at + 1}-${index + 1}`, effectivity: effectivityOf(compiled, fits), units }];
  });
}

/** Undefined where it is dark throughout the stage, or not fitted. */
function stateOn(things: readonly Thing[], item: Item, attribute: string, at: number, fit: Fit): AircraftUnit['state'] {
  const thing = things.find(({ behaviour }) => behaviour.item === item && behaviour.attribute.id === attribute);
  if (!thing?.fits.includes(fit)) return undefined;
  const states = statesOn(thing, at, fit).map(({ state }) => state);
  const [first] = states;
  if (!first) return undefined;
  const text = list([...new Set(states.map((state) => state.text))], 'or');
  if (!thing.always[at]?.[fit.index]) return { glyph: 'sometimes', text: `${text} in some cases` };
  const isSame = states.every(({ glyph }) => glyph === first.glyph);
  return { glyph: isSame ? first.glyph : 'lit', text };
}
