/** A panel's page: its places, its controls, and what is seen of them. */
import { type Compiled, positionsOf } from '../../compile/index.ts';
import type { Control, Panel, PanelPlace } from '../../model/index.ts';
import { panelAddress, placeAnchor } from '../addresses.ts';
import { lightsFigure } from '../aircraft-figures.ts';
import type { PanelPage, PlaceView } from '../book.ts';
import { effectivityOf } from '../effectivity.ts';
import { citations, definedBase, listedControl, listedItem } from '../links.ts';
import { listedSequence, listedSound } from '../links-time.ts';
import { listedTour } from '../lists.ts';
import { schematicOf } from '../schematic.ts';
import { trailTo } from '../trail.ts';

export function panelPage(compiled: Compiled, panel: Panel): PanelPage {
  const { fleet } = compiled;
  const items = fleet.items.filter((item) => item.panel === panel.id);
  const where = lightsFigure({ id: 'where', heading: 'Where the lights are', title: panel.title }, items);
  const schematic = schematicOf(compiled, panel);
  return {
    kind: 'panel',
    address: panelAddress(panel),
    title: panel.title,
    trail: trailTo(),
    ...definedBase(fleet, panel),
    ...(schematic ? { schematic } : {}),
    citations: citations(fleet, [panel]),
    places: fleet.places.filter((place) => place.panel === panel.id).map((place) => placeView(compiled, place)),
    controls: fleet.controls.filter((control) => control.panel === panel.id).map(listedControl),
    items: items.filter(({ kind }) => kind !== 'supply').map(listedItem),
    ...(where ? { where } : {}),
    supplies: items.filter(({ kind }) => kind === 'supply').map(listedItem),
    sequences: fleet.sequences.filter((sequence) => sequence.panel === panel.id).map(listedSequence),
    sounds: fleet.sounds.filter((sound) => sound.panel === panel.id).map(listedSound),
    tours: fleet.tours.filter((tour) => tour.panel === panel.id).map(listedTour),
  };
}

function placeView(compiled: Compiled, place: PanelPlace): PlaceView {
  const { fleet, fits } = compiled;
  const inIt = fleet.controls.filter(({ at }) => at === place.id);
  const isOn = (control: Control, fit: (typeof fits)[number]): boolean => positionsOf(control, fit).length > 0;
  const empty = fits.filter((fit) => !inIt.some((control) => isOn(control, fit)));
  return {
    id: placeAnchor(place.id),
    title: place.title,
    ...(place.about === undefined ? {} : { about: place.about }),
    fitted: [
      ...inIt
        .map((control) => ({ control, having: fits.filter((fit) => isOn(control, fit)) }))
        .filter(({ having }) => having.length > 0)
        .map(({ control, having }) => ({
          control: listedControl(control),
          effectivity: effectivityOf(compiled, having),
        })),
      ...(empty.length > 0 ? [{ effectivity: effectivityOf(compiled, empty) }] : []),
    ],
  };
}
