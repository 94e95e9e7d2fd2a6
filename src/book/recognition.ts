/** How to recognise which control is fitted, and what can be said of a control as such. */
import { type Compiled, controlMeaning, type Fit, legendsOf } from '../compile/index.ts';
import { referencesOf } from '../language/index.ts';
import { type Control, withSmallInitial } from '../model/index.ts';
import { controlAddress, optionAddress, panelAddress, placeAnchor } from './addresses.ts';
import type { Inline, RecognitionCue } from './book.ts';
import { joined, legend, link, plain, separate, text } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { optionValue, settledOf } from './fits.ts';
import { isControlOn, positionsText } from './positions.ts';

/** What each group of aircraft has: those with the control first. */
export function cuesOf(compiled: Compiled, control: Control): RecognitionCue[] {
  const groups = [
    ...Map.groupBy(compiled.fits, (fit) => `${plain(positionsText(control, fit))}|${plain(insteadOn(fit))}`),
  ].map(([, fits]) => fits);
  const has = ([fit]: readonly Fit[]): boolean => fit !== undefined && isControlOn(control, fit);
  return [...groups.filter(has), ...groups.filter((fits) => !has(fits))].map((fits) => ({
    text: positionsText(control, fits[0] as Fit),
    effectivity: effectivityOf(compiled, fits),
    because: because(compiled, control, fits),
    instead: insteadOn(fits[0] as Fit),
  }));

  function insteadOn(fit: Fit): Inline[] {
    if (isControlOn(control, fit)) return [];
    const others = alternatives(compiled, control).filter((other) => isControlOn(other, fit));
    if (others.length === 0) return [];
    return [text('In its stead: '), ...joined(others.map(linked), ', ')];
  }
}

/** Guarded, its place, what else may be fitted there, what it counts as. The place goes without saying where `atPlace`. */
export function factsOf(compiled: Compiled, control: Control, atPlace = false): Inline[][] {
  const { fleet, fits } = compiled;
  const place = fleet.places.find(({ id }) => id === control.at);
  const facts: Inline[][] = [];
  if (control.guarded) facts.push([text('Guarded: lift the guard to move it.')]);
  if (place && !atPlace) {
    const others = fleet.controls.filter((other) => other !== control && other.at === place.id);
    const shared = others.map((other) => {
      const having = fits.filter((fit) => isControlOn(other, fit));
      return [text('the '), linked(other), text(` (${effectivityOf(compiled, having).text})`)];
    });
    facts.push([
      text('Its place: '),
      link(panelAddress({ id: place.panel }), place.title, placeAnchor(place.id)),
      text(shared.length === 0 ? '.' : '. The same place may hold '),
      ...separate(shared),
      ...(shared.length === 0 ? [] : [text('.')]),
    ]);
  }
  return [...facts, ...counterpartFacts(compiled, control)];
}

/** "Where aircraft are compared it counts as the logo switch: 0 as OFF, 1 as ON; 2 is like none of its positions." */
function counterpartFacts(compiled: Compiled, control: Control): Inline[][] {
  const meaning = controlMeaning(compiled.space, control);
  return meaning.controls
    .filter((other) => other !== control && (other === meaning.control || control === meaning.control))
    .map((other) => {
      const on = settledOf(compiled.fits);
      const pairs = meaning.values.flatMap((positions, value) => {
        if (!positions.has(control)) return [];
        const [own, others] = [control, other].map((each) =>
          legendsOf({ ...meaning, values: meaning.values.map((some) => only(some, each)) }, value, on),
        ) as [string[], string[]];
        const shown = joined(own.map(legend), ' / ');
        if (!positions.has(other)) return [[...shown, text(' as none of its positions')]];
        return [[...shown, text(' as '), ...joined(others.map(legend), ' / ')]];
      });
      return [
        text('Where aircraft are compared it counts as the '),
        link(controlAddress(other), withSmallInitial(other.title)),
        text(': '),
        ...pairs.flatMap((pair, at) => (at === 0 ? pair : [text(', '), ...pair])),
        text('.'),
      ];
    });
}

function only(positions: ReadonlyMap<Control, number>, control: Control): ReadonlyMap<Control, number> {
  return new Map([...positions].filter(([each]) => each === control));
}

/** The controls that stand for it where it is not fitted: in the same place, or its counterparts. */
function alternatives({ fleet, space }: Compiled, control: Control): Control[] {
  const same = new Set(controlMeaning(space, control).controls);
  return fleet.controls.filter(
    (other) => other !== control && (same.has(other) || (other.at !== undefined && other.at === control.at)),
  );
}

function linked(control: Control): Inline {
  return link(controlAddress(control), withSmallInitial(control.title));
}

/** The values of the options that decide which control is fitted and what stands on it, on one group of fits. */
function because({ fleet }: Compiled, control: Control, fits: readonly Fit[]): Inline[] {
  const deciding = [
    control.fitted,
    ...control.positions.flatMap(({ fitted, legends }) => [fitted, ...legends.map(({ when }) => when)]),
  ].flatMap((expression) => (expression ? referencesOf(expression).map(({ id }) => id) : []));
  return fleet.options
    .filter(({ id }) => deciding.includes(id))
    .flatMap((option, index): Inline[] => {
      const values = [
        ...option.values
          .filter(({ id }) => fits.some((fit) => fit.options.get(option.id) === id))
          .map(({ title }) => title),
        ...new Set(fits.filter(({ unknown }) => unknown.includes(option.id)).map((fit) => optionValue(option, fit))),
      ];
      return [
        ...(index === 0 ? [] : [text('; ')]),
        link(optionAddress(option), option.title),
        text(`: ${values.join(' or ')}`),
      ];
    });
}
