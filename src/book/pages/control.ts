/** A control's page: which one is fitted, what each position does, the tables that prove it. */
import { type Behaviour, type Compiled, type Fit, levelOf, positionsOf } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Control, Fleet, Position } from '../../model/index.ts';
import { controlAddress, panelAddress } from '../addresses.ts';
import type { AttributeViews } from '../attributes.ts';
import type { ControlPage, Inline, PositionSentence, SentenceGroup } from '../book.ts';
import { plain, text } from '../cells.ts';
import { drivenBy, drivenViews } from '../driven.ts';
import { effectivityOf } from '../effectivity.ts';
import { namedIn } from '../expression-words.ts';
import { citations, citing, definedBase, itemsReading, listedItem, listedSupplies, listedVariables } from '../links.ts';
import { listedReadersInTime } from '../links-time.ts';
import { positionLegend } from '../positions.ts';
import { cuesOf, factsOf } from '../recognition.ts';
import { positionSentence } from '../sentences.ts';
import { trailTo } from '../trail.ts';

export function controlPage(compiled: Compiled, views: AttributeViews, control: Control): ControlPage {
  const { fleet } = compiled;
  const driven = drivenBy(compiled, control);
  const items = [...new Set(driven.map(({ item }) => item))];
  const reading = itemsReading(compiled, control.id);
  const panel = fleet.panels.find(({ id }) => id === control.panel);
  if (!panel) throw new Error(`${control.id} stands on no panel`);
  return {
    kind: 'control',
    address: controlAddress(control),
    title: control.title,
    trail: trailTo(panel),
    ...definedBase(fleet, control),
    citations: citations(fleet, [control, ...items.flatMap(citing)]),
    form: control.form,
    panel: { to: panelAddress(panel), title: panel.title },
    facts: factsOf(compiled, control),
    cues: cuesOf(compiled, control),
    sentences: sentenceGroups(compiled, control, driven),
    attributes: drivenViews(compiled, views, control, driven),
    messages: reading.filter(({ kind }) => kind === 'message').map(listedItem),
    supply: listedSupplies(
      fleet,
      items.flatMap((item) => item.supply),
    ),
    reads: variablesRead(compiled, control, driven),
    readBy: [
      ...reading.filter((item) => item.kind !== 'message' && !items.includes(item)).map(listedItem),
      ...listedReadersInTime(fleet, control.id),
    ],
  };
}

/** What the driven attributes depend on beside the control itself. */
function variablesRead({ space }: Compiled, control: Control, driven: readonly Behaviour[]): ControlPage['reads'] {
  const levels = new Set(driven.flatMap(({ own }) => own));
  const itself = levelOf(space, control.id);
  return space.meanings
    .filter((meaning, level) => levels.has(level) && level !== itself && meaning.kind !== 'option')
    .flatMap(listedVariables);
}

/** Fits on which all sentences of the control read the same stand together. */
function sentenceGroups(compiled: Compiled, control: Control, driven: readonly Behaviour[]): SentenceGroup[] {
  const fitted = compiled.fits.filter((fit) => positionsOf(compiled, control, fit).length > 0);
  const say = (fit: Fit): PositionSentence[] =>
    positionsOf(compiled, control, fit).map((index) => {
      const position = control.positions[index] as Position;
      return {
        legend: plain(positionLegend(position, fit.settled)),
        position: position.id,
        sentence: said(
          compiled.fleet,
          control,
          driven.flatMap((behaviour) => {
            const words = positionSentence(compiled, behaviour, fit, control, index);
            return words ? [words] : [];
          }),
        ),
      };
    });
  const groups = Map.groupBy(fitted, (fit) => JSON.stringify(say(fit)));
  return [...groups.values()].map((fits) => ({
    effectivity: effectivityOf(compiled, fits),
    positions: say(fits[0] as Fit),
  }));
}

/** Sentences one after the other; a control may drive nothing on some aircraft, or only decide over overrides. */
function said(fleet: Fleet, control: Control, sentences: readonly (readonly Inline[])[]): Inline[] {
  if (sentences.length === 0) {
    const deciding = fleet.overrides.filter(({ when }) => namedIn(fleet, [when]).some(({ id }) => id === control.id));
    const titles = list(
      deciding.map(({ title }) => title),
      'and',
    );
    const only = `Drives nothing of its own; it decides over ${titles}.`;
    return [text(deciding.length > 0 ? only : 'Drives nothing that this book shows.')];
  }
  return sentences.flatMap((words, index) => (index === 0 ? words : [text(' '), ...words]));
}
