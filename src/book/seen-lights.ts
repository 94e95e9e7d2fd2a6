/** What can be seen of lights, signs and annunciators: by legend where they have one, by name where not, and lamp by lamp. */
import { type Behaviour, type Compiled, groupsOf, type SettledFit } from '../compile/index.ts';
import type { Attribute, Item } from '../model/index.ts';
import { itemAddress, LEGENDS } from './addresses.ts';
import type { Inline, Listed } from './book.ts';
import { link, text } from './cells.ts';
import { inAlphabet } from './in-alphabet.ts';
import { listedItem } from './links.ts';
import { occasionsOf, quietNode } from './occasions.ts';
import { above, isSeen, legendAnchors, legendOf, legendsOn } from './pages/legends.ts';
import { isItemOn } from './positions.ts';
import { slug } from './row-keys.ts';
import type { SightOf, Way, WayThing } from './seen.ts';

/** What is seen of an item. */
interface Part {
  readonly item: Item;
  readonly attribute: Attribute;
}

export function legendSights(compiled: Compiled): SightOf[] {
  const items = compiled.fleet.items.filter(({ kind }) => kind !== 'message');
  const things = items.flatMap((item) => legendsOn(compiled, item).map((legend) => ({ legend, item })));
  const byLegend = [...Map.groupBy(things, ({ legend }) => legend)].toSorted(([a], [b]) => inAlphabet(a, b));
  const anchors = legendAnchors(byLegend.map(([legend]) => legend));
  return byLegend.map(([legend, some]): SightOf => {
    const of = some.map(({ item }) => item);
    const colours = [...new Set(of.flatMap(({ colour }) => colour ?? []))];
    const detail = [colours.join(' or '), [...new Set(of.map(({ kind }) => kind))].join(' or ')];
    const seen = of.flatMap((item) =>
      item.attributes
        .filter((attribute) => attribute.lamp === undefined && isSeen(attribute))
        .map((attribute) => ({ item, attribute })),
    );
    const id = anchors.get(legend) ?? '';
    const [colour] = colours;
    return {
      id,
      kind: 'legend',
      title: legend,
      detail: detail.filter((words) => words !== '').join(' '),
      ...(colours.length === 1 && colour !== undefined ? { colour } : {}),
      more: { to: LEGENDS, anchor: id, title: legend },
      panel: panelOf(compiled, of[0] as Item),
      ways: waysOf(compiled, seen, colours.length > 1, (item, fit) => legendOf(item, fit) === legend),
    };
  });
}

export function lightSights(compiled: Compiled): SightOf[] {
  const items = compiled.fleet.items.filter(
    (item) => ['light', 'sign', 'annunciator'].includes(item.kind) && legendsOn(compiled, item).length === 0,
  );
  return items.flatMap((item): SightOf[] => {
    const ways = (attributes: readonly Attribute[]): Way[] => {
      const parts = attributes.map((attribute) => ({ item, attribute }));
      return waysOf(compiled, parts, false, () => true);
    };
    const panel = panelOf(compiled, item);
    const { to, title, detail } = listedItem(item);
    const seen = item.attributes.filter(isSeen);
    const whole: SightOf = {
      id: item.id,
      kind: 'light',
      title,
      ...(detail === undefined ? {} : { detail }),
      ...(item.colour === undefined ? {} : { colour: item.colour }),
      more: { to, title },
      panel,
      ways: ways(seen.filter(({ lamp }) => lamp === undefined)),
    };
    const lamps = seen.flatMap((attribute): SightOf[] => {
      const { lamp } = attribute;
      if (!lamp) return [];
      const where = [lamp.colour, lamp.at].filter((words) => words !== undefined).join(', ');
      return [
        {
          id: `${item.id}.${attribute.id}`,
          kind: 'lamp',
          title: `${title}, ${attribute.title}`,
          ...(where === '' ? {} : { detail: where }),
          ...(lamp.colour === undefined ? {} : { colour: lamp.colour }),
          more: { to, anchor: `${item.id}-${attribute.id}`, title },
          panel,
          ways: ways([attribute]),
        },
      ];
    });
    return [whole, ...lamps];
  });
}

/** Each state that a part can be in on some fit, dark last; by the item's colour too, where that tells some apart. */
function waysOf(
  compiled: Compiled,
  parts: readonly Part[],
  byColour: boolean,
  isOn: (item: Item, fit: SettledFit) => boolean,
): Way[] {
  const ways = new Map<string, { title: string; colour?: string; dark: boolean; seen: (Part & { state: string })[] }>();
  for (const part of parts) {
    for (const { id: state, title, glyph } of part.attribute.states) {
      // What is dark shows no colour.
      const dark = glyph === 'dark';
      const colour = dark ? undefined : (part.attribute.lamp?.colour ?? part.item.colour);
      const apart = byColour && colour !== undefined;
      const id = apart ? `${state}-${slug(colour)}` : state;
      const way = ways.get(id) ?? { title: apart ? `${title}, ${colour}` : title, dark, seen: [] };
      if (colour !== undefined) way.colour ??= colour;
      way.seen.push({ ...part, state });
      ways.set(id, way);
    }
  }
  return [...ways]
    .toSorted(([, a], [, b]) => Number(a.dark) - Number(b.dark))
    .flatMap(([id, { title, colour, seen }]): Way[] => {
      const shown = seen.flatMap(({ state, ...part }) => {
        const fits = showing(compiled, part, state).filter((fit) => isOn(part.item, fit));
        return fits.length === 0 ? [] : [{ part, state, fits }];
      });
      if (shown.length === 0) return [];
      const way = { id, title, ...(colour === undefined ? {} : { colour }), fits: shown.flatMap(({ fits }) => fits) };
      const attributeOf = (part: Part): number => compiled.behaviours.indexOf(behaviourOf(compiled, part));
      return [
        {
          ...way,
          things: shown.map(({ part, state, fits }) => thing(compiled, part, state, fits)),
          parts: shown.map(({ part, state, fits }) => ({ attribute: attributeOf(part), state, fits })),
        },
      ];
    });
}

/** The settled fits on which a part is in a state in some case that can happen, or where nobody knows. */
function showing(compiled: Compiled, part: Part, state: string): SettledFit[] {
  const { diagrams, outcomes, settled } = compiled;
  const { settledForms } = behaviourOf(compiled, part);
  const may = (outcome: number): boolean =>
    outcomes.meaning(outcome).kind === 'not stated' || outcomes.statesIn(outcome).includes(state);
  return settled.filter((fit) => diagrams.terminals(settledForms[fit.index] as number).some(may));
}

function behaviourOf({ behaviours }: Compiled, { item, attribute }: Part): Behaviour {
  const found = behaviours.find((each) => each.item === item && each.attribute === attribute);
  if (!found) throw new Error(`${item.id} has no behaviour`);
  return found;
}

function thing(compiled: Compiled, { item, attribute }: Part, state: string, on: readonly SettledFit[]): WayThing {
  const having = compiled.fits.filter(
    (fit) => isItemOn(item, fit) && fit.settled.some((settled) => on.includes(settled)),
  );
  const shown = attribute.states.find(({ id }) => id === state);
  const groups = groupsOf(compiled, quietNode(compiled, item, attribute)).flatMap((group): WayThing['groups'] => {
    const fits = group.fits.filter((fit) => having.includes(fit));
    if (fits.length === 0) return [];
    const occasions = occasionsOf(compiled, attribute, { form: group.form, fits })
      .filter(({ states }) => states.length === 0 || states.includes(state))
      .map(({ states: _, ...occasion }) => occasion);
    return [{ fits, occasions }];
  });
  const quiet = above(compiled, item, attribute, having)
    .filter((each) => each.state.text === shown?.title)
    .map(({ title, alternatives }) => [text(`${title}: `), ...(alternatives[0] ?? []), text('.')]);
  return {
    what: titled(item, attribute),
    fits: on,
    groups,
    notes: [...quiet, ...(shown?.glyph === 'dark' ? darkNotes(item, attribute) : [])],
  };
}

function titled(item: Item, attribute: Attribute): Listed {
  const { to, title, detail } = listedItem(item);
  const what = { to, title: attribute.lamp ? `${title}, ${attribute.title}` : title };
  return detail === undefined ? what : { ...what, detail };
}

/** What dark can come from beside what the cases say: what feeds it, and what of it may have failed. */
function darkNotes(item: Item, attribute: Attribute): Inline[][] {
  if (attribute.lamp) return [];
  const lamps = item.attributes.some(({ lamp }) => lamp !== undefined);
  return [
    ...(item.supply.length === 0 ? [[text('This book names no supply of it; it may be lost all the same.')]] : []),
    lamps
      ? [text('Its lamps fail one by one: '), link(itemAddress(item), 'see each of them', 'lamps'), text('.')]
      : [text('Its own lamp may have failed, whatever the cases say.')],
  ];
}

function panelOf({ fleet }: Compiled, item: Item): string {
  return fleet.panels.find(({ id }) => id === item.panel)?.title ?? '';
}
