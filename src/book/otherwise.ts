/** What would be otherwise on the baseline if one option had another value and all others stayed as they are. */
import { type Compiled, comparable, type Fit, fewestChanges, fitOfAircraft, suppose } from '../compile/index.ts';
import { type Fleet, type Item, type Option, UNKNOWN } from '../model/index.ts';
import { aircraftAddress, optionAddress } from './addresses.ts';
import type { OtherwiseView, SoleOption } from './book-differences.ts';
import { link, text } from './cells.ts';
import { differences } from './differences.ts';
import { effectivityOf } from './effectivity.ts';
import { itemsNamedBy, listedItem } from './links.ts';
import { baselineOf } from './pages/aircraft.ts';

/** What an aircraft is called that may not exist. */
const SUCH = 'such an aircraft';

/** As many fits as are ever supposed for one option. */
const MOST_VALUES = 12;

/** The other values of an option against that of the baseline, which must be known. */
export function otherwise(compiled: Compiled, option: Option): SoleOption | undefined {
  const baseline = baselineOf(compiled);
  const there = fitOfAircraft(compiled.fits, baseline.serial);
  const own = option.values.find(({ id }) => id === there.options.get(option.id));
  if (!own) return undefined;
  const others = option.values.filter((value) => value !== own).slice(0, MOST_VALUES);
  return {
    lead: [
      link(aircraftAddress(baseline), baseline.registration),
      text(`, the baseline, has "${own.title}". What would be otherwise on it if nothing but this option changed:`),
    ],
    names: ['Such an aircraft', baseline.registration],
    values: others.map((value) => ({
      id: `with-${value.id}`,
      title: `${value.title} instead of ${own.title}`,
      ...withValue(compiled, option, value.id, there, baseline.registration),
    })),
  };
}

function withValue(
  compiled: Compiled,
  option: Option,
  value: string,
  there: Fit,
  baseline: string,
): Omit<OtherwiseView, 'id' | 'title'> {
  const { fleet, fits } = compiled;
  const nothing = { along: [], unruled: [], differences: [] };
  const options = fewestChanges(fleet, there.options, option.id, value);
  if (!options) return { ...nothing, none: 'forbidden' };
  const along = alongWith(fleet, option, options, there);
  const known = fits.find((fit) => fleet.options.every(({ id }) => fit.options.get(id) === options.get(id)));
  const supposed = known ? { compiled, fit: known, unruled: [] } : suppose(compiled, options);
  if (!supposed) return { ...nothing, along, none: 'unsound' };
  const names = { here: SUCH, there: baseline };
  const unruled = withReaders(compiled, supposed.unruled);
  const behaviours = supposed.compiled.behaviours.filter(({ item }) => !unruled.includes(item));
  const told = comparable({ ...supposed.compiled, behaviours });
  return {
    along,
    ...(known ? { effectivity: effectivityOf(compiled, [known]) } : {}),
    unruled: unruled.map(listedItem),
    differences: differences(told, supposed.fit, there, names, (id) => `${id}-with-${value}`),
  };
}

/** Items and all whose rules name one of them, one after another, in the fleet's order. */
function withReaders({ fleet }: Compiled, items: readonly Item[]): Item[] {
  const found = new Set(items);
  for (const item of found) {
    for (const reader of fleet.items) if (itemsNamedBy(fleet, reader).includes(item)) found.add(reader);
  }
  return fleet.items.filter((item) => found.has(item));
}

/** The other options that change with it. */
function alongWith(
  fleet: Fleet,
  option: Option,
  options: ReadonlyMap<string, string>,
  there: Fit,
): OtherwiseView['along'] {
  const titleOf = ({ values }: Option, id: string | undefined): string =>
    id === UNKNOWN ? 'unknown' : (values.find((value) => value.id === id)?.title ?? '');
  return fleet.options
    .filter((other) => other !== option && options.get(other.id) !== there.options.get(other.id))
    .map((other) => ({
      option: { to: optionAddress(other), title: other.title },
      value: titleOf(other, options.get(other.id)),
      instead: titleOf(other, there.options.get(other.id)),
    }));
}
