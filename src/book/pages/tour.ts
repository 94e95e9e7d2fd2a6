/** A tour: what the book knows of each stop, in the author's order, beside what the author says there. */
import { type Compiled, holdsOn } from '../../compile/index.ts';
import type { Control, Item, Panel, Tour, TourStop } from '../../model/index.ts';
import { controlAddress, itemAddress, panelAddress, placeAnchor, TOURS, tourAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { TourControl, TourItem, TourPage, TourStopView, ToursPage } from '../book-tours.ts';
import { drivenBy } from '../driven.ts';
import { effectivityOf } from '../effectivity.ts';
import { legendsByAircraft } from '../item-facts.ts';
import { itemsNamedBy, itemsReading, listedControl, listedItem } from '../links.ts';
import { listedTour } from '../lists.ts';
import { isControlOn, isItemOn } from '../positions.ts';
import { cuesOf, factsOf } from '../recognition.ts';
import { sentenceGroups, stateSentences } from '../sentence-groups.ts';
import { trailTo } from '../trail.ts';
import { type ProcedureView, useOfControl } from './procedure.ts';

export function toursPage({ fleet }: Compiled): ToursPage {
  return { kind: 'tours', address: TOURS, title: 'Tours', trail: trailTo(), tours: fleet.tours.map(listedTour) };
}

export function tourPage(compiled: Compiled, procedures: readonly ProcedureView[], tour: Tour): TourPage {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === tour.panel);
  if (!panel) throw new Error(`${tour.id} walks along no panel`);
  const on = onItsAircraft(compiled, tour);
  return {
    kind: 'tour',
    address: tourAddress(tour),
    title: tour.title,
    trail: trailTo(panel),
    panel: { to: panelAddress(panel), title: panel.title },
    effectivity: effectivityOf(compiled, on.fits),
    ...(tour.minutes === undefined ? {} : { minutes: tour.minutes }),
    opening: tour.opening,
    stops: tour.stops.map((stop, at) => stopView(on, procedures, stop, at + 1)),
    missing: missingOn(on, panel, tour),
  };
}

/** What was compiled, as far as it concerns the aircraft of the tour: they alone are spoken of. */
function onItsAircraft(compiled: Compiled, tour: Tour): Compiled {
  if (!tour.for) return compiled;
  const { diagrams, space, expressions } = compiled;
  const wanted = expressions.compile(tour.for);
  const isFor = (fit: Compiled['fits'][number]): boolean =>
    fit.settled.some((settled) => holdsOn(diagrams, space, wanted, settled));
  return { ...compiled, fits: compiled.fits.filter(isFor) };
}

function stopView(
  compiled: Compiled,
  procedures: readonly ProcedureView[],
  stop: TourStop,
  number: number,
): TourStopView {
  const { fleet } = compiled;
  const place = fleet.places.find(({ id }) => id === stop.at);
  const item = fleet.items.find(({ id }) => id === stop.at);
  const controls = controlsAt(compiled, stop);
  const defined = place ?? item ?? controls[0];
  if (!defined) throw new Error(`nothing stands at ${stop.at}`);
  return {
    id: `stop-${stop.at}`,
    number,
    title: stop.words ?? defined.title,
    what: place ? 'place' : ((item ? listedItem(item) : listedControl(defined as Control)).detail ?? ''),
    page: place
      ? { to: panelAddress({ id: place.panel }), anchor: placeAnchor(place.id) }
      : { to: item ? itemAddress(item) : controlAddress(defined) },
    ...(defined.about === undefined ? {} : { about: defined.about }),
    controls: controls.map((control) => controlView(compiled, procedures, control, place !== undefined)),
    ...(item ? { item: itemView(compiled, item) } : {}),
    drives: listed(compiled, drivenItems(compiled, controls)),
    messages: listed(compiled, item ? messagesNaming(compiled, item) : messagesReading(compiled, controls)),
    remarks: stop.remarks,
    traps: stop.traps,
  };
}

/** The control that a stop is at, or those that the tour's aircraft have in the place that it is at. */
function controlsAt(compiled: Compiled, { at }: TourStop): Control[] {
  return compiled.fleet.controls.filter(
    (control) => (control.id === at || control.at === at) && compiled.fits.some((fit) => isControlOn(control, fit)),
  );
}

/** In a place only the aircraft that have it there: the others stand under what they have instead. */
function controlView(
  compiled: Compiled,
  procedures: readonly ProcedureView[],
  control: Control,
  inPlace: boolean,
): TourControl {
  const fits = inPlace ? compiled.fits.filter((fit) => isControlOn(control, fit)) : compiled.fits;
  const on = { ...compiled, fits };
  return {
    id: `at-${control.id}`,
    control: listedControl(control),
    ...(inPlace && control.about !== undefined ? { about: control.about } : {}),
    facts: factsOf(compiled, control, inPlace),
    cues: cuesOf(on, control),
    sentences: sentenceGroups(on, control, drivenBy(compiled, control)),
    use: useOfControl(procedures, control),
  };
}

function itemView(compiled: Compiled, item: Item): TourItem {
  const controls = compiled.fleet.controls.filter(
    ({ id }) => item.stations.includes(id) || item.attributes.some(({ control }) => control === id),
  );
  return {
    ...(item.legend === undefined ? {} : { legend: item.legend }),
    legends: legendsByAircraft(compiled, item),
    fitted: effectivityOf(
      compiled,
      compiled.fits.filter((fit) => isItemOn(item, fit)),
    ),
    states: stateSentences(compiled, item),
    controls: controls.map(listedControl),
  };
}

function drivenItems(compiled: Compiled, controls: readonly Control[]): Item[] {
  return [...new Set(controls.flatMap((control) => drivenBy(compiled, control).map(({ item }) => item)))];
}

function messagesReading(compiled: Compiled, controls: readonly Control[]): Item[] {
  const reading = controls.flatMap(({ id }) => itemsReading(compiled, id)).filter(({ kind }) => kind === 'message');
  return [...new Set(reading)];
}

function messagesNaming({ fleet }: Compiled, item: Item): Item[] {
  return fleet.items.filter((each) => each.kind === 'message' && itemsNamedBy(fleet, each).includes(item));
}

/** Those that some aircraft of the tour has. */
function listed(compiled: Compiled, items: readonly Item[]): Listed[] {
  return items.filter((item) => compiled.fits.some((fit) => isItemOn(item, fit))).map(listedItem);
}

/** What the tour passes by: what stands on its aircraft's panel, and no stop is at or drives. */
function missingOn(compiled: Compiled, panel: Panel, tour: Tour): Listed[] {
  const { fleet } = compiled;
  const controls = tour.stops.flatMap((stop) => controlsAt(compiled, stop));
  const shown = new Set([
    ...tour.stops.map(({ at }) => at),
    ...[...controls, ...drivenItems(compiled, controls)].map(({ id }) => id),
  ]);
  const isLeftOut = (each: Control | Item): boolean => each.panel === panel.id && !shown.has(each.id);
  return [
    ...fleet.controls
      .filter((control) => isLeftOut(control) && compiled.fits.some((fit) => isControlOn(control, fit)))
      .map(listedControl),
    ...listed(
      compiled,
      fleet.items.filter((item) => isLeftOut(item) && item.kind !== 'message' && item.kind !== 'supply'),
    ),
  ];
}
