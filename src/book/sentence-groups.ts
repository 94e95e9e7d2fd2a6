/** The sentences of a control or an item, by group of aircraft on which all of them read the same. */
import { type Behaviour, type Compiled, type Fit, positionsOf } from '../compile/index.ts';
import { list } from '../diagnostics/index.ts';
import type { Control, Fleet, Item, Position } from '../model/index.ts';
import type { Inline, PositionSentence, SentenceGroup, StateSentences } from './book.ts';
import { plain, text } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { namedIn } from './mentions.ts';
import { isItemOn, positionLegend } from './positions.ts';
import { ASKS_FOR_NOTHING, itemSaid, positionSaid, sentencesOf } from './sentences.ts';

/** Fits on which all sentences of the control read the same stand together. */
export function sentenceGroups(compiled: Compiled, control: Control, driven: readonly Behaviour[]): SentenceGroup[] {
  const fitted = compiled.fits.filter((fit) => positionsOf(control, fit).length > 0);
  const say = (fit: Fit): PositionSentence[] =>
    positionsOf(control, fit).map((index) => {
      const position = control.positions[index] as Position;
      return {
        legend: plain(positionLegend(position, fit.settled)),
        position: position.id,
        says: said(
          compiled.fleet,
          control,
          sentencesOf(driven.flatMap((behaviour) => positionSaid(compiled, behaviour, fit, control, index) ?? [])),
        ),
      };
    });
  const groups = Map.groupBy(fitted, (fit) => JSON.stringify(say(fit)));
  return [...groups.values()].map((fits) => ({
    effectivity: effectivityOf(compiled, fits),
    positions: say(fits[0] as Fit),
  }));
}

/** Whether a sentence begins by saying that the position asks for nothing. */
function isIdle([first]: readonly Inline[]): boolean {
  return first?.text.startsWith(ASKS_FOR_NOTHING) === true;
}

/** Sentences, one for each thing or for several that do the same; a control may drive nothing on some aircraft, or only decide over overrides. */
function said(
  fleet: Fleet,
  control: Control,
  sentences: readonly (readonly Inline[])[],
): readonly (readonly Inline[])[] {
  if (sentences.length === 0) {
    const deciding = fleet.overrides.filter(({ when }) => namedIn(fleet, [when]).some(({ id }) => id === control.id));
    const titles = list(
      deciding.map(({ title }) => title),
      'and',
    );
    const only = `Drives nothing of its own; it decides over ${titles}.`;
    return [[text(deciding.length > 0 ? only : 'Drives nothing that this book shows.')]];
  }
  // What a position does is asked before what it leaves to others.
  return [...sentences.filter((words) => !isIdle(words)), ...sentences.filter(isIdle)];
}

/** One sentence for each thing that can be seen of an item, its single lamps apart, on the aircraft that have it. */
export function stateSentences(compiled: Compiled, item: Item): StateSentences[] {
  const whole = compiled.behaviours.filter((each) => each.item === item && !each.attribute.lamp);
  const fitted = compiled.fits.filter((fit) => isItemOn(item, fit));
  const say = (fit: Fit): Inline[][] =>
    sentencesOf(whole.flatMap((behaviour) => itemSaid(compiled, behaviour, fit) ?? []));
  const groups = Map.groupBy(fitted, (fit) => JSON.stringify(say(fit)));
  return [...groups.values()].map((fits) => ({
    effectivity: effectivityOf(compiled, fits),
    sentences: say(fits[0] as Fit),
  }));
}
