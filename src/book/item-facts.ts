/** What can be said of an item beside its tables: overrides, legends by aircraft, what holds a message back. */
import type { Compiled } from '../compile/index.ts';
import type { Expression } from '../language/index.ts';
import { type Attribute, type Fleet, type Item, overridesOf } from '../model/index.ts';
import { CONDITIONS, itemAddress, sequenceAddress, signalAnchor } from './addresses.ts';
import type { Inline, ItemPage, OverrideView } from './book.ts';
import { link, plain, queryLink, separate, text, upperFirst } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { expressionWords } from './expression-words.ts';
import { citations } from './links.ts';
import { signalsIn } from './mentions.ts';
import { isItemOn, itemLegend } from './positions.ts';

/** The overrides that touch the item, the strongest first. */
export function overrideViews({ fleet }: Compiled, item: Item): OverrideView[] {
  const touching = new Map(
    item.attributes.flatMap((attribute) =>
      overridesOf(fleet.overrides, item, attribute).map((override) => [override, attribute] as const),
    ),
  );
  return fleet.overrides.flatMap((override): OverrideView[] => {
    const attribute = touching.get(override);
    if (!attribute) return [];
    const quiet = override.quiet ? [text(' Messages, sounds and sequences take no notice of it.')] : [];
    return [
      {
        id: `override-${override.id}`,
        title: override.title,
        ...(override.about === undefined ? {} : { about: override.about }),
        sentence: [
          text(`${stateWords(item, attribute, override.then)} `),
          ...condition(fleet, override.when),
          text('.'),
          ...quiet,
        ],
        citations: citations(fleet, [override]),
        ...(override.query === undefined
          ? {}
          : {
              query: [text('It breaks what is said to hold in every case: see '), queryLink(override.query), text('.')],
            }),
      },
    ];
  });
}

/** "Dark with the logo switch at OFF, whatever overrides say." */
export function inEveryCase({ fleet }: Compiled, item: Item): Inline[][] {
  return item.attributes.flatMap((attribute) =>
    attribute.rules
      .filter((rule) => rule.inEveryCase)
      .map((rule) => [
        text(`${stateWords(item, attribute, rule.then)} `),
        ...(rule.when ? condition(fleet, rule.when) : [text('where none of its other rules holds')]),
        text(', whatever overrides say.'),
      ]),
  );
}

/** How a message is held back, what takes its place, and how it latches. */
export function heldBack({ fleet }: Compiled, item: Item): Inline[][] {
  const inhibitions = fleet.signals.filter(({ id }) => item.inhibit.includes(id));
  const stronger = fleet.items.filter(({ id }) => item.suppressedBy.includes(id));
  const latch = fleet.sequences.find(({ id }) => id === item.latch);
  const guardTo = (mode: string): Expression | undefined =>
    latch?.transitions.find(({ to }) => to === mode)?.guard?.when;
  const [set, reset] = ['set', 'reset'].map(guardTo);
  return [
    ...inhibitions.map((signal) => [
      text('Held back '),
      ...expressionWords(fleet, { op: 'signal', id: signal.id, place: signal.place }),
      text(': '),
      ...condition(fleet, signal.expression),
      text('.'),
    ]),
    ...(stronger.length > 0
      ? [
          [
            text('Not shown while '),
            ...separate(stronger.map((other) => [link(itemAddress(other), other.title)])),
            text(stronger.length > 1 ? ' are shown in its place.' : ' is shown in its place.'),
          ],
        ]
      : []),
    ...(latch && set && reset
      ? [
          [
            link(sequenceAddress(latch), 'Latched'),
            text(': raised '),
            ...condition(fleet, set),
            text('; reset '),
            ...condition(fleet, reset),
            text('.'),
          ],
        ]
      : []),
  ];
}

/** The open questions that its rules wait for. */
export function openQueries({ fleet }: Compiled, item: Item): Inline[][] {
  const asked = new Set(item.attributes.flatMap(({ rules }) => rules.flatMap(({ query }) => query ?? [])));
  return fleet.queries
    .filter(({ id }) => asked.has(id))
    .map(({ id, question, to, asked: date }) => [queryLink(id), text(`: ${question} Asked of ${to} on ${date}.`)]);
}

/** What stands on it by aircraft, where that differs. */
export function legendsByAircraft(compiled: Compiled, item: Item): ItemPage['legends'] {
  if (item.legends.length === 0) return [];
  const having = compiled.fits.filter((fit) => isItemOn(item, fit));
  const groups = Map.groupBy(having, (fit) => plain(itemLegend(item, fit)));
  return [...groups].map(([legend, fits]) => ({ legend, effectivity: effectivityOf(compiled, fits) }));
}

/** An expression, and what the signals in it mean. */
function condition(fleet: Fleet, expression: Expression): Inline[] {
  return [
    ...expressionWords(fleet, expression),
    ...signalsIn(fleet, [expression]).flatMap((signal) => [
      text(' ('),
      link(CONDITIONS, signal.title, signalAnchor(signal.id)),
      text(': '),
      ...expressionWords(fleet, signal.expression),
      text(')'),
    ]),
  ];
}

/** "Lit", or "Lamp: lit" where several things can be seen of the item. */
function stateWords(item: Item, attribute: Attribute, state: string): string {
  const title = attribute.states.find(({ id }) => id === state)?.title ?? state;
  const several = item.attributes.filter(({ lamp }) => !lamp).length > 1 || attribute.lamp !== undefined;
  return upperFirst(several ? `${attribute.title}: ${title}` : title);
}
