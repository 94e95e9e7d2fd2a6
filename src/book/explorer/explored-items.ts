/** What items are in a case, told shortly: lamps that do as their light does are not told by themselves. */
import { NOT_FITTED } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import { type Item, withSmallInitial } from '../../model/index.ts';
import { itemAddress, panelAddress } from '../addresses.ts';
import type { Listed } from '../book.ts';
import type { ChangedView, ShownView } from '../book-explorer.ts';
import { stateView } from '../cells.ts';
import type { ExploredFleet } from './explored-fleet.ts';

export type Outcome = number;

/** Attributes of one item of which the same is told: one by itself, or several lamps. */
interface Told {
  readonly item: Item;
  /** Places among the attributes of the fleet; the first stands for all. */
  readonly places: readonly number[];
}

/**
 * `keys` tells what is said of each attribute; lamps with the same key as their light are left out. What is seen comes before what
 * feeds it.
 */
function toldOf({ explorer }: ExploredFleet, keys: readonly string[]): Told[] {
  const { attributes } = explorer.fleet;
  const places = attributes.map((_, at) => at);
  const isFeeding = (at: number): number => (attributes[at]?.item.kind === 'supply' ? 1 : 0);
  const inOrder = places.toSorted((a, b) => isFeeding(a) - isFeeding(b));
  return [...Map.groupBy(inOrder, (at) => attributes[at]?.item)].flatMap(([item, own]) => {
    if (!item) return [];
    const isLamp = (at: number): boolean => attributes[at]?.attribute.lamp !== undefined;
    const lamps = own.filter(isLamp);
    const others = own.filter((at) => !isLamp(at));
    const alike = [...Map.groupBy(lamps, (at) => keys[at]).values()];
    const follow = alike.length === 1 && keys[lamps[0] ?? -1] === keys[others[0] ?? -1];
    return [...others.map((at) => [at]), ...(follow ? [] : alike)].map((some) => ({ item, places: some }));
  });
}

/** "Position lights", "Landing lights, stowage", "Position lights, left lamp and tail lamp". */
function listedOf({ explorer }: ExploredFleet, { item, places }: Told): Listed {
  const own = item.attributes.filter(({ lamp }) => !lamp);
  const several = places.map((at) => explorer.fleet.attributes[at]?.attribute).flatMap((each) => each ?? []);
  const isPlain = several.length === 1 && own.length === 1 && own[0]?.id === several[0]?.id;
  const detail = list(
    several.map(({ title }) => withSmallInitial(title)),
    'and',
  );
  return { to: itemAddress(item), title: isPlain ? item.title : `${item.title}, ${detail}` };
}

function shown(fleet: ExploredFleet, outcomes: readonly Outcome[], told: Told): ShownView {
  const { explorer } = fleet;
  const [first = 0] = told.places;
  const { attribute, item } = explorer.fleet.attributes[first] as (typeof explorer.fleet.attributes)[number];
  return {
    what: listedOf(fleet, { ...told, item }),
    state: stateView(explorer.fleet, attribute, outcomes[first] as number),
  };
}

/** What another state is after a step than before it. */
export function changedItems(
  fleet: ExploredFleet,
  before: readonly Outcome[],
  after: readonly Outcome[],
): ChangedView[] {
  const keys = after.map((outcome, at) => `${before[at]} ${outcome}`);
  return toldOf(fleet, keys)
    .filter(({ places: [at = 0] }) => before[at] !== after[at])
    .map((told) => ({
      what: listedOf(fleet, told),
      before: shown(fleet, before, told).state,
      after: shown(fleet, after, told).state,
    }));
}

/** What is not dark, and what is neither lit nor as it is in the normal case. */
export function shownItems(
  fleet: ExploredFleet,
  outcomes: readonly Outcome[],
  normal: readonly Outcome[],
): ShownView[] {
  return toldOf(
    fleet,
    outcomes.map((outcome, at) => `${outcome} ${outcome === normal[at]}`),
  )
    .filter(({ places: [at = 0] }) => outcomes[at] !== NOT_FITTED)
    .map((told) => ({
      view: shown(fleet, outcomes, told),
      isNormal: told.places.every((at) => outcomes[at] === normal[at]),
    }))
    .filter(({ view, isNormal }) => view.state.glyph !== 'dark' && (view.state.glyph !== 'none' || !isNormal))
    .map(({ view }) => view);
}

/** Everything that is fitted, by panel. */
export function itemsByPanel(
  fleet: ExploredFleet,
  outcomes: readonly Outcome[],
): { panel: Listed; items: readonly ShownView[] }[] {
  const told = toldOf(fleet, outcomes.map(String)).filter(({ places: [at = 0] }) => outcomes[at] !== NOT_FITTED);
  return fleet.panels
    .map((panel) => ({
      panel: { to: panelAddress(panel), title: panel.title },
      items: told.filter(({ item }) => item.panel === panel.id).map((each) => shown(fleet, outcomes, each)),
    }))
    .filter(({ items }) => items.length > 0);
}
