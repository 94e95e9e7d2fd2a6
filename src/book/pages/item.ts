/** The page of a light, sign, annunciator or message. */
import type { Compiled } from '../../compile/index.ts';
import type { Item } from '../../model/index.ts';
import { itemAddress, panelAddress } from '../addresses.ts';
import { attributeView } from '../attributes.ts';
import type { ItemPage } from '../book.ts';
import {
  citationsOfItem,
  definedBase,
  itemsNamedBy,
  listedControl,
  listedItem,
  listedVariable,
  variablesOf,
} from '../links.ts';
import { trailTo } from '../trail.ts';

export function itemPage(compiled: Compiled, item: Item): ItemPage {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === item.panel);
  if (!panel) throw new Error(`${item.id} stands on no panel`);
  const control = fleet.controls.find(({ id }) => id === item.control);
  const variables = variablesOf(compiled, item);
  return {
    kind: 'item',
    address: itemAddress(item),
    title: item.title,
    trail: trailTo(panel),
    ...definedBase(fleet, item),
    citations: citationsOfItem(fleet, item),
    itemKind: item.kind,
    panel: { to: panelAddress(panel), title: panel.title },
    ...(control ? { control: listedControl(control) } : {}),
    ...(item.colour === undefined ? {} : { colour: item.colour }),
    ...(item.legend === undefined ? {} : { legend: item.legend }),
    ...(item.messageClass === undefined ? {} : { messageClass: item.messageClass }),
    attributes: compiled.behaviours
      .filter((behaviour) => behaviour.item === item)
      .map((behaviour) => attributeView(compiled, behaviour)),
    supply: variables
      .filter((meaning) => meaning.kind === 'condition' && item.supply.includes(meaning.condition.id))
      .map(listedVariable),
    reads: [...variables.map(listedVariable), ...itemsNamedBy(fleet, item).map(listedItem)],
    readBy: fleet.items.filter((other) => itemsNamedBy(fleet, other).includes(item)).map(listedItem),
  };
}
