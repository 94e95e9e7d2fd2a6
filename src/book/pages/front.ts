/** The first page: everything in two taps. */
import type { Compiled } from '../../compile/index.ts';
import type { Fleet } from '../../model/index.ts';
import { aircraftAddress, conditionAddress, HOME, optionAddress, panelAddress, QUERIES } from '../addresses.ts';
import type { HomePage, Listed } from '../book.ts';
import { listedControl, listedItem } from '../links.ts';
import { homeLists, listPages } from '../lists.ts';

export function homePage(compiled: Compiled): HomePage {
  const { fleet } = compiled;
  return {
    kind: 'home',
    address: HOME,
    title: fleet.book.title,
    trail: [],
    panels: fleet.panels.map((panel) => ({
      panel: { to: panelAddress(panel), title: panel.title },
      controls: fleet.controls.filter((control) => control.panel === panel.id).map(listedControl),
      items: fleet.items
        .filter(({ panel: on, kind }) => on === panel.id && kind !== 'message' && kind !== 'supply')
        .map(listedItem),
    })),
    messages: fleet.items.filter(({ kind }) => kind === 'message').map(listedItem),
    aircraft: fleet.aircraft
      .filter(({ kind }) => kind === 'aircraft')
      .map((aircraft) => ({
        to: aircraftAddress(aircraft),
        title: aircraft.registration,
        baseline: aircraft.serial === fleet.book.baseline,
      })),
    devices: fleet.aircraft
      .filter(({ kind }) => kind === 'device')
      .map((device) => ({
        to: aircraftAddress(device),
        title: device.registration,
        ...(device.serial === fleet.book.baseline ? { detail: 'baseline' } : {}),
      })),
    conditions: fleet.conditions.map((condition) => ({ to: conditionAddress(condition), title: condition.title })),
    options: fleet.options.map((option) => ({ to: optionAddress(option), title: option.title })),
    queries: queriesListed(fleet),
    lookUp: listPages(compiled),
    ...homeLists(compiled),
  };
}

/** The register of queries, where there is one, with how many are open: "2 open, 1 answered". */
export function queriesListed({ queries }: Fleet): Listed[] {
  if (queries.length === 0) return [];
  const answered = queries.filter((query) => query.answered).length;
  const detail = [
    ...(answered < queries.length ? [`${queries.length - answered} open`] : []),
    ...(answered > 0 ? [`${answered} answered`] : []),
  ].join(', ');
  return [{ to: QUERIES, title: 'Queries', detail }];
}
