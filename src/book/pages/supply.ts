/** Electrical supplies: what feeds each, in which order, what it feeds, and what is seen when something is lost. */
import { type Compiled, holdsOn } from '../../compile/index.ts';
import type { Item } from '../../model/index.ts';
import { itemAddress, panelAddress, SUPPLIES } from '../addresses.ts';
import { type AttributeViews, viewOf } from '../attributes.ts';
import type { Listed } from '../book.ts';
import type { SuppliesPage, SupplyPage, SupplyView } from '../book-supplies.ts';
import { text } from '../cells.ts';
import { effectivityOf } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import {
  citations,
  citing,
  definedBase,
  itemsNamedBy,
  listedCondition,
  listedItem,
  listedVariables,
  variablesOf,
} from '../links.ts';
import { listedReadersInTime } from '../links-time.ts';
import { anchorOf, causes, causesOf, causeTitle, lossView } from '../losses.ts';
import { trailTo } from '../trail.ts';

export function suppliesPage(compiled: Compiled): SuppliesPage {
  return {
    kind: 'supplies',
    address: SUPPLIES,
    title: 'Supplies',
    trail: trailTo(),
    supplies: suppliesOf(compiled).map((supply) => supplyView(compiled, supply)),
    losses: causes(compiled).map((cause) => lossView(compiled, cause)),
  };
}

/** Whether the book has anything to say of supplies: buses, or conditions that feed an item. */
export function hasSupplies({ fleet }: Compiled): boolean {
  return fleet.items.some(
    ({ kind, supply, attributes }) =>
      kind === 'supply' || supply.length > 0 || attributes.some(({ lamp }) => (lamp?.supply.length ?? 0) > 0),
  );
}

export function supplyPage(compiled: Compiled, views: AttributeViews, supply: Item): SupplyPage {
  const { fleet } = compiled;
  const panel = fleet.panels.find(({ id }) => id === supply.panel);
  if (!panel) throw new Error(`${supply.id} stands on no panel`);
  const own = compiled.behaviours.filter(({ item }) => item === supply);
  const fed = feeds(compiled, supply);
  return {
    kind: 'supply',
    address: itemAddress(supply),
    title: supply.title,
    trail: trailTo(panel),
    ...definedBase(fleet, supply),
    citations: citations(fleet, citing(supply)),
    panel: { to: panelAddress(panel), title: panel.title },
    order: supplyView(compiled, supply),
    attributes: own.map((behaviour) => viewOf(views, behaviour)),
    feeds: fed,
    lostBy: own
      .flatMap((behaviour) => causesOf(compiled, behaviour))
      .map((cause) => ({
        to: SUPPLIES,
        anchor: anchorOf(compiled, cause),
        words: [text(causeTitle(compiled, cause))],
      })),
    reads: variablesOf(compiled, supply).flatMap(listedVariables),
    readBy: [
      ...fleet.items
        .filter((other) => itemsNamedBy(fleet, other).includes(supply))
        .filter((other) => fed.every(({ to }) => to !== itemAddress(other)))
        .map(listedItem),
      ...listedReadersInTime(fleet, supply.id),
    ],
  };
}

function suppliesOf({ fleet }: Compiled): Item[] {
  return fleet.items.filter(({ kind }) => kind === 'supply');
}

function supplyView({ fleet }: Compiled, supply: Item): SupplyView {
  const rules = supply.attributes.flatMap((attribute) => attribute.rules);
  const listed = (id: string): Listed[] => [
    ...fleet.conditions.filter((each) => each.id === id).map(listedCondition),
    ...fleet.items.filter((each) => each.id === id).map(({ title, ...item }) => ({ to: itemAddress(item), title })),
  ];
  const unless = rules.find(({ then, when }) => then === 'lost' && when !== undefined)?.when;
  return {
    supply: { to: itemAddress(supply), title: supply.title },
    // A feeder's rule says that it is powered and, where the author asks for more, what else must hold.
    feeders: rules.flatMap(({ then, when }) => {
      const feeder = supply.supply.find((id) => then === `from-${id}`);
      const more = when?.op === 'and' ? when.args[1] : undefined;
      return listed(feeder ?? '').map((one) => ({ feeder: one, when: more ? expressionWords(fleet, more) : [] }));
    }),
    unless: unless ? expressionWords(fleet, unless) : [],
  };
}

/** Supplies, items and single lamps that name it, where they are fitted. */
function feeds(compiled: Compiled, supply: Item): SupplyPage['feeds'] {
  const { fleet, fits, diagrams, space, expressions } = compiled;
  return fleet.items.flatMap((item) => {
    const fitted = expressions.itemFitted(item);
    const effectivity = effectivityOf(
      compiled,
      fits.filter((fit) => fit.settled.some((settled) => holdsOn(diagrams, space, fitted, settled))),
    );
    const lamps = item.attributes.filter(({ lamp }) => lamp?.supply.includes(supply.id));
    return [
      ...(item.supply.includes(supply.id) ? [{ ...listedItem(item), effectivity }] : []),
      ...lamps.map(({ title }) => ({ to: itemAddress(item), title: `${item.title}: ${title}`, effectivity })),
    ];
  });
}
