/** The page of a light, sign, annunciator or message. */
import type { Compiled } from '../../compile/index.ts';
import type { Item } from '../../model/index.ts';
import { itemAddress, panelAddress } from '../addresses.ts';
import { lightFigure } from '../aircraft-figures.ts';
import { type AttributeViews, viewOf } from '../attributes.ts';
import type { ItemPage } from '../book.ts';
import { heldBack, inEveryCase, legendsByAircraft, openQueries, overrideViews } from '../item-facts.ts';
import { lampsAlike, lampViews } from '../lamps.ts';
import {
  citations,
  citing,
  definedBase,
  itemsNamedBy,
  listedControl,
  listedItem,
  listedSupplies,
  listedVariables,
  variablesOf,
} from '../links.ts';
import { listedReadersInTime } from '../links-time.ts';
import { trailTo } from '../trail.ts';
import { waysOf } from '../ways.ts';
import { type ProcedureView, useOfItem } from './procedure.ts';

export function itemPage(
  compiled: Compiled,
  views: AttributeViews,
  procedures: readonly ProcedureView[],
  item: Item,
): ItemPage {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === item.panel);
  if (!panel) throw new Error(`${item.id} stands on no panel`);
  const controls = fleet.controls.filter(
    ({ id }) => item.stations.includes(id) || item.attributes.some(({ control }) => control === id),
  );
  const where = lightFigure(item);
  const variables = variablesOf(compiled, item);
  return {
    kind: 'item',
    address: itemAddress(item),
    title: item.title,
    trail: trailTo(panel),
    ...definedBase(fleet, item),
    citations: citations(fleet, citing(item)),
    itemKind: item.kind,
    ...(item.zone === undefined ? {} : { zone: item.zone }),
    legends: legendsByAircraft(compiled, item),
    lamps: lampViews(compiled, item),
    lampsAlike: lampsAlike(compiled, item),
    ...(where ? { where } : {}),
    overrides: overrideViews(compiled, item),
    inEveryCase: inEveryCase(compiled, item),
    held: heldBack(compiled, item),
    queries: openQueries(compiled, item),
    panel: { to: panelAddress(panel), title: panel.title },
    controls: controls.map(listedControl),
    ...(item.colour === undefined ? {} : { colour: item.colour }),
    ...(item.legend === undefined ? {} : { legend: item.legend }),
    ...(item.messageClass === undefined ? {} : { messageClass: item.messageClass }),
    attributes: compiled.behaviours
      .filter((behaviour) => behaviour.item === item)
      .map((behaviour) => viewOf(views, behaviour)),
    supply: listedSupplies(fleet, item.supply),
    reads: [...variables.flatMap(listedVariables), ...itemsNamedBy(fleet, item).map(listedItem)],
    readBy: [
      ...fleet.items.filter((other) => itemsNamedBy(fleet, other).includes(item)).map(listedItem),
      ...listedReadersInTime(fleet, item.id),
    ],
    ways: waysOf(compiled, item),
    use: useOfItem(procedures, item),
  };
}
