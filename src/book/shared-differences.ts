/** What several fits have in common against one: each thing once, with all the aircraft of which it is true. */
import { type Comparable, type Compiled, comparable, type Fit } from '../compile/index.ts';
import { panelAddress } from './addresses.ts';
import type { NotFittedView, PanelDifferences, Shared, SharedPanel } from './book-differences.ts';
import { differences } from './differences.ts';
import { effectivityOf } from './effectivity.ts';
import type { Names } from './names.ts';

/** How several aircraft at once are called. */
export const THESE = 'these aircraft';

/** The pairs that are compared: each fit with the reference, which may be on either side. */
export interface Comparing {
  readonly fits: readonly Fit[];
  readonly sides: (fit: Fit) => readonly [here: Fit, there: Fit];
  /** What the two are called, where the fit's aircraft are called so. */
  readonly names: (aircraft: string) => Names;
}

type Kind = 'looks' | 'notFitted' | 'lone' | 'differences';

/** What the fits are compared in, where it is not the fleet itself: `compared`. By fit what differs, and by panel each thing once. Anchors of a thing are the same in both. */
export function sharedDifferences(
  compiled: Compiled,
  comparing: Comparing,
  compared: Comparable = comparable(compiled),
): { byFit: ReadonlyMap<Fit, PanelDifferences[]>; panels: SharedPanel[] } {
  const { fits, sides, names } = comparing;
  const of = (fit: Fit, aircraft: string): PanelDifferences[] =>
    differences(compared, ...sides(fit), names(aircraft), (id) => `${id}-${firstOf(fit)}`.toLowerCase()).map(
      (panel) => ({ ...panel, notFitted: panel.notFitted.flatMap(oneByOne) }),
    );
  const all = new Map(fits.map((fit) => [fit, of(fit, THESE)]));
  // What only one aircraft has calls it by its name.
  const single = new Map<string, PanelDifferences[]>();
  const named = (fit: Fit, name: string): PanelDifferences[] => {
    const key = `${fit.index} ${name}`;
    const known = single.get(key) ?? of(fit, name);
    single.set(key, known);
    return known;
  };
  const firstIds = new Map<string, string>();
  const shared = <K extends Kind>(panel: string, kind: K): Shared<PanelDifferences[K][number]>[] => {
    const found = fits.flatMap((fit) =>
      (all.get(fit) ?? [])
        .filter((each) => each.panel.to === panel)
        .flatMap((each) => each[kind].map((what, at) => ({ fit, what: what as PanelDifferences[K][number], at }))),
    );
    return [...Map.groupBy(found, ({ what }) => keyOf(what)).values()].map((some) => {
      const [{ fit, what, at }] = some as [(typeof some)[number]];
      for (const each of some) if ('id' in each.what && 'id' in what) firstIds.set(each.what.id, what.id);
      const effectivity = effectivityOf(
        compiled,
        some.map((each) => each.fit),
      );
      const [only, ...others] = effectivity.aircraft;
      if (!only || others.length > 0) return { what, effectivity };
      const name = [only.registration, only.detail ?? ''].filter((each) => each !== '').join(' ');
      const alone = named(fit, name).find((each) => each.panel.to === panel)?.[kind][at];
      return { what: (alone ?? what) as typeof what, effectivity };
    });
  };
  const differing = new Map([...all.values()].flat().map(({ panel }) => [panel.to, panel]));
  const panels = compiled.fleet.panels.flatMap((each): SharedPanel[] => {
    const panel = differing.get(panelAddress(each));
    if (!panel) return [];
    const parts = {
      looks: shared(panel.to, 'looks'),
      notFitted: together(shared(panel.to, 'notFitted')),
      lone: shared(panel.to, 'lone'),
      differences: shared(panel.to, 'differences'),
    };
    return [{ id: `panel-${each.id}`, panel, ...parts }];
  });
  const renamed = <T extends { readonly id: string }>(view: T): T => ({
    ...view,
    id: firstIds.get(view.id) ?? view.id,
  });
  const byFit = new Map(
    [...all].map(([fit, parts]) => [
      fit,
      parts.map((each) => ({
        ...each,
        lone: each.lone.map(renamed),
        differences: each.differences.map(renamed),
      })),
    ]),
  );
  return { byFit, panels };
}

/** Each item that is not fitted by itself: others can lack some of them. */
function oneByOne({ verdict, items }: NotFittedView): NotFittedView[] {
  return items.map((item) => ({ verdict, items: [item] }));
}

/** Items that the same aircraft lack, at once. */
function together(single: readonly Shared<NotFittedView>[]): Shared<NotFittedView>[] {
  const alike = Map.groupBy(single, ({ what, effectivity }) => `${what.verdict}: ${effectivity.text}`);
  return [...alike.values()].map((some) => {
    const [{ what, effectivity }] = some as [(typeof some)[number]];
    return { what: { ...what, items: some.flatMap((each) => each.what.items) }, effectivity };
  });
}

/** The same for things that read the same: anchors, which lead to the tables of one fit or another, apart. */
function keyOf(what: unknown): string {
  return JSON.stringify(what, (key, value) => (key === 'id' || key === 'anchor' ? undefined : value));
}

/** The first aircraft that has a fit, which stands for it in anchors, with the date where none has it yet. */
export function firstOf({ holders }: Fit): string {
  const now = holders.find(({ from }) => from === undefined);
  const first = now ?? holders[0];
  if (!first) throw new Error('a fit that no aircraft ever has');
  return now ? first.aircraft.serial : `${first.aircraft.serial}-${first.from}`;
}
