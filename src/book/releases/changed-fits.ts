/** What has changed, said once for all aircraft of which it is true. */
import type { Compiled, Fit } from '../../compile/index.ts';
import { conditionAddress, controlAddress, itemAddress, optionAddress, sequenceAddress } from '../addresses.ts';
import type { Address } from '../book.ts';
import type { ChangesPage } from '../book-changes.ts';
import { inShort } from '../differences-in-short.ts';
import { effectivityOf } from '../effectivity.ts';
import { optionValue } from '../fits.ts';
import type { Names } from '../names.ts';
import { sharedDifferences } from '../shared-differences.ts';
import type { ComparedReleases } from './compared-releases.ts';

/** The parts of a page of changes that tell of behaviour. */
export function changedFits(
  compiled: Compiled,
  compared: ComparedReleases,
  names: Names,
  address: Address,
): Pick<ChangesPage, 'groups' | 'panels'> {
  const { fleet, release } = compared;
  const pairs = pairsOf(compiled, compared);
  const sides = new Map(pairs.map(({ fit, before, now }) => [fit, [before, now] as const]));
  const { byFit, panels } = sharedDifferences(
    compiled,
    { fits: pairs.map(({ fit }) => fit), sides: (fit) => sides.get(fit) as readonly [Fit, Fit], names: () => names },
    fleet,
  );
  const groups = pairs
    .map(({ fit, before, now }) => ({
      id: `changed-${fit.holders[0]?.aircraft.serial}`.toLowerCase(),
      effectivity: effectivityOf(compiled, [fit]),
      options: fleet.fleet.options
        .filter(({ id }) => release.comparison.options.some((option) => option.id === id))
        .filter(({ id }) => compiled.fleet.options.some((option) => option.id === id))
        .filter(({ id }) => before.options.get(id) !== now.options.get(id))
        .map((option) => ({
          option: { to: optionAddress(option), title: option.title },
          here: optionValue(option, now),
          baseline: optionValue(option, before),
        })),
      panels: (byFit.get(fit) ?? []).map((each) => ({ panel: each.panel, sentences: inShort(each, address, names) })),
    }))
    .filter((group) => group.panels.length > 0);
  const dead = deadAddresses(compiled, compared);
  return { groups: withoutLinks(groups, dead), panels: withoutLinks(panels, dead) };
}

/** A fit before and now, with a fit that stands for the aircraft that changed from the one to the other. */
interface Pair {
  readonly fit: Fit;
  readonly before: Fit;
  readonly now: Fit;
}

function pairsOf({ fleet }: Compiled, { aircraft }: ComparedReleases): Pair[] {
  const alike = Map.groupBy(aircraft, ({ before, now }) => `${before.index} ${now.index}`);
  return [...alike.values()].flatMap((some, index): Pair[] => {
    const [first] = some;
    if (!first) return [];
    const serials = some.map(({ serial }) => serial);
    const own = fleet.aircraft.filter(({ serial }) => serials.includes(serial));
    const fit = { ...first.now, index, aircraft: own, holders: own.map((one) => ({ aircraft: one })) };
    return [{ fit, before: first.before, now: first.now }];
  });
}

/** The pages that only the earlier book had. */
function deadAddresses({ fleet }: Compiled, { release: { comparison } }: ComparedReleases): ReadonlySet<Address> {
  const here = new Set([
    ...fleet.controls.map(controlAddress),
    ...fleet.items.map(itemAddress),
    ...fleet.conditions.map(conditionAddress),
    ...fleet.sequences.map(sequenceAddress),
  ]);
  const there = [
    ...comparison.controls.map(controlAddress),
    ...comparison.items.map(itemAddress),
    ...comparison.conditions.map(conditionAddress),
    ...comparison.sequences.map(sequenceAddress),
  ];
  return new Set(there.filter((address) => !here.has(address)));
}

/** The same view, in which what led to one of these pages is plain text. */
function withoutLinks<T>(view: T, dead: ReadonlySet<Address>): T {
  if (dead.size === 0) return view;
  return JSON.parse(JSON.stringify(view), (_, value) =>
    value !== null && typeof value === 'object' && value.kind === 'link' && dead.has(value.to)
      ? { kind: 'text', text: value.text }
      : value,
  );
}
