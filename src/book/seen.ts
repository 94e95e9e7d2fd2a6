/** What can be seen, on which aircraft, and what it can mean: for readers who begin with what is before them. */
import { type Compiled, type Fit, positionsOf, type SettledFit } from '../compile/index.ts';
import type { Control } from '../model/index.ts';
import { controlAddress, LEGENDS, SEEN } from './addresses.ts';
import type { Observation, SeenData, SeenPart, SeenThing } from './book-seen.ts';
import { text, upperFirst } from './cells.ts';
import { effectivityOf } from './effectivity.ts';
import { listedControl } from './links.ts';
import { hasLegends } from './lists.ts';
import { numberWord } from './number-words.ts';
import { positionsOn } from './positions.ts';
import { slug } from './row-keys.ts';
import { legendSights, lightSights } from './seen-lights.ts';

/** The observations in the order of the page, and the data of the page's script. */
export interface Seen {
  readonly observations: readonly Sight[];
  readonly data: SeenData;
}

/** One way to see a thing, before its sets of fits are numbered. */
export interface Way {
  readonly id: string;
  readonly title: string;
  /** What colour it shows, in the author's words; absent where it is dark, or where none is known. */
  readonly colour?: string;
  readonly fits: readonly SettledFit[];
  readonly things: readonly WayThing[];
  readonly parts: readonly WayPart[];
}
/** By the place of the attribute among the behaviours. */
export type WayPart = Omit<SeenPart, 'set'> & { readonly fits: readonly SettledFit[] };
export type WayThing = Omit<SeenThing, 'set' | 'groups'> & {
  readonly fits: readonly SettledFit[];
  readonly groups: readonly {
    readonly fits: readonly Fit[];
    readonly occasions: SeenThing['groups'][number]['occasions'];
  }[];
};
/** Something to look at, with the panel that it is listed under. */
export type Sight = Observation & { readonly panel: string };
export type SightOf = Omit<Sight, 'choices'> & { readonly ways: readonly Way[] };

export function seenOf(compiled: Compiled): Seen {
  const sights = [...legendSights(compiled), ...lightSights(compiled)];
  const all = [...sights, ...controlSights(compiled), ...colourSights(compiled, sights)].filter(
    ({ ways }) => ways.length > 0,
  );
  return {
    observations: all.map(({ ways, ...sight }) => ({
      ...sight,
      choices: ways.map(({ id, title, fits }) => ({
        id,
        title,
        effectivity: effectivityOf(
          compiled,
          compiled.fits.filter(({ settled }) => settled.some((fit) => fits.includes(fit))),
        ),
      })),
    })),
    data: dataOf(compiled, all),
  };
}

function dataOf({ fleet, fits }: Compiled, all: readonly SightOf[]): SeenData {
  const sets = new Sets();
  return {
    periods: fleet.aircraft.flatMap(({ serial, registration }) =>
      fits.flatMap((fit) =>
        fit.holders
          .filter(({ aircraft }) => aircraft.serial === serial)
          .map(({ aircraft: _, ...time }) => {
            return { serial, registration, ...time, fit: fit.index, settled: sets.of(fit.settled) };
          }),
      ),
    ),
    choices: Object.fromEntries(
      all.map(({ id, ways }) => [id, Object.fromEntries(ways.map((way) => [way.id, meaningOf(way, sets)]))]),
    ),
    sets: sets.all,
  };
}

function meaningOf({ fits, things, parts }: Way, sets: Sets): SeenData['choices'][string][string] {
  return {
    set: sets.of(fits),
    parts: parts.map(({ fits: on, ...part }) => ({ ...part, set: sets.of(on) })),
    things: things.map(({ fits: on, groups, ...thing }) => ({
      ...thing,
      set: sets.of(on),
      groups: groups.map(({ fits: of, occasions }) => ({ fits: sets.of(of), occasions })),
    })),
  };
}

/** Sets of fits by number, each once. */
class Sets {
  readonly all: number[][] = [];
  readonly #places = new Map<string, number>();

  of(fits: readonly { readonly index: number }[]): number {
    const set = [...new Set(fits.map(({ index }) => index))].sort((a, b) => a - b);
    const key = set.join();
    const place = this.#places.get(key) ?? this.all.push(set) - 1;
    this.#places.set(key, place);
    return place;
  }
}

/** Each number of positions that a control has somewhere, and that it is not fitted. */
function controlSights({ fleet, settled }: Compiled): SightOf[] {
  return fleet.controls.map((control): SightOf => {
    const byCount = Map.groupBy(settled, (fit) => positionsOf(control, fit).length);
    const { to, title, detail } = listedControl(control);
    return {
      id: control.id,
      kind: 'control',
      title,
      ...(detail === undefined ? {} : { detail }),
      more: { to, title },
      panel: fleet.panels.find(({ id }) => id === control.panel)?.title ?? '',
      ways: [...byCount]
        .toSorted(([a], [b]) => (a || Number.MAX_SAFE_INTEGER) - (b || Number.MAX_SAFE_INTEGER))
        .map(([count, fits]) => ({
          id: String(count),
          title: count === 0 ? 'not fitted' : `${numberWord(count)} ${count === 1 ? 'position' : 'positions'}`,
          fits,
          things: controlThings(control, fits),
          parts: [],
        })),
    };
  });
}

function controlThings(control: Control, fits: readonly SettledFit[]): WayThing[] {
  const byWords = Map.groupBy(fits, (fit) => JSON.stringify(positionsOn(control, fit)));
  return [...byWords.values()].map((some) => ({
    what: { to: controlAddress(control), title: control.title },
    fits: some,
    groups: [],
    notes: [[...positionsOn(control, some[0] as SettledFit), text('.')]],
  }));
}

/** Each colour that something lit can have. */
function colourSights(compiled: Compiled, sights: readonly SightOf[]): SightOf[] {
  const colours = [...new Set(sights.flatMap(({ ways }) => ways.flatMap((way) => coloursIn(way.colour))))].sort();
  const more = hasLegends(compiled)
    ? { to: LEGENDS, title: 'Legends' }
    : { to: SEEN, anchor: 'lights', title: 'Lights and lamps' };
  return colours.map((colour): SightOf => {
    const seen = sights.flatMap((sight) =>
      sight.ways.filter((way) => coloursIn(way.colour).includes(colour)).map((way) => ({ sight, way })),
    );
    const things = seen.map(({ sight, way }) => ({
      what: { ...sight.more, title: sight.title, detail: way.title },
      fits: way.fits,
      groups: [],
      notes: [],
    }));
    const parts = seen.flatMap(({ way }) => way.parts);
    return {
      id: `colour-${slug(colour)}`,
      kind: 'colour',
      title: upperFirst(colour),
      colour,
      more,
      panel: '',
      ways: [{ id: 'lit', title: 'lit', fits: things.flatMap(({ fits }) => fits), things, parts }],
    };
  });
}

/** "red, green and white": a light of several lamps that the author does not name; "red or white": one of two colours. */
function coloursIn(words: string | undefined): string[] {
  return words === undefined ? [] : words.split(/, | and | or /);
}
