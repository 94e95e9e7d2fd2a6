/** The pages that lead to the others: home, panels, about. */
import { type Compiled, positionsOf } from '../../compile/index.ts';
import type { Citation, Panel } from '../../model/index.ts';
import { ABOUT, aircraftAddress, conditionAddress, HOME, optionAddress, panelAddress } from '../addresses.ts';
import type { AboutPage, HomePage, Listed, PanelPage } from '../book.ts';
import { effectivity } from '../effectivity.ts';
import { citations, definedBase, listedControl, listedItem } from '../links.ts';
import { trailTo } from '../trail.ts';

export function homePage({ fleet }: Compiled): HomePage {
  return {
    kind: 'home',
    address: HOME,
    title: fleet.book.title,
    trail: [],
    panels: fleet.panels.map((panel) => ({
      panel: { to: panelAddress(panel), title: panel.title },
      controls: fleet.controls.filter((control) => control.panel === panel.id).map(listedControl),
      items: fleet.items.filter((item) => item.panel === panel.id && item.kind !== 'message').map(listedItem),
    })),
    messages: fleet.items.filter(({ kind }) => kind === 'message').map(listedItem),
    aircraft: fleet.aircraft.map((aircraft) => ({
      to: aircraftAddress(aircraft),
      title: aircraft.registration,
      baseline: aircraft.serial === fleet.book.baseline,
    })),
    conditions: fleet.conditions.map((condition) => ({ to: conditionAddress(condition), title: condition.title })),
    options: fleet.options.map((option) => ({ to: optionAddress(option), title: option.title })),
  };
}

export function panelPage(compiled: Compiled, panel: Panel): PanelPage {
  const { fleet, fits } = compiled;
  return {
    kind: 'panel',
    address: panelAddress(panel),
    title: panel.title,
    trail: trailTo(),
    ...definedBase(fleet, panel),
    citations: citations(fleet, [panel]),
    controls: fleet.controls
      .filter((control) => control.panel === panel.id)
      .map((control) => {
        const having = fits.filter((fit) => positionsOf(compiled, control, fit).length > 0);
        return {
          ...listedControl(control),
          positions: control.positions.map(({ legend }) => legend),
          effectivity: effectivity(
            fleet,
            having.flatMap(({ aircraft }) => aircraft),
          ),
        };
      }),
    items: fleet.items.filter((item) => item.panel === panel.id).map(listedItem),
  };
}

export function aboutPage({ fleet }: Compiled, index: ReadonlyMap<string, Listed>): AboutPage {
  const cited: readonly { id: string; source?: Citation }[] = [
    ...fleet.options,
    ...fleet.conditions,
    ...fleet.panels,
    ...fleet.controls,
    ...fleet.items,
    ...fleet.items.flatMap(({ id, attributes }) =>
      attributes.flatMap(({ rules }) => rules.map(({ source }) => ({ id, ...(source ? { source } : {}) }))),
    ),
  ];
  return {
    kind: 'about',
    address: ABOUT,
    title: 'About and cautions',
    trail: trailTo(),
    sources: fleet.sources.map(({ id, title, revision, date }) => ({
      id,
      title,
      revision,
      ...(date === undefined ? {} : { date }),
      citedBy: [...new Set(cited.filter(({ source }) => source?.document === id).map((each) => each.id))].flatMap(
        (definition) => index.get(definition) ?? [],
      ),
    })),
    notes: fleet.notes.filter(({ about }) => about.length === 0),
  };
}
