/**
 * Two aircraft of the fleet side by side, on a day: all that differs. The same functions run while the book is built and in
 * the reader's browser.
 *
 * While building: `compareAircraft(comparedFleet(compiled), [here, there], day)` with two serials. In a browser:
 * `compareAircraft(readComparison(packed), ...)`. Both give the same `ComparisonView` (book-differences.ts), which
 * `comparisonHtml` of src/components/difference-html.ts writes as markup: whoever needs the differences of two aircraft, on a
 * page, a sheet or in a notice, needs no more than these.
 */

import { type Comparable, type Compiled, comparable, type Fit } from '../../compile/index.ts';
import { list } from '../../diagnostics/index.ts';
import type { Aircraft, ItemKind } from '../../model/index.ts';
import { COMPARE, optionAddress } from '../addresses.ts';
import type { ComparisonView, PanelDifferences } from '../book-differences.ts';
import { differences } from '../differences.ts';
import { inShort } from '../differences-in-short.ts';
import { optionValue } from '../fits.ts';
import type { Names } from '../names.ts';
import { registrationOn } from '../registration.ts';

/** A fleet that can be compared, with its aircraft in order and the book's date. */
export interface ComparedFleet extends Comparable {
  readonly aircraft: readonly Aircraft[];
  readonly asOf: string;
}

export function comparedFleet(compiled: Compiled): ComparedFleet {
  return { ...comparable(compiled), aircraft: compiled.fleet.aircraft, asOf: compiled.fleet.book.date };
}

/** What an aircraft is on a day. */
export interface OnDay {
  readonly aircraft: Aircraft;
  readonly registration: string;
  readonly fit: Fit;
  /** The first day of that fit, where it is not the one of the book's date. */
  readonly since?: string;
}

/** All that differs between two aircraft, by serial, on a day (an ISO date); undefined where one of them is not in the fleet. */
export function compareAircraft(
  fleet: ComparedFleet,
  serials: readonly [here: string, there: string],
  day: string,
): ComparisonView | undefined {
  const [here, there] = serials.map((serial) => onDay(fleet, serial, day));
  if (!here || !there) return undefined;
  const names = { here: here.registration, there: there.registration };
  const anchor = (id: string): string => comparisonAnchor(serials, id);
  const panels = differences(fleet, here.fit, there.fit, names, anchor);
  const options = fleet.fleet.options
    .filter((option) => here.fit.options.get(option.id) !== there.fit.options.get(option.id))
    .map((option) => ({
      option: { to: optionAddress(option), title: option.title },
      here: optionValue(option, here.fit),
      there: optionValue(option, there.fit),
    }));
  return {
    names: [names.here, names.there],
    anchor: comparisonAnchor(serials, ''),
    notes: [here, there].flatMap(noteOf),
    summary: summary(fleet, panels, options.length, names),
    options,
    inShort: panels.map((each) => ({ panel: each.panel, sentences: inShort(each, COMPARE, names) })),
    panels,
  };
}

/** Where a part of a comparison stands on the page of comparisons. The page reads the two out of the address. */
export function comparisonAnchor(serials: readonly [string, string], id?: string): string {
  return [...serials, ...(id === undefined ? [] : [id])].join('/');
}

/** The aircraft with the fit that it has on a day; undefined where it is not in the fleet. */
export function onDay(
  { aircraft: all, fits }: Pick<ComparedFleet, 'aircraft' | 'fits'>,
  serial: string,
  day: string,
): OnDay | undefined {
  const aircraft = all.find((each) => each.serial === serial);
  if (!aircraft) return undefined;
  const held = fits.flatMap((fit) =>
    fit.holders.filter((holder) => holder.aircraft === aircraft).map(({ from }) => ({ fit, from })),
  );
  // The latest that has begun by then.
  const [now] = held
    .filter(({ from }) => from === undefined || from <= day)
    .toSorted((a, b) => (b.from ?? '').localeCompare(a.from ?? ''));
  if (!now) throw new Error(`${aircraft.registration} has no fit`);
  return {
    aircraft,
    registration: registrationOn(aircraft, day),
    fit: now.fit,
    ...(now.from === undefined ? {} : { since: now.from }),
  };
}

/** What must be said of an aircraft that is not as on the date of the book. */
export function noteOf({ aircraft, registration, since }: OnDay): string[] {
  return [
    ...(registration === aircraft.registration ? [] : [`${registration} was ${aircraft.registration} before.`]),
    ...(since === undefined ? [] : [`${registration} is compared as it is since ${since}.`]),
  ];
}

const KINDS: readonly (readonly [ItemKind, string])[] = [
  ['light', 'lights'],
  ['sign', 'signs'],
  ['annunciator', 'annunciators'],
  ['message', 'messages'],
  ['supply', 'supplies'],
];

/** How much differs, in sentences. */
function summary(
  { fleet: { items } }: ComparedFleet,
  panels: readonly PanelDifferences[],
  options: number,
  { here, there }: Names,
): string[] {
  if (panels.length === 0) {
    return options === 0
      ? [`${here} and ${there} are fitted the same. Nothing looks or behaves differently.`]
      : [`Their options differ, but nothing that this book shows looks or behaves differently.`];
  }
  const differing = new Set(
    panels.flatMap(({ notFitted, differences: differ }) => [
      ...notFitted.flatMap((one) => one.items.map(({ to }) => to)),
      ...differ.map(({ item }) => item.to),
    ]),
  ).size;
  const kinds = KINDS.filter(([kind]) => items.some((item) => item.kind === kind)).map(([, words]) => words);
  const looks = panels.flatMap((panel) => panel.looks).length;
  const lone = panels.flatMap((panel) => panel.lone).length;
  return [
    `Of ${items.length} ${list(kinds, 'and')}, ${differing === 0 ? 'none' : differing} ${
      differing === 1 ? 'differs' : 'differ'
    } between ${here} and ${there}.`,
    ...(looks === 0
      ? []
      : [`${looks} ${looks === 1 ? 'control or legend looks' : 'controls and legends look'} different.`]),
    ...(lone === 0 ? [] : [`${lone} ${lone === 1 ? 'case is' : 'cases are'} possible on one of them only.`]),
  ];
}
