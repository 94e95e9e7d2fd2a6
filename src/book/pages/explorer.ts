/** Where a reader moves the controls of an aircraft and sees what comes of it. */
import type { Compiled } from '../../compile/index.ts';
import { conditionAddress, controlAddress, EXPLORER, inputAnchor, panelAddress } from '../addresses.ts';
import type { ExplorerPage } from '../book-explorer.ts';
import { trailTo } from '../trail.ts';
import { aircraftLists } from './compare.ts';

/** Whether there is anything to move. */
export function hasExplorer({ fleet }: Pick<Compiled, 'fleet'>): boolean {
  return fleet.controls.length > 0;
}

export function explorerPage(compiled: Compiled): ExplorerPage {
  const { fleet } = compiled;
  return {
    kind: 'explorer',
    address: EXPLORER,
    title: 'Explorer',
    trail: trailTo(),
    lists: aircraftLists(compiled),
    panels: fleet.panels
      .map((panel) => ({
        panel: { to: panelAddress(panel), title: panel.title },
        controls: fleet.controls
          .filter((control) => control.panel === panel.id)
          .map((control) => ({ id: inputAnchor(control.id), to: controlAddress(control), title: control.title })),
      }))
      .filter(({ controls }) => controls.length > 0),
    conditions: fleet.conditions.map((condition) => ({
      id: inputAnchor(condition.id),
      to: conditionAddress(condition),
      title: condition.title,
    })),
  };
}
