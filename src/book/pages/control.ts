/** A control's page: which one is fitted, what each position does, the tables that prove it. */
import { type Behaviour, type Compiled, type Fit, positionsOf } from '../../compile/index.ts';
import { referencesOf } from '../../language/index.ts';
import type { Aircraft, Control } from '../../model/index.ts';
import { controlAddress, optionAddress, panelAddress } from '../addresses.ts';
import { type AttributeViews, viewOf } from '../attributes.ts';
import type { ControlPage, Inline, PositionSentence, RecognitionCue, SentenceGroup } from '../book.ts';
import { text } from '../cells.ts';
import { effectivity } from '../effectivity.ts';
import { citations, citing, definedBase, itemsReading, listedCondition, listedItem, listedVariable } from '../links.ts';
import { positionsText } from '../positions.ts';
import { positionSentence } from '../sentences.ts';
import { trailTo } from '../trail.ts';

export function controlPage(compiled: Compiled, views: AttributeViews, control: Control): ControlPage {
  const { fleet } = compiled;
  const driven = drivenBy(compiled, control);
  const items = [...new Set(driven.map(({ item }) => item))];
  const reading = itemsReading(compiled, control.id);
  const supply = new Set(items.flatMap((item) => item.supply));
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
    cues: cues(compiled, control),
    sentences: sentenceGroups(compiled, control, driven),
    attributes: driven.map((behaviour) => viewOf(views, behaviour)),
    messages: reading.filter(({ kind }) => kind === 'message').map(listedItem),
    supply: fleet.conditions.filter(({ id }) => supply.has(id)).map(listedCondition),
    reads: variablesRead(compiled, control, driven),
    readBy: reading.filter((item) => item.kind !== 'message' && !items.includes(item)).map(listedItem),
  };
}

/** What the control drives, messages apart, in the order of the panel. */
function drivenBy(compiled: Compiled, control: Control): Behaviour[] {
  return compiled.behaviours.filter(
    ({ item, attribute }) => attribute.control === control.id && item.kind !== 'message',
  );
}

/** What the driven attributes depend on beside the control itself. */
function variablesRead(compiled: Compiled, control: Control, driven: readonly Behaviour[]): ControlPage['reads'] {
  const levels = new Set(driven.flatMap(({ own }) => own));
  return compiled.space.meanings
    .filter((meaning, level) => levels.has(level) && meaning.kind !== 'option')
    .filter((meaning) => meaning.kind !== 'control' || meaning.control !== control)
    .map(listedVariable);
}

function cues(compiled: Compiled, control: Control): RecognitionCue[] {
  const groups = groupBy(compiled.fits, (fit) => positionsOf(compiled, control, fit).join(' '));
  const has = ([fit]: readonly Fit[]): boolean => fit !== undefined && positionsOf(compiled, control, fit).length > 0;
  return [...groups.filter(has), ...groups.filter((fits) => !has(fits))].map((fits) => ({
    text: positionsText(control, positionsOf(compiled, control, fits[0] as Fit)),
    effectivity: effectivity(compiled.fleet, aircraftOf(fits)),
    because: because(compiled, control, fits),
  }));
}

/** The values of the options that decide which control is fitted, on one group of fits. */
function because(compiled: Compiled, control: Control, fits: readonly Fit[]): Inline[] {
  const deciding = [control.fitted, ...control.positions.map(({ fitted }) => fitted)].flatMap((expression) =>
    expression ? referencesOf(expression).map(({ id }) => id) : [],
  );
  return compiled.fleet.options
    .filter(({ id }) => deciding.includes(id))
    .flatMap((option, index): Inline[] => {
      const ids = new Set(fits.map((fit) => fit.options.get(option.id)));
      const titles = option.values.filter(({ id }) => ids.has(id)).map(({ title }) => title);
      const to = { to: optionAddress(option), text: option.title };
      return [...(index === 0 ? [] : [text('; ')]), { kind: 'link', ...to }, text(`: ${titles.join(' or ')}`)];
    });
}

/** Fits on which all sentences of the control read the same stand together. */
function sentenceGroups(compiled: Compiled, control: Control, driven: readonly Behaviour[]): SentenceGroup[] {
  const fitted = compiled.fits.filter((fit) => positionsOf(compiled, control, fit).length > 0);
  const say = (fit: Fit): PositionSentence[] =>
    positionsOf(compiled, control, fit).map((value) => ({
      legend: control.positions[value]?.legend ?? '',
      position: control.positions[value]?.id ?? '',
      sentence: said(
        driven.flatMap((behaviour) => {
          const group = behaviour.groups.find(({ fits }) => fits.includes(fit));
          const words = group && positionSentence(compiled, behaviour, group, value);
          return words ? [words] : [];
        }),
      ),
    }));
  return groupBy(fitted, (fit) => JSON.stringify(say(fit))).map((fits) => ({
    effectivity: effectivity(compiled.fleet, aircraftOf(fits)),
    positions: say(fits[0] as Fit),
  }));
}

/** Sentences one after the other; a control may drive nothing on some aircraft. */
function said(sentences: readonly (readonly Inline[])[]): Inline[] {
  if (sentences.length === 0) return [text('Drives nothing that this book shows.')];
  return sentences.flatMap((words, index) => (index === 0 ? words : [text(' '), ...words]));
}

function aircraftOf(fits: readonly Fit[]): Aircraft[] {
  return fits.flatMap(({ aircraft }) => [...aircraft]);
}

function groupBy<T>(list: readonly T[], key: (each: T) => string): T[][] {
  return [...Map.groupBy(list, key).values()];
}
