/** What is seen, and what it can mean: every legend of annunciators and signs, on every aircraft that has it. */
import { type Compiled, type Fit, groupsOf, holdersOf, legendOn, type SettledFit } from '../../compile/index.ts';
import { type Attribute, type Item, overridesOf, withSmallInitial } from '../../model/index.ts';
import { controlAddress, LEGENDS, MESSAGES, messageAnchor, panelAddress, sequenceAddress } from '../addresses.ts';
import type { Inline } from '../book.ts';
import type { LegendsPage, LegendThing, LegendView, OccasionGroup } from '../book-reference.ts';
import { link, stateView, text, upperFirst } from '../cells.ts';
import { effectivity } from '../effectivity.ts';
import { expressionWords } from '../expression-words.ts';
import { inAlphabet, initialOf } from '../in-alphabet.ts';
import { listedItem } from '../links.ts';
import { namedIn } from '../mentions.ts';
import { occasionOf, occasionsOf, quietNode } from '../occasions.ts';
import { isItemOn } from '../positions.ts';
import { trailTo } from '../trail.ts';
import { isMissing } from './messages.ts';

export function legendsPage(compiled: Compiled): LegendsPage {
  const things = compiled.fleet.items
    .filter(({ kind }) => kind !== 'message')
    .flatMap((item) => legendsOn(compiled, item).map((legend) => ({ legend, item })));
  const byLegend = [...Map.groupBy(things, ({ legend }) => legend)].toSorted(([a], [b]) => inAlphabet(a, b));
  const anchors = legendAnchors(byLegend.map(([legend]) => legend));
  const legends = byLegend.map(
    ([legend, some]): LegendView => ({
      id: anchors.get(legend) ?? '',
      text: legend,
      things: some.map(({ item }) => thing(compiled, item, legend)),
      elsewhere: elsewhere(compiled, legend),
    }),
  );
  const letters = Map.groupBy(legends, ({ text: words }) => initialOf(words));
  return {
    kind: 'legends',
    address: LEGENDS,
    title: 'Legends',
    trail: trailTo(),
    letters: [...letters].map(([letter, some]) => ({ id: `letter-${letter.toLowerCase()}`, letter, legends: some })),
  };
}

/** An anchor for each of some distinct words, made of the letters in them. */
export function legendAnchors(words: readonly string[]): ReadonlyMap<string, string> {
  const anchors = new Map<string, string>();
  const taken = new Set<string>();
  for (const each of words) {
    const slug = `legend-${each
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')}`;
    let anchor = slug;
    for (let count = 2; taken.has(anchor); count += 1) anchor = `${slug}-${count}`;
    taken.add(anchor);
    anchors.set(each, anchor);
  }
  return anchors;
}

/** Every legend that an item has on some aircraft. */
export function legendsOn(compiled: Compiled, item: Item): string[] {
  const fits = compiled.fits.filter((fit) => isItemOn(item, fit));
  return [...new Set(fits.flatMap(({ settled }) => settled.flatMap((fit) => legendOf(item, fit) ?? [])))];
}

export function legendOf({ legend, legends }: Item, fit: SettledFit): string | undefined {
  return legendOn({ legend, legends }, fit);
}

function thing(compiled: Compiled, item: Item, legend: string): LegendThing {
  const { fleet } = compiled;
  const has = (fit: SettledFit): boolean => legendOf(item, fit) === legend;
  const having = compiled.fits.filter((fit) => isItemOn(item, fit) && fit.settled.some(has));
  const seen = item.attributes.filter((attribute) => attribute.lamp === undefined && isSeen(attribute));
  return {
    item: listedItem(item),
    kind: item.kind,
    ...(item.colour === undefined ? {} : { colour: item.colour }),
    where: whereOf(compiled, item),
    ...(item.about === undefined ? {} : { about: item.about }),
    on: effectivity(fleet, holdersOf(having, fleet.aircraft)),
    groups: seen.flatMap((attribute) => groups(compiled, item, attribute, having)),
    above: seen.flatMap((attribute) => above(compiled, item, attribute, having)),
    latches: latchesBehind(compiled, item),
  };
}

/** Whether the attribute is about light at all: brightness by itself has no dark and no lit. */
export function isSeen({ states }: Attribute): boolean {
  return states.some(({ glyph }) => glyph !== 'none');
}

function groups(compiled: Compiled, item: Item, attribute: Attribute, having: readonly Fit[]): OccasionGroup[] {
  return groupsOf(compiled, quietNode(compiled, item, attribute)).flatMap((group): OccasionGroup[] => {
    const fits = group.fits.filter((fit) => having.includes(fit));
    if (fits.length === 0 || isMissing(compiled, group)) return [];
    return [
      {
        effectivity: effectivity(compiled.fleet, holdersOf(fits, compiled.fleet.aircraft)),
        occasions: litFirst(occasionsOf(compiled, attribute, { form: group.form, fits })),
      },
    ];
  });
}

/** Whoever looks a legend up has mostly seen it lit; dark comes last. */
function litFirst(occasions: OccasionGroup['occasions']): OccasionGroup['occasions'] {
  const isDark = ({ state }: OccasionGroup['occasions'][number]): boolean => state.glyph === 'dark';
  return [...occasions.filter((each) => !isDark(each)), ...occasions.filter(isDark)];
}

/** The quiet overrides, which the occasions leave out. */
export function above(
  compiled: Compiled,
  item: Item,
  attribute: Attribute,
  fits: readonly Fit[],
): LegendThing['above'] {
  const { fleet, outcomes } = compiled;
  return overridesOf(fleet.overrides, item, attribute).flatMap((override): LegendThing['above'] => {
    if (!override.quiet) return [];
    const state = stateView(compiled, attribute, outcomes.ofState(override.then));
    return [{ state, title: override.title, ...occasionOf(compiled, override.when, fits) }];
  });
}

/** "The red attention is set with ..., and reset with ..." */
function latchesBehind({ fleet }: Compiled, item: Item): Inline[][] {
  const named = namedIn(
    fleet,
    item.attributes.flatMap(({ rules }) => rules.flatMap(({ when }) => when ?? [])),
  );
  return fleet.sequences
    .filter(({ id, kind }) => kind === 'latch' && named.some((each) => each.kind === 'sequence' && each.id === id))
    .map((latch) => {
      const when = (mode: string): Inline[] => {
        const guard = latch.transitions.find(({ to }) => to === mode)?.guard?.when;
        return guard ? expressionWords(fleet, guard) : [];
      };
      const [sets, resets] = [when('set'), when('reset')];
      return [
        link(sequenceAddress(latch), upperFirst(latch.noun)),
        text(' is set '),
        ...sets,
        text(', and reset '),
        ...resets,
        text('.'),
      ];
    });
}

/** The panel, the control that it belongs to, the zone. */
function whereOf({ fleet }: Compiled, item: Item): Inline[][] {
  const panel = fleet.panels.find(({ id }) => id === item.panel);
  const own = fleet.controls.filter(({ id }) => item.attributes.some(({ control }) => control === id));
  return [
    ...(panel ? [[text('Panel: '), link(panelAddress(panel), panel.title)]] : []),
    ...own.map((control) => [text('Control: '), link(controlAddress(control), control.title)]),
    ...(item.zone === undefined ? [] : [[text(`Zone: ${item.zone.replaceAll('-', ' ')}`)]]),
  ];
}

/** Messages and positions that have the same words. */
function elsewhere({ fleet }: Compiled, legend: string): Inline[][] {
  const messages = fleet.items.filter((item) => item.kind === 'message' && item.legend === legend);
  const positions = fleet.controls.filter((control) =>
    control.positions.some(
      (position) => position.legend === legend || position.legends.some((other) => other.legend === legend),
    ),
  );
  return [
    ...messages.map((item) => [
      text('The same words are the text of a message: '),
      link(MESSAGES, item.title, messageAnchor(item)),
      text('.'),
    ]),
    ...positions.map((control) => [
      text('The same words stand at a position of the '),
      link(controlAddress(control), withSmallInitial(control.title)),
      text('.'),
    ]),
  ];
}
